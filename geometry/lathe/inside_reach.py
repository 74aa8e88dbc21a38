"""How deep a flat gauge gets into a hollow whose mouth it has to pass, and a slot that goes over a wall from its rim.

Lengths mm.
"""

from __future__ import annotations

import math
from bisect import bisect_left

import numpy as np

from geometry.curves.room import hull
from geometry.plane.crossings import crossings, distances, parameter
from geometry.plane.distinct import distinct
from geometry.plane.edges import Edge, FloatArray, lengths_of, points_along
from geometry.plane.loops import part
from geometry.plane.profile import Profile, from_edges
from geometry.records import Record

_PIECES = 16  # in which each arc of a profile is looked at
_FLAT = 0.02  # sine of the least slope of a wall; what lies flatter is a floor
_LEAST_RADIUS = 3.0  # nearer to the axis no plate is thinned for
_WIDE = 24.0  # a plate whose back stands on the axis and that is narrower reaches past the axis, if it can
_SAME = 1e-9
_WIDER = 0.5  # than what lies over it; less is cut from above


class Reach(Record):
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


def neck(hollow: Profile) -> tuple[float, float] | None:
    """Radius and height of the narrowest place over a wider one; None for a hollow that nowhere widens downwards."""
    points = _looked_at(hollow)[::-1]
    above = np.minimum.accumulate(points[:, 0])
    wider = np.flatnonzero(points[:, 0] > above + _WIDER)
    if not len(wider):
        return None
    radius = float(above[wider].min())
    return radius, float(points[np.flatnonzero(points[:, 0] <= radius)[0], 1])


def _from_the_top(hollow: Profile, edge: Profile) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Heights from the mouth down to the edge's lowest, and the radii of hollow and edge there."""
    a, b = _looked_at(hollow), _looked_at(edge)
    heights = distinct(np.concatenate((a[:, 1], b[:, 1], np.linspace(edge.bottom, edge.top, 200))))
    heights = heights[(heights >= edge.bottom) & (heights <= min(edge.top, hollow.top))][::-1]
    inside, out = (np.interp(heights, points[:, 1], points[:, 0]) for points in (a, b))
    return heights, inside, out


def _looked_at(profile: Profile) -> FloatArray:
    """Points (m, 2) along a rising profile, each a trace higher than the last, so that steps stay in order."""
    points = _along(profile)[0].reshape(-1, 2)
    points[:, 1] = np.maximum.accumulate(points[:, 1]) + 1e-9 * np.arange(len(points))
    return points


def _along(profile: Profile) -> tuple[FloatArray, FloatArray]:
    """Points (edges, m, 2) from one end of each edge to the other, and which way it goes there, (edges, m)."""
    start, end = profile.vertices[:-1, None, :2], profile.vertices[1:, None, :2]
    sweep, t = 4.0 * np.arctan(profile.vertices[:-1, 2, None]), np.linspace(0.0, 1.0, _PIECES + 1)
    dx, dy = end[..., 0] - start[..., 0], end[..., 1] - start[..., 1]
    return points_along(start, end, sweep, t), np.arctan2(dy, dx) + (t - 0.5) * sweep


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
    points, headings = _along(edge)
    x, slope = points[..., 0], np.abs(np.sin(headings))
    rides = (slope > _FLAT) & (x > _LEAST_RADIUS)
    return float(np.min(x[rides] / slope[rides], initial=math.inf))


_STEP = 0.5  # mm between the depths that are tried
_SLOT_PIECES = 8  # in which each edge is looked at
_ASTRAY = 0.45  # radians that a slot may turn from the outside's chord


class Slot(Record):
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
    sides = sides[lengths_of(sides) > 1e-6]
    turns = (np.arctan2(sides[:, 1], sides[:, 0]) - middle + np.pi / 2) % np.pi - np.pi / 2
    angles = middle + np.append(turns[np.abs(turns) <= _ASTRAY], 0.0)  # upward, as the chord is
    return np.column_stack((np.cos(angles), np.sin(angles)))


def _points(profile: Profile) -> FloatArray:
    return np.array(
        [edge.point_at(t) for edge in profile.edges() for t in np.linspace(0.0, 1.0, _SLOT_PIECES + 1)]
    )
