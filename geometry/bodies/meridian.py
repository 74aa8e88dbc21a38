"""Chains of edges in the plane of the axis, walked by their length: what is turned about the axis to a surface.

x is the radius, z the height, s the length from the chain's start. Lengths mm, angles radians.
"""

from __future__ import annotations

from functools import cached_property
from math import acos, inf

import numpy as np

from geometry.bodies.section import Section
from geometry.bodies.tube import Tube
from geometry.plane.edges import FloatArray, IntArray, points_along, spread
from geometry.plane.profile import Profile
from geometry.records import Record

DEVIATION = 0.02  # mm, from a curve to the chords that pictures are drawn with


class Outline(Record, eq=False):
    """Points along the half section of a turned form: (m, 2) each, radius and height; normals leave the wood."""

    points: FloatArray
    normals: FloatArray
    along: FloatArray  # (m,) the distance of each point from the first, along the outline


class Meridian(Record, eq=False):
    """A chain whose outward normals are to the right of travel."""

    line: Profile

    @cached_property
    def ends(self) -> FloatArray:
        """s at each vertex, (n,)."""
        return np.concatenate(([0.0], np.cumsum([edge.length for edge in self.line.edges()])))

    @property
    def length(self) -> float:
        return float(self.ends[-1])

    @cached_property
    def largest_radius(self) -> float:
        """To within DEVIATION."""
        return float(self.at(self.chords(DEVIATION)).points[:, 0].max())

    def at(self, s: FloatArray) -> Outline:
        """The exact points (m, 2) and normals at lengths (m,); at a corner the normal of the edge after it."""
        edge, t = self._edge(s)
        rows, sweep = self.line.vertices, self._sweeps[edge]
        start, end = rows[edge, :2], rows[edge + 1, :2]
        heading = np.arctan2(*(end - start).T[::-1]) + (t - 0.5) * sweep
        normals = np.column_stack((np.sin(heading), -np.cos(heading)))
        return Outline(points_along(start, end, sweep, t), normals, s)

    def chords(self, deviation: float, longest: float = inf) -> FloatArray:
        """Lengths that break the chain into chords which keep to it within `deviation`, none over `longest`.

        Every vertex comes twice, just before it and at it, so that each side has its own normal.
        """
        edges = self.line.edges()
        widest = [2 * acos(max(1 - deviation / edge.radius, 0.5)) if edge.is_arc else inf for edge in edges]
        lengths = np.diff(self.ends)
        counts = np.maximum(np.ceil(np.abs(self._sweeps) / widest), np.ceil(lengths / longest))
        return spread(
            self.ends[:-1], np.nextafter(self.ends[1:], 0.0), np.maximum(counts, 1).astype(np.intp)
        )[0]

    @cached_property
    def _sweeps(self) -> FloatArray:
        return np.array([edge.angle for edge in self.line.edges()])

    def _edge(self, s: FloatArray) -> tuple[IntArray, FloatArray]:
        """Edge and fraction of it at lengths."""
        edge = np.clip(np.searchsorted(self.ends, s, side="right") - 1, 0, len(self.ends) - 2)
        return edge, (s - self.ends[edge]) / (self.ends[edge + 1] - self.ends[edge])


def torus_meridian(major: float, tube: Tube) -> Meridian:
    """Round the tube from the hole's equator by way of the lower side, the rim and the upper side."""
    hole, rim = (major - tube.wide, 0.0), (major + tube.wide, 0.0)
    if not tube.round:
        rows = tube.run((-tube.wide, 0.0), (-tube.wide, 0.0), ccw=True)
        return Meridian(Profile(np.array([*((major + x, y, bulge) for x, y, bulge in rows), (*hole, 0.0)])))
    return Meridian(Profile(np.array(((*hole, 1.0), (*rim, 1.0), (*hole, 0.0)))))


def vessel_meridian(section: Section) -> Meridian:
    """From the axis under the floor out to the foot, up the outside, over the rim, down to the floor's middle."""
    return Meridian(Profile(section.contour.vertices))


def turned_surface(outline: Outline, phi: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Points and unit normals (m, W, 3) of an outline turned about Z, at the angles phi (W,)."""
    c, s = np.cos(phi), np.sin(phi)

    def turned(rows: FloatArray) -> FloatArray:
        x, y = rows[:, :1] * c, rows[:, :1] * s
        return np.stack((x, y, np.broadcast_to(rows[:, 1:], x.shape)), axis=-1)

    return turned(outline.points), turned(outline.normals)
