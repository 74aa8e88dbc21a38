"""A vessel's profile moved by what was turned too far at some heights. Lengths mm; x is the radius, y the height."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from geometry.curves.biarcs import biarcs
from geometry.plane.edges import SAME_POINT, Edge, FloatArray, points_along
from geometry.plane.levels import clip
from geometry.plane.loops import part
from geometry.plane.profile import Profile
from geometry.records import Record

AXIS = 10.0  # mm from the axis within which a profile is moved in proportion, so that it still ends there


class Shift(Record):
    """Radial, by height: as stated at `heights` (rising), between them without a kink or an overshoot, level beyond."""

    heights: tuple[float, ...]
    shifts: tuple[float, ...]

    def at(self, z: FloatArray) -> FloatArray:
        """Smooth step, 3t² - 2t³, from each height to the next."""
        k, t = self._place(z)
        low, high = np.array(self.shifts)[k], np.array(self.shifts)[np.minimum(k + 1, len(self.shifts) - 1)]
        return np.asarray(low + (high - low) * t**2 * (3 - 2 * t))

    def slope(self, z: FloatArray) -> FloatArray:
        """Its derivative by the height."""
        k, t = self._place(z)
        last = len(self.shifts) - 1
        low, high = np.array(self.shifts)[k], np.array(self.shifts)[np.minimum(k + 1, last)]
        own = np.array(self.heights)[np.minimum(k + 1, last)] - np.array(self.heights)[k]
        return np.asarray((high - low) * 6 * t * (1 - t) / np.where(own > 0, own, 1.0))

    def _place(self, z: FloatArray) -> tuple[np.ndarray, FloatArray]:
        """The stated height at or under each, and how far each is on its way to the next, 0 to 1."""
        heights = np.array(self.heights)
        k = np.clip(np.searchsorted(heights, z, side="right") - 1, 0, len(heights) - 1)
        own = heights[np.minimum(k + 1, len(heights) - 1)] - heights[k]
        return k, np.clip((z - heights[k]) / np.where(own > 0, own, 1.0), 0.0, 1.0)


class _Moved(Record):
    """An edge of a profile, moved."""

    edge: Edge
    shift: Shift

    @property
    def knots(self) -> FloatArray:
        return np.array((0.0, 1.0))

    def at(self, t: FloatArray) -> FloatArray:
        places = self._places(t)
        share = np.minimum(1.0, places[..., 0] / AXIS)
        return places + np.stack((self.shift.at(places[..., 1]) * share, 0.0 * share), axis=-1)

    def derivative(self, t: FloatArray) -> FloatArray:
        t = np.asarray(t, dtype=np.float64)
        heading = self.edge.heading(0.0) + t * self.edge.angle
        dx, dy = np.cos(heading), np.sin(heading)
        places = self._places(t)
        share, near = np.minimum(1.0, places[..., 0] / AXIS), places[..., 0] < AXIS
        grown = self.shift.slope(places[..., 1]) * dy * share
        grown = grown + np.where(near, self.shift.at(places[..., 1]) * dx / AXIS, 0.0)
        return np.asarray(self.edge.length * np.stack((dx + grown, dy), axis=-1))

    def _places(self, t: FloatArray) -> FloatArray:
        start, end = np.array(self.edge.start), np.array(self.edge.end)
        return points_along(start, end, np.array(self.edge.angle), np.asarray(t, dtype=np.float64))


def moved(profile: Profile, shift: Shift, tolerance: float) -> Profile:
    """The profile with every place of it moved along its radius, as arcs within `tolerance` of that, square to it.

    Heights stay. Raises ValueError where the shift carries it over the axis, or it no longer rises.
    """
    rows = [biarcs(_Moved(edge, shift), tolerance) for edge in _cut_at(profile, shift.heights)]
    found = np.vstack([*(piece[:-1] for piece in rows), rows[-1][-1:]])
    if found[:, 0].min() < -tolerance or Profile(found).fold() is not None:
        raise ValueError("what was turned too far leaves no profile")
    return Profile(found)


def _cut_at(profile: Profile, heights: Sequence[float]) -> Iterator[Edge]:
    """Its edges, cut at these heights, so that each is moved smoothly."""
    for edge in profile.edges():
        low, high = edge.start[1], edge.end[1]
        inside = [z for z in heights if low + SAME_POINT < z < high - SAME_POINT]
        for bounds in pairwise((low, *inside, high)) if inside else ():
            if ends := clip(edge, *bounds):
                yield part(edge, *ends)
        if not inside:
            yield edge


class Station(Record):
    """A height at which the diameter is gauged."""

    height: float
    radius: float  # finished
    name: str

    @property
    def slug(self) -> str:
        """Its name in ids and in names of files."""
        return self.name.replace(" ", "-")

    @property
    def place(self) -> str:
        """ "the foot", "station 2", "the widest place" """
        return (
            self.name if self.name[-1].isdigit() else f"the {self.name}{' place' * (self.name == 'widest')}"
        )
