"""Parallel contours: every edge moved square to itself, arcs staying arcs, trimmed over the whole."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np

from geometry.plane.contour import Contour, polygon
from geometry.plane.crossings import distances
from geometry.plane.edges import SAME_POINT, BoolArray, Edge, FloatArray, Point
from geometry.plane.loops import chain, cut
from geometry.records import Record

Corners = Literal["round", "mitre"]

SMOOTH = 1e-9  # radians; edges that turn by less meet smoothly
_LONGEST_MITRE = 10.0  # of the distance; what is sharper (under some 11.5 degrees) is rounded
CLEAR = 1e-6  # mm; nearer to the contour than the distance by more than this is trimmed


class Corner(Record):
    """What opens between two moved edges: from `start` to `end` about `vertex`; `tip` where a mitre meets."""

    vertex: Point
    start: Point
    end: Point
    turn: float
    tip: Point | None


def offset(contour: Contour, distance: float, corners: Corners = "round") -> tuple[Contour, ...]:
    """Move all edges by `distance` (mm), + to the right: a counter-clockwise contour grows.

    Corners that open are rounded about their vertex or mitred (along the tangents; rounded when a mitre would
    be longer than 10 distances). Arcs no larger than an inward offset vanish, and whatever comes nearer to
    the contour than the distance is trimmed, so the result may be several contours (clockwise ones are
    holes), or none. Each keeps the order of its edges. The contour must be valid (geometry.plane.validity).
    Raises ValueError when the distance is not finite.
    """
    if not math.isfinite(distance):
        raise ValueError(f"an offset must be a finite number of mm, not {distance}")
    if abs(distance) <= CLEAR:
        return (contour,)
    edges = [edge for edge in contour.edges() if edge.length > SAME_POINT]
    opened = [
        opened_corner(a, b, distance, corners) for a, b in zip(edges, edges[1:] + edges[:1], strict=True)
    ]
    pieces = cut(_moved_edges(edges, opened, distance))
    middles = np.array([piece.edge.midpoint for piece in pieces]).reshape(-1, 2)
    free = ~_covered(contour, edges, opened, distance, middles)
    return chain([piece for piece, is_free in zip(pieces, free, strict=True) if is_free])


def moved(edge: Edge, distance: float) -> Edge | None:
    """One edge moved square to itself, + to the right of travel; None for an arc that vanishes by it."""
    if vanishes(edge, distance):
        return None
    start = _beside(edge.start, edge.heading(0.0), distance)
    return Edge(start, _beside(edge.end, edge.heading(1.0), distance), edge.bulge)


def vanishes(edge: Edge, distance: float) -> bool:
    """Whether it is an arc no larger than the distance by which it is moved toward its centre."""
    return edge.is_arc and edge.radius + math.copysign(distance, edge.bulge * distance) <= SAME_POINT


def opened_corner(a: Edge, b: Edge, distance: float, corners: Corners) -> Corner | None:
    """The gap that opens between two edges, None where they meet smoothly or run into each other."""
    leaving, arriving = a.heading(1.0), b.heading(0.0)
    turn = (arriving - leaving + math.pi) % (2.0 * math.pi) - math.pi
    if math.pi - abs(turn) < SMOOTH:
        turn = math.copysign(math.pi, distance)  # a spike; of a cusp, what this adds is trimmed
    if turn * math.copysign(1.0, distance) <= SMOOTH:
        return None
    lengthening = 1.0 / max(math.cos(turn / 2.0), 1e-9)
    mitred = corners == "mitre" and lengthening <= _LONGEST_MITRE
    tip = _beside(a.end, leaving + turn / 2.0, distance * lengthening) if mitred else None
    return Corner(a.end, _beside(a.end, leaving, distance), _beside(a.end, arriving, distance), turn, tip)


def rounding(corner: Corner) -> Edge:
    """The arc about the vertex that closes a gap."""
    return Edge(corner.start, corner.end, math.tan(corner.turn / 4.0))


def _beside(point: Point, heading: float, distance: float) -> Point:
    """The point at `distance` to the right of one who passes `point` with this heading."""
    return point[0] + distance * math.sin(heading), point[1] - distance * math.cos(heading)


def _moved_edges(edges: Sequence[Edge], opened: Sequence[Corner | None], distance: float) -> list[Edge]:
    raw: list[Edge] = []
    for k, edge in enumerate(edges):
        body = _lengthened(edge, distance, opened[k - 1], opened[k])
        corner = opened[k]
        raw += [body] if body else []
        raw += _filling(corner, edge, edges[(k + 1) % len(edges)]) if corner else []
    return raw


def _lengthened(edge: Edge, distance: float, before: Corner | None, after: Corner | None) -> Edge | None:
    """The moved edge, if straight lengthened to the tips of the mitres beside it."""
    body = moved(edge, distance)
    if body is None or edge.is_arc:
        return body
    start = before.tip if before and before.tip else body.start
    end = after.tip if after and after.tip else body.end
    return Edge(start, end)


def _filling(corner: Corner, a: Edge, b: Edge) -> list[Edge]:
    """The edges that close a gap: one arc, or the sides of a mitre that the edges beside it do not supply."""
    if corner.tip is None:
        return [rounding(corner)]
    sides = [Edge(corner.start, corner.tip)] if a.is_arc else []
    return sides + ([Edge(corner.tip, corner.end)] if b.is_arc else [])


def _covered(
    contour: Contour,
    edges: Sequence[Edge],
    opened: Sequence[Corner | None],
    distance: float,
    points: FloatArray,
) -> BoolArray:
    """Which points are nearer to the contour than the distance, behind it, or within a mitre."""
    if not len(points):
        return np.zeros(0, dtype=np.bool_)
    inside_is_behind = (contour.area > 0.0) == (distance > 0.0)
    covered = distances(edges, points) < abs(distance) - CLEAR
    covered |= contour.contains(points) == inside_is_behind
    for corner in opened:
        if corner and corner.tip:
            mitre = polygon((corner.vertex, corner.start, corner.tip, corner.end))
            covered |= mitre.contains(points) & (distances(mitre.edges(), points) > CLEAR)
    return covered
