"""A straight slot that goes over a wall from its rim. Lengths mm."""

from __future__ import annotations

from bisect import bisect_left

import numpy as np

from geometry.curves.room import hull
from geometry.plane.crossings import distances
from geometry.plane.edges import FloatArray
from geometry.plane.profile import Profile
from geometry.records import dataclass

_STEP = 0.5  # mm between the depths that are tried
_PIECES = 8  # in which each edge is looked at
_ASTRAY = 0.45  # radians that a slot may turn from the outside's chord


@dataclass(frozen=True)
class Slot:
    """The depth of a slot along the wall, and the wall's thickness that it is made for."""

    depth: float
    wall: float


def rim_slot(outer: Profile, inner: Profile, deepest: float, within: float) -> Slot | None:
    """The deepest slot whose wall stays `within` of that at the rim; None where there is none.

    The wall at the rim is the shortest way from either arris of the rim to the other side.
    """
    top = outer.end[1]
    arris = [(outer, inner.end), (inner, outer.end)]
    wall = min(float(distances(side.edges(), np.array([end]))[0]) for side, end in arris)
    lowest = max(outer.bottom, inner.bottom)

    def too_deep(drop: float) -> bool:
        if top - drop <= lowest:
            return True
        width, depth = strip(outer, inner, top - drop)
        return depth > deepest or width > wall + within

    drops = np.arange(_STEP, deepest + _STEP / 2, _STEP).tolist()
    most = bisect_left(drops, True, key=too_deep)  # what holds more of the wall is no narrower and no shorter
    return Slot(strip(outer, inner, top - drops[most - 1])[1], wall) if most else None


def strip(outer: Profile, inner: Profile, low: float) -> tuple[float, float]:
    """The narrowest straight strip that holds the wall from a height up to the rim: its width and length.

    So long as both sides of the wall lie in it.
    """
    sides = [_points(side.between(low, side.top)) for side in (outer, inner)]
    points = hull(np.concatenate(sides))
    along = _directions(points, sides[0][-1] - sides[0][0])
    widths = np.ptp(points @ np.stack((-along[:, 1], along[:, 0])), axis=0)
    best = int(widths.argmin())
    deepest = max(float(side[0] @ along[best]) for side in sides)
    return float(widths[best]), float((points @ along[best]).max()) - deepest


def _directions(corners: FloatArray, chord: FloatArray) -> FloatArray:
    """Unit vectors (k, 2) along which a strip may lie: one side of the narrowest is a side of the hull."""
    middle = np.arctan2(chord[1], chord[0])
    sides = np.roll(corners, -1, axis=0) - corners
    sides = sides[np.hypot(*sides.T) > 1e-6]
    turns = (np.arctan2(sides[:, 1], sides[:, 0]) - middle + np.pi / 2) % np.pi - np.pi / 2
    angles = middle + np.append(turns[np.abs(turns) <= _ASTRAY], 0.0)  # upward, as the chord is
    return np.column_stack((np.cos(angles), np.sin(angles)))


def _points(profile: Profile) -> FloatArray:
    return np.array(
        [edge.point_at(t) for edge in profile.edges() for t in np.linspace(0.0, 1.0, _PIECES + 1)]
    )
