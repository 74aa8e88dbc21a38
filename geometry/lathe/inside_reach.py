"""How deep a flat gauge gets into a hollow whose mouth it has to pass. Lengths mm.

The plate lies in a plane through the axis: from a straight back to its working edge. It goes in straight down,
moved towards the far side, and is then moved back to touch.
"""

from __future__ import annotations

import math

import numpy as np

from geometry.plane.crossings import crossings, parameter
from geometry.plane.distinct import distinct
from geometry.plane.edges import Edge, FloatArray, points_along
from geometry.plane.loops import part
from geometry.plane.profile import Profile, from_edges
from geometry.records import dataclass

_PIECES = 16  # in which each arc of a profile is looked at
_FLAT = 0.02  # sine of the least slope of a wall; what lies flatter is a floor
_LEAST_RADIUS = 3.0  # nearer to the axis no plate is thinned for
_WIDE = 24.0  # a plate whose back stands on the axis and that is narrower reaches past the axis, if it can
_SAME = 1e-9


@dataclass(frozen=True)
class Reach:
    """How far a plate gets: down to the height `low`, with its back at x = `back` when it touches.

    `width` is the least between back and working edge above a wider place; what tapers down does not count.
    """

    low: float
    back: float
    width: float


def reach(hollow: Profile, edge: Profile, play: float, least: float, thick: float = 0.0) -> Reach | None:
    """How far a plate with this working edge gets into a hollow; None when it would be narrower than `least`.

    Its working edge is thin, bevelled where the plate is not; its back is `thick` and square, so that in a round
    mouth the arrises of the back meet the wood before its middle does.

    Both profiles run from the axis out along the floor and up to the mouth. At any height above what has
    passed there must be `play` on both sides. The back stands on the axis, or as near beside it as it must or,
    for width, may.
    """
    heights, inside, out = _from_the_top(hollow, edge)
    narrowest = np.minimum.accumulate(inside)
    moved = np.maximum.accumulate(out - narrowest + play).clip(min=0.0)
    past_axis = min(0.0, float(out[0]) - _WIDE)
    behind = np.sqrt(np.maximum(narrowest**2 - (thick / 2) ** 2, 0.0))
    back = np.maximum.accumulate(play + moved - behind).clip(min=past_axis)
    width = _neck(out) - back
    bad = np.flatnonzero((width < least) | (out < back))
    last = (int(bad[0]) if len(bad) else len(heights)) - 1
    return Reach(float(heights[last]), float(back[last]), float(width[last])) if last > 0 else None


def _from_the_top(hollow: Profile, edge: Profile) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Heights from the mouth down to the edge's lowest, and the radii of hollow and edge there."""
    a, b = _looked_at(hollow), _looked_at(edge)
    heights = distinct(np.concatenate((a[:, 1], b[:, 1], np.linspace(edge.bottom, edge.top, 200))))
    heights = heights[(heights >= edge.bottom) & (heights <= min(edge.top, hollow.top))][::-1]
    inside, out = (np.interp(heights, points[:, 1], points[:, 0]) for points in (a, b))
    return heights, inside, out


def _looked_at(profile: Profile) -> FloatArray:
    """Points (m, 2) along a rising profile, each a trace higher than the last, so that steps stay in order."""
    rows, t = profile.vertices, np.linspace(0.0, 1.0, _PIECES + 1)
    sweep = 4.0 * np.arctan(rows[:-1, 2, None])
    points = points_along(rows[:-1, None, :2], rows[1:, None, :2], sweep, t).reshape(-1, 2)
    points[:, 1] = np.maximum.accumulate(points[:, 1]) + 1e-9 * np.arange(len(points))
    return points


def _neck(out: FloatArray) -> FloatArray:
    """For each depth the least radius of the edge that has a larger one under it, or the mouth's."""
    least = np.minimum.accumulate(out)
    over = np.where(out[1:] > least[:-1] + _SAME, least[:-1], np.inf)
    return np.asarray(np.minimum(np.minimum.accumulate(np.append(np.inf, over)), out[0]))


def beyond_back(edge: Profile, back: float) -> Profile:
    """A profile from the axis outward, from the place where it first comes to x = `back`."""
    line = Edge((back, edge.bottom - 1.0), (back, edge.top + 1.0))
    edges = edge.edges()
    for k, one in enumerate(edges):
        met = sorted(parameter(one, point) for point in crossings(one, line))
        if met and part(one, met[0], 1.0).length > _SAME:
            return from_edges([part(one, met[0], 1.0), *edges[k + 1 :]])
    return edge


def riding_radius(edge: Profile) -> float:
    """The least radius of the round that a flat plate meets along its edge, square to the surface (Meusnier).

    That of the circle at a height over the slope's sine: on a flat floor a plate does not ride.
    """
    found = [math.inf]
    for one in edge.edges():
        for t in np.linspace(0.0, 1.0, _PIECES + 1):
            x, slope = one.point_at(t)[0], abs(math.sin(one.heading(t)))
            if slope > _FLAT and x > _LEAST_RADIUS:
                found.append(x / slope)
    return min(found)
