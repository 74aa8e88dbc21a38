"""Finished surfaces by their parameters: points and outward normals, for looking at. Lengths mm, angles radians."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from geometry.arcs import FloatArray, points_along
from geometry.contour import Contour
from geometry.profile import Profile
from geometry.section import Section


@dataclass(frozen=True, eq=False)
class Outline:
    """Points along the half section of a turned form: (m, 2) each, radius and height; normals leave the wood."""

    points: FloatArray
    normals: FloatArray
    along: FloatArray  # (m,) the distance of each point from the first, along the outline


def torus_surface(
    major: float, tube: float, phi: FloatArray, theta: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Points and unit normals (..., 3) at angles phi about the axis and theta round the tube, which broadcast.

    theta counts from outside upward. A grid (H, W): phi (W,), theta (H, 1).
    """
    level = np.cos(theta)
    radial = np.stack(np.broadcast_arrays(np.cos(phi), np.sin(phi), 0.0), axis=-1)
    up = np.array((0.0, 0.0, 1.0))
    normals = np.asarray(level)[..., None] * radial + np.sin(theta)[..., None] * up
    return major * radial + tube * normals, normals


def outline(profile: Profile, count: int) -> Outline:
    """`count` points from end to end of a profile, equally far apart along it; normals to the right of travel."""
    contour, last = Contour(profile.vertices), len(profile) - 1  # less the line that closes it
    lengths, sweeps = contour.lengths[:last], contour.sweeps[:last]
    starts = np.cumsum(lengths) - lengths
    along = np.linspace(0.0, lengths.sum(), count)
    edge = np.maximum(np.searchsorted(starts, along, side="right") - 1, 0)
    t = (along - starts[edge]) / lengths[edge]
    points = points_along(contour.points[edge], contour.ends[edge], sweeps[edge], t)
    chord = contour.ends[edge] - contour.points[edge]
    heading = np.arctan2(chord[:, 1], chord[:, 0]) + (t - 0.5) * sweeps[edge]
    return Outline(points, np.column_stack((np.sin(heading), -np.cos(heading))), along)


def outside(section: Section, count: int) -> Outline:
    """The outside from the foot to the rim."""
    return outline(section.outer, count)


def inside(section: Section, count: int) -> Outline:
    """The inside from the middle of the floor to the mouth."""
    found = outline(section.inner, count)
    return Outline(found.points, -found.normals, found.along)


def whole(section: Section, count: int) -> Outline:
    """All of it: from the axis under the foot, up the outside, over the rim, down to the middle of the floor."""
    return outline(Profile(section.contour.vertices), count)


def turned_surface(outline: Outline, phi: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Points and unit normals (m, W, 3) of an outline turned about Z, at the angles phi (W,)."""
    c, s = np.cos(phi), np.sin(phi)

    def turned(rows: FloatArray) -> FloatArray:
        x, y = rows[:, :1] * c, rows[:, :1] * s
        return np.stack((x, y, np.broadcast_to(rows[:, 1:], x.shape)), axis=-1)

    return turned(outline.points), turned(outline.normals)
