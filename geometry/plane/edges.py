"""Straight and circular edges.

Bulge: the tangent of a quarter of the arc's angle, positive counter-clockwise.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from geometry.records import Record, cached_property

# As numpy.typing has them, which takes long to load for these names.
FloatArray = np.ndarray[Any, np.dtype[np.float64]]
IntArray = np.ndarray[Any, np.dtype[np.intp]]
BoolArray = np.ndarray[Any, np.dtype[np.bool_]]
Point = tuple[float, float]

SAME_POINT = 1e-7  # mm; points no farther apart are one point


def on_circle(radius: float, angle: float) -> Point:
    """A point of a circle about the origin."""
    return (radius * math.cos(angle), radius * math.sin(angle))


def bulge_from_angle(angle: float) -> float:
    """Bulge of an arc that turns through `angle` (radians): tan(angle / 4) (DXF reference).

    Raises ValueError for a full turn or more, which one edge cannot hold.
    """
    if not abs(angle) < 2.0 * math.pi:
        raise ValueError(f"an arc turns less than a full turn, not {math.degrees(angle):.6g} degrees")
    return math.tan(angle / 4.0)


def bulge_about(centre: Point, start: Point, end: Point, ccw: bool = True) -> float:
    """Bulge of the arc about `centre` from point `start` to point `end`; clockwise when `ccw` is False.

    Raises ValueError when the points are not on one circle about `centre`, or are one point.
    """
    ax, ay = start[0] - centre[0], start[1] - centre[1]
    bx, by = end[0] - centre[0], end[1] - centre[1]
    near, far = sorted((math.hypot(ax, ay), math.hypot(bx, by)))
    if far - near > 1e-6 * max(far, 1.0):
        raise ValueError(f"an arc's ends lie {near:.9g} and {far:.9g} mm from its centre, not equally far")
    if math.hypot(bx - ax, by - ay) <= SAME_POINT:
        raise ValueError("an arc must end elsewhere than it starts; split a full circle in two")
    angle = math.atan2(ax * by - ay * bx, ax * bx + ay * by) % (2.0 * math.pi)
    return math.tan(angle / 4.0) if ccw else -math.tan((2.0 * math.pi - angle) / 4.0)


def points_along(start: FloatArray, end: FloatArray, sweep: FloatArray, t: FloatArray) -> FloatArray:
    """Points at the fractions `t` (0 to 1) of arcs from `start` to `end` (..., 2) that turn through `sweep`.

    `sweep` and `t` broadcast against the points' leading axes. Works from the chord, not the centre
    (chord theorem: the chord to fraction t is sin(t·sweep/2)/sin(sweep/2) of the whole, turned by
    (t - 1)·sweep/2), so that flat arcs and straight edges are as exact as any.
    """
    dx, dy = end[..., 0] - start[..., 0], end[..., 1] - start[..., 1]
    if not np.count_nonzero(sweep):
        return paired(start[..., 0] + t * dx, start[..., 1] + t * dy)
    turn = (t - 1.0) * sweep / 2.0
    half = np.where(sweep == 0.0, 1e-20, sweep / 2.0)  # of so flat an arc the share is t
    share = np.sin(t * half) / np.sin(half)
    cos, sin = share * np.cos(turn), share * np.sin(turn)
    return paired(start[..., 0] + cos * dx - sin * dy, start[..., 1] + sin * dx + cos * dy)


def paired(x: FloatArray, y: FloatArray) -> FloatArray:
    """Points (..., 2) of their x and y; `np.stack` takes four times as long for a few."""
    points = np.empty((*x.shape, 2))
    points[..., 0], points[..., 1] = x, y
    return points


def lengths_of(steps: FloatArray) -> FloatArray:
    """How far steps (n, 2) go. Taken apart as `*steps.T`, row by row, a few take twice as long."""
    return np.asarray(np.hypot(steps[:, 0], steps[:, 1]))


def spread(low: FloatArray, high: FloatArray, parts: IntArray) -> tuple[FloatArray, IntArray]:
    """Numbers from each `low` to its `high` in so many equal parts, both ends among them; and of which row each is."""
    rows = np.repeat(np.arange(len(parts)), parts + 1)
    first = np.cumsum(parts + 1) - parts - 1
    steps = np.arange(len(rows)) - first[rows]
    found = low[rows] + steps * ((high - low) / parts)[rows]
    return np.where(steps == parts[rows], high[rows], found), rows


class Edge(Record):
    """A straight (bulge 0) or circular edge from `start` to `end`, mm."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def is_arc(self) -> bool:
        return self.bulge != 0.0

    @cached_property
    def angle(self) -> float:
        """Angle turned through from start to end, radians, + counter-clockwise; 0 when straight."""
        return 4.0 * math.atan(self.bulge)

    @property
    def chord(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def apart(self) -> Point:
        """How far its two ends are apart, along x and along y."""
        return abs(self.start[0] - self.end[0]), abs(self.start[1] - self.end[1])

    @property
    def ends(self) -> tuple[float, float, float, float]:
        """Left, low, right and high of its two ends."""
        (x0, y0), (x1, y1) = self.start, self.end
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)

    @property
    def length(self) -> float:
        half = self.angle / 2.0
        return self.chord * (half / math.sin(half) if half else 1.0)

    @property
    def radius(self) -> float:
        """Radius of the arc; infinite for a straight edge."""
        if not self.is_arc:
            return math.inf
        return self.chord * (1.0 + self.bulge**2) / (4.0 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of the arc. Raises ValueError for a straight edge."""
        if not self.is_arc:
            raise ValueError("a straight edge has no centre")
        k = (1.0 - self.bulge**2) / (4.0 * self.bulge)
        (x0, y0), (x1, y1) = self.start, self.end
        return (x0 + x1) / 2.0 - k * (y1 - y0), (y0 + y1) / 2.0 + k * (x1 - x0)

    @property
    def midpoint(self) -> Point:
        """The point half-way along the edge (on the arc)."""
        return self.point_at(0.5)

    def point_at(self, t: float) -> Point:
        """The point at the fraction `t` of the edge's length."""
        half = self.angle / 2.0
        share = math.sin(t * half) / math.sin(half) if half else t
        cos, sin = share * math.cos((t - 1.0) * half), share * math.sin((t - 1.0) * half)
        (x0, y0), (x1, y1) = self.start, self.end
        dx, dy = x1 - x0, y1 - y0
        return x0 + cos * dx - sin * dy, y0 + sin * dx + cos * dy

    def heading(self, t: float) -> float:
        """Direction of travel at the fraction `t`, radians from +x."""
        chord = math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])
        return chord + (t - 0.5) * self.angle
