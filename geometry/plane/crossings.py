"""Where straight and circular edges meet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from geometry.plane.edges import SAME_POINT, Edge, Point
from geometry.plane.nearest import distances as distances


def crossings(a: Edge, b: Edge, within: float = SAME_POINT) -> list[Point]:
    """Points that two edges share: crossings, touches, and ends that lie `within` (mm) the other edge.

    Edges that run along each other share their ends there. A point may come more than once.
    """
    if a.is_arc and b.is_arc:
        met = _circles(a, b)
    elif a.is_arc:
        met = _line_circle(b, a)
    elif b.is_arc:
        met = _line_circle(a, b)
    else:
        met = _lines(a, b)
    return [*_on(b, (*_on(a, met, within), a.start, a.end), within), *_on(a, (b.start, b.end), within)]


def _on(edge: Edge, points: Iterable[Point], within: float) -> list[Point]:
    """Those of the points that lie no farther than `within` (mm) from the edge."""
    left, low, right, high = _box(edge)
    room = within + SAME_POINT
    near = [p for p in points if left - room <= p[0] <= right + room and low - room <= p[1] <= high + room]
    return [p for p in near if math.dist(edge.point_at(parameter(edge, p)), p) <= within]


def parameter(edge: Edge, point: Point) -> float:
    """The fraction (0 to 1) of the edge at which it comes nearest to `point`."""
    (x0, y0), (x1, y1), (x, y) = edge.start, edge.end, point
    if not edge.is_arc:
        size = max((x1 - x0) ** 2 + (y1 - y0) ** 2, 1e-300)
        return min(max(((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / size, 0.0), 1.0)
    cx, cy = edge.centre
    turned = math.atan2(y - cy, x - cx) - math.atan2(y0 - cy, x0 - cx)
    share = math.copysign(1.0, edge.angle) * turned % (2.0 * math.pi) / abs(edge.angle)
    if share <= 1.0:
        return share
    return 0.0 if math.dist(point, edge.start) < math.dist(point, edge.end) else 1.0


def close_pairs(edges: Sequence[Edge]) -> Iterator[tuple[int, int]]:
    """Numbers i < j of the edges whose bounding boxes touch, in order."""
    if not edges:
        return
    boxes = np.array([_box(edge) for edge in edges])
    low, high = boxes[:, :2] - SAME_POINT, boxes[:, 2:] + SAME_POINT
    along = int((np.ptp(boxes[:, :2], axis=0) / (high - low).sum(axis=0)).argmax())
    order = np.argsort(low[:, along], kind="stable")
    last = np.searchsorted(low[order, along], high[order, along], side="right")
    counts = last - np.arange(1, len(order) + 1)
    one = np.repeat(np.arange(len(order)), counts)
    other = np.arange(len(one)) - np.repeat(np.cumsum(counts) - counts, counts) + one + 1
    first, second = order[one], order[other]
    touch = ((low[first] <= high[second]) & (low[second] <= high[first])).all(axis=1)
    pairs = np.sort(np.column_stack((first[touch], second[touch])), axis=1)
    yield from ((i, j) for i, j in pairs[np.lexsort(pairs.T[::-1])].tolist())


def _box(edge: Edge) -> tuple[float, float, float, float]:
    """A box round an edge: that of its chord, widened by the arc's height or, past half a turn, diameter."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    room = edge.chord / 2.0 * abs(edge.bulge) if abs(edge.bulge) <= 1.0 else 2.0 * edge.radius
    return min(x0, x1) - room, min(y0, y1) - room, max(x0, x1) + room, max(y0, y1) + room


def _lines(a: Edge, b: Edge) -> list[Point]:
    (ax, ay), (bx, by) = _chord(a), _chord(b)
    cross = ax * by - ay * bx
    if abs(cross) <= 1e-12 * a.chord * b.chord:
        return []
    t = ((b.start[0] - a.start[0]) * by - (b.start[1] - a.start[1]) * bx) / cross
    return [(a.start[0] + t * ax, a.start[1] + t * ay)]


def _line_circle(line: Edge, arc: Edge) -> list[Point]:
    (cx, cy), (dx, dy), size = arc.centre, _chord(line), line.chord
    if size == 0.0:
        return []
    ux, uy = dx / size, dy / size
    along = ux * (cx - line.start[0]) + uy * (cy - line.start[1])
    foot = line.start[0] + along * ux, line.start[1] + along * uy
    return _either_side(foot, (ux, uy), arc.radius, math.dist(foot, arc.centre))


def _circles(a: Edge, b: Edge) -> list[Point]:
    (ax, ay), (bx, by) = a.centre, b.centre
    apart = math.hypot(bx - ax, by - ay)
    if apart <= SAME_POINT:
        return []
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    along = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2.0
    return _either_side((ax + along * ux, ay + along * uy), (-uy, ux), a.radius, abs(along))


def _either_side(foot: Point, direction: Point, radius: float, off: float) -> list[Point]:
    """Points on a line at `radius` from a centre `off` from the line's `foot`; the foot on a touch."""
    if off > radius + SAME_POINT:
        return []
    half = math.sqrt(max((radius - off) * (radius + off), 0.0))
    (x, y), (ux, uy) = foot, direction
    return [(x + half * ux, y + half * uy), (x - half * ux, y - half * uy)]


def _chord(edge: Edge) -> Point:
    return edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
