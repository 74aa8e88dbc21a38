"""What ends a vessel's inner wall: a flat floor with a rounded corner, a rebate in the rim whose ledge a lid lies on.

x is the radius, y the height. Lengths mm.
"""

from __future__ import annotations

import math

import numpy as np

from geometry.plane.crossings import distances, parameter
from geometry.plane.edges import SAME_POINT, Point
from geometry.plane.profile import Profile

_CLEAR = 1e-6  # mm; an arc that leaves or misses the wall by less touches it


class TightCorner(ValueError):
    """A corner that cannot be rounded as asked; `most` is the largest radius that fits, mm."""

    def __init__(self, corner: float, most: float) -> None:
        self.most = most
        super().__init__(
            f"the corner between floor and wall cannot be rounded to {corner:.6g} mm; "
            f"the largest that fits is {most:.6g} mm"
        )


def with_floor(side: Profile, corner: float) -> Profile:
    """The inner profile: flat from the axis at the foot of `side`, then up it, `side` a profile that only rises.

    An arc of radius `corner`, tangent to both, joins floor and wall; 0 leaves the corner sharp. Raises
    TightCorner when the arc does not fit.
    """
    if not corner >= 0.0:
        raise ValueError(f"the radius of a corner must be 0 mm or more, not {corner:.9g}")
    if corner <= SAME_POINT:
        return Profile(np.concatenate(([(0.0, side.start[1], 0.0)], side.vertices)))
    done = _rounded(side, corner)
    if done is None:
        raise TightCorner(corner, _largest(side, corner))
    return done


def _rounded(side: Profile, corner: float) -> Profile | None:
    """With the corner's arc; None when that does not fit."""
    floor = side.bottom
    if side.top < floor + corner:
        return None
    centre = _centre(side, corner)
    touch = _nearest(side, centre)
    if abs(math.dist(centre, touch) - corner) > _CLEAR or not floor < touch[1] < side.top - SAME_POINT:
        return None
    turned = math.atan2(touch[1] - centre[1], touch[0] - centre[0]) + math.pi / 2.0
    rows = [(0.0, floor, 0.0), (centre[0], floor, math.tan(turned / 4.0))]
    start = rows[1:] if centre[0] <= SAME_POINT else rows
    wall = side.between(touch[1], side.top).vertices
    return Profile(np.concatenate((start, wall)))


def _centre(side: Profile, corner: float) -> Point:
    """The centre of the arc, on the axis where that is too near the wall for it.

    The farther out, the nearer the wall, as a profile that only rises has but one radius at a height; so the
    last place that is clear is closed in on.
    """
    height = side.bottom + corner
    low, high = 0.0, side.radius_at(height)
    for _ in range(6):
        x = np.linspace(low, high, 65)
        clear = distances(side.edges(), np.column_stack((x, np.full(len(x), height)))) >= corner
        last = max(int(clear.sum()) - 1, 0)
        low, high = float(x[last]), float(x[min(last + 1, 64)])
    return low, height


def _nearest(side: Profile, point: Point) -> Point:
    """The point of the wall nearest to a point, the lowest of several."""
    places = [edge.point_at(parameter(edge, point)) for edge in side.edges()]
    return min(places, key=lambda place: (round(math.dist(place, point), 9), place[1]))


def _largest(side: Profile, too_large: float) -> float:
    """The largest radius that fits, by halving, rounded down to three decimals."""
    low, high = 0.0, too_large
    for _ in range(36):
        middle = (low + high) / 2.0
        low, high = (low, middle) if _rounded(side, middle) is None else (middle, high)
    return math.floor(low * 1000.0 + 1e-6) / 1000.0


def rebated(inner: Profile, width: float, depth: float) -> Profile:
    """An inside with its last `depth` below the rim wider than the place under it by `width`.

    Raises ValueError where the ledge would not be under the rim and over the floor, or the mouth is wider already.
    """
    top = inner.end[1]
    if not inner.bottom < top - depth:
        raise ValueError(f"a rebate {depth:.6g} mm deep leaves no inside under its ledge")
    below = inner.between(inner.bottom, top - depth)
    side = below.end[0] + width
    if inner.radii(top - depth, top)[1] > side:
        raise ValueError(
            f"a rebate {width:.6g} mm wide is no wider than the mouth is already: the inside flares"
        )
    return Profile(np.vstack((below.vertices, [(side, top - depth, 0.0), (side, top, 0.0)])))
