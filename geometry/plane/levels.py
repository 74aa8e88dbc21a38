"""Where an edge stands at a height. Lengths mm."""

from __future__ import annotations

import math
from itertools import pairwise

from geometry.plane.edges import SAME_POINT, Edge, Point
from geometry.plane.loops import part

_QUARTER = math.pi / 2.0
_SHORTEST = 1e-12  # of an edge; a nearer turning point is rounding of its end
_STEEP = 0.01  # where an edge rises by less, one more step towards a height gains no digits


def monotone(edge: Edge) -> list[Edge]:
    """The edge cut where it runs along an axis: each part only rises or only falls, in x and in y."""
    if not edge.is_arc:
        return [edge]
    angle, middle = edge.angle, edge.heading(0.5)
    first, last = middle - 0.5 * angle, middle + 0.5 * angle
    low, high = (first, last) if first <= last else (last, first)
    turns = range(math.ceil(low / _QUARTER), math.floor(high / _QUARTER) + 1)
    if not turns:
        return [edge]
    inner = sorted((k * _QUARTER - first) / angle for k in turns)
    stops = [0.0, *(t for t in inner if _SHORTEST < t < 1.0 - _SHORTEST), 1.0]
    return [part(edge, a, b) for a, b in pairwise(stops)]


def fraction_at(edge: Edge, y: float) -> float:
    """The fraction of its length at which an edge that only rises or only falls comes to the height `y`.

    The nearer end where it does not reach so far. An edge that does neither is at its start.
    """
    rise = edge.end[1] - edge.start[1]
    if rise == 0.0:
        return 0.0
    if not edge.is_arc:
        return min(max((y - edge.start[1]) / rise, 0.0), 1.0)
    # The height is the integral of sin(heading): it falls by cos(heading) / curvature.
    angle, length, middle = edge.angle, edge.length, edge.heading(0.5)
    cosine = math.cos(middle - 0.5 * angle) - angle / length * (y - edge.start[1])
    heading = math.copysign(math.acos(min(max(cosine, -1.0), 1.0)), rise)
    t = 0.5 + math.remainder(heading - middle, 2.0 * math.pi) / angle
    t = min(max(t, 0.0), 1.0)
    slope = math.sin(middle + (t - 0.5) * angle)
    if abs(slope) > _STEEP:  # for flat arcs, whose curvature has few digits
        t -= (edge.point_at(t)[1] - y) / (length * slope)
    return min(max(t, 0.0), 1.0)


def clip(edge: Edge, low: float, high: float) -> tuple[float, float] | None:
    """The fractions between which an edge that only rises or only falls is within two heights, None if not."""
    first, last = edge.start[1], edge.end[1]
    if max(first, last) < low - SAME_POINT or min(first, last) > high + SAME_POINT:
        return None
    if abs(last - first) <= SAME_POINT or (low <= min(first, last) and max(first, last) <= high):
        return 0.0, 1.0
    if low == high:
        at = fraction_at(edge, low)
        return at, at
    enters, leaves = (low, high) if last > first else (high, low)
    return fraction_at(edge, enters), fraction_at(edge, leaves)


def beyond(point: Point, heading: float, y: float) -> Point:
    """The point at height `y` on the line through `point` along `heading`.

    Straight above or below `point` where that line lies flatter than 45 degrees.
    """
    dx, dy = math.cos(heading), math.sin(heading)
    lean = dx / dy if abs(dx) <= abs(dy) * (1.0 + 1e-9) else 0.0
    return point[0] + lean * (y - point[1]), y


def lean(heading: float) -> float:
    """A direction as radians from vertical, + outward as it rises; the same for either way along it."""
    dx, dy = math.cos(heading), math.sin(heading)
    return math.atan2(-dx, -dy) if dy < -1e-9 else math.atan2(dx, dy)
