"""The tube cut through: an ellipse, which is a circle where it is as high as wide, and the curves parallel to it.

Frame: the tube's centre is the origin, x runs away from the torus's axis, y along it. A place of the curve is named by
the direction of its outward normal, an angle from +x; its `lean` is the same from straight up. Parallel curves share
them, and of a circle the angle is the one round its centre. An ellipse is made of arcs that meet tangentially, no more
than ON_ELLIPSE from it, so that parallel curves are exact arcs too. Lengths mm, angles radians.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import acos, asin, atan2, copysign, cos, hypot, pi, radians, sin, sqrt, tan, tau
from typing import TYPE_CHECKING

from geometry.records import Record

if TYPE_CHECKING:  # a job file is read without numpy
    from geometry.plane.edges import Point

ON_ELLIPSE = 0.002  # mm, square to the curve
EXACT = radians(35)  # where a place is not moved along the curve either: a first mounting ends there
Row = tuple[float, float, float]  # x, y and the bulge of the edge to the next row
_SAMPLES = 16  # of a stretch between two places of the ellipse
_SAME = 1e-6  # radians


class TubeArc(Record):
    """One arc: its centre, its radius, and the angles between which it lies, counter-clockwise."""

    x: float
    y: float
    radius: float
    start: float
    end: float

    def at(self, angle: float) -> Point:
        return (self.x + self.radius * cos(angle), self.y + self.radius * sin(angle))

    def leaves(self, x: float, y: float, room: float) -> Iterator[float]:
        """The angle at which it comes to be `room` from a place, if it does (law of cosines)."""
        off = hypot(x - self.x, y - self.y)
        ratio = (self.radius**2 + off**2 - room**2) / (2 * self.radius * off)
        if abs(ratio) <= 1:
            angle = atan2(y - self.y, x - self.x) + acos(ratio)
            angle += tau * (angle < self.start - _SAME)
            if angle <= self.end + _SAME:
                yield angle


class Tube(Record):
    """A closed convex curve, the same on both sides of both axes: `arcs` once round it."""

    arcs: tuple[TubeArc, ...]

    @property
    def round(self) -> bool:
        return len(self.arcs) == 1

    @property
    def wide(self) -> float:
        """Half its width; of a circle its radius."""
        arc = self._arc(0.0)
        return arc.x + arc.radius

    @property
    def high(self) -> float:
        """Half its height."""
        arc = self._arc(pi / 2)
        return arc.y + arc.radius

    @property
    def around(self) -> float:
        """Its length."""
        return sum(arc.radius * (arc.end - arc.start) for arc in self.arcs)

    @property
    def least_radius(self) -> float:
        """Of curvature."""
        return min(arc.radius for arc in self.arcs)

    def beyond(self, distance: float) -> Tube:
        """The parallel curve so far outside it. Raises ValueError where one inside it would have a corner."""
        return _parallel(self, distance)

    def at(self, angle: float) -> Point:
        """The place whose normal has this angle."""
        return self._arc(angle).at(angle)

    def over(self, lean: float) -> Point:
        """The place whose normal leans so far outward from straight up."""
        arc = self._arc(pi / 2 - lean)
        return (arc.x + arc.radius * sin(lean), arc.y + arc.radius * cos(lean))

    def rise(self, sine: float) -> float:
        """The height of the place whose normal's angle has this sine, 0 to 1."""
        arc = self._arc(asin(sine))
        return arc.y + arc.radius * sine

    def support(self, u: float, v: float) -> float:
        """The largest of u x + v y over the curve."""
        arc = self._arc(atan2(v, u))
        return u * arc.x + v * arc.y + arc.radius * hypot(u, v)

    def width_at(self, y: float) -> float:
        """x of the curve at a height; that of its end where it is not so high."""
        arc = self._arc_at_height(y)
        return arc.x + sqrt(max(0.0, arc.radius**2 - (y - arc.y) ** 2))

    def height_at(self, x: float) -> float:
        """y of the curve over a width of 0 or more; that of its end where it is not so wide."""
        arc = self._arc_at_width(x)
        return arc.y + sqrt(max(0.0, arc.radius**2 - (x - arc.x) ** 2))

    def angle_at_height(self, y: float) -> float:
        """From -90 to 90 degrees; the nearer of them where the curve is not so high."""
        arc = self._arc_at_height(y)
        return asin(_clamped((y - arc.y) / arc.radius))

    def lean_at_height(self, y: float) -> float:
        """From 0 to 180 degrees; the nearer of them where the curve is not so high."""
        arc = self._arc_at_height(y)
        return acos(_clamped((y - arc.y) / arc.radius))

    def angle_at_width(self, x: float) -> float:
        """From 0 to 180 degrees, on the upper side."""
        arc = self._arc_at_width(x)
        return acos(_clamped((x - arc.x) / arc.radius))

    def lean_at_width(self, x: float) -> float:
        """From -90 to 90 degrees, on the upper side."""
        arc = self._arc_at_width(x)
        return asin(_clamped((x - arc.x) / arc.radius))

    def nearest(self, x: float, y: float) -> tuple[float, float]:
        """How far a place is outside the curve, negative inside it, and the angle of the place nearest to it.

        Of a convex curve that is the greatest of n·p - h over its normals.
        """
        return max(self._seen(x, y))

    def lean_to(self, x: float, y: float) -> float:
        """The lean of the place nearest to one outside the curve, above its middle."""
        return atan2(x, y) if self.round else pi / 2 - self.nearest(x, y)[1]

    def scaled(self, wide: float) -> Tube:
        """Of the same proportions, half its width given."""
        by = wide / self.wide
        return tube_of(wide, None if self.round else by * self.high)

    def clear_of(self, x: float, y: float, room: float) -> float:
        """The angle from which on, counter-clockwise, the curve is `room` from a place outside it with x and y of 0 or
        more; that of the nearest place where all of it is farther, and the one opposite where none is."""
        crossed = [angle for arc in self.arcs for angle in arc.leaves(x, y, room)]
        if crossed:
            return max(crossed)
        gap, angle = self.nearest(x, y)
        return angle + pi if gap < room else angle

    def lever(self, angle: float) -> float:
        """How far the normal at an angle passes the tube's middle; 0 all round a circle."""
        arc = self._arc(angle)
        return abs(arc.y * cos(angle) - arc.x * sin(angle))

    def run(self, start: Point, end: Point, ccw: bool, more: int = 0) -> list[Row]:
        """Rows along the curve from one of its places to another, without the last; so many edges in two."""
        from geometry.plane.edges import bulge_about

        angles = self._joints(start, end, ccw)
        points = [start, *(self.at(angle) for angle in angles[1:-1]), end]
        rows = []
        for a, b, one, two in zip(points, points[1:], angles, angles[1:], strict=False):
            arc = self._arc((one + two) / 2)
            rows.append((*a, bulge_about((arc.x, arc.y), a, b, ccw)))
        for _ in range(more):
            angles, rows = _halved(self, angles, rows, ccw)
        return rows

    def rows(self, x: float = 0.0) -> list[Row]:
        """All of it as a closed loop, counter-clockwise, its centre so far from the axis."""
        halves = [half for arc in self.arcs for half in _in_quarters(arc)]
        return [
            (x + half.at(half.start)[0], half.at(half.start)[1], tan((half.end - half.start) / 4))
            for half in halves
        ]

    def _joints(self, start: Point, end: Point, ccw: bool) -> list[float]:
        """Angles of both places and of the arcs' ends between them, in order."""
        first, last = self.nearest(*start)[1], self.nearest(*end)[1]
        if not ccw:
            return [*reversed(self._joints(end, start, True))]
        last += tau * (last <= first)
        ends = (arc.start + turn for turn in (-tau, 0.0, tau) for arc in self.arcs)
        between = [] if self.round else sorted(a for a in ends if first + _SAME < a < last - _SAME)
        return [first, *between, last]

    def _seen(self, x: float, y: float) -> Iterator[tuple[float, float]]:
        for arc in self._facing(x, y):
            off, angle = hypot(x - arc.x, y - arc.y), atan2(y - arc.y, x - arc.x)
            angle += tau * (angle < arc.start - _SAME)
            if arc.start - _SAME <= angle <= arc.end + _SAME:
                yield off - arc.radius, angle
            else:  # the nearer end
                yield max((off * cos(angle - end) - arc.radius, end) for end in (arc.start, arc.end))

    def _facing(self, x: float, y: float) -> tuple[TubeArc, ...]:
        """The quarter of the arcs on a place's side of both axes, where what is nearest to it lies."""
        if self.round or x == 0 or y == 0:
            return self.arcs
        quarter = len(self.arcs) // 4
        first = quarter * ((1 if x < 0 else 0) if y > 0 else (2 if x < 0 else 3))
        return (*self.arcs, self.arcs[0])[first : first + quarter + 1]

    def _arc(self, angle: float) -> TubeArc:
        """The arc at an angle."""
        if self.round:
            return self.arcs[0]
        first = self.arcs[0].start
        turn = first + (angle - first) % tau
        return self.arcs[max(0, bisect_right(self.arcs, turn, key=lambda arc: arc.start) - 1)]

    def _arc_at_height(self, y: float) -> TubeArc:
        """On the side away from the axis, or the outermost there is."""
        quarter = len(self.arcs) // 4
        rising = (*self.arcs[3 * quarter :], *self.arcs[: quarter + 1])
        return rising[bisect_left(rising, y, hi=len(rising) - 1, key=lambda arc: arc.at(arc.end)[1])]

    def _arc_at_width(self, x: float) -> TubeArc:
        """On the upper side, or the outermost there is."""
        widening = self.arcs[len(self.arcs) // 2 :: -1]
        return widening[bisect_left(widening, x, hi=len(widening) - 1, key=lambda arc: arc.at(arc.start)[0])]


def tube_of(wide: float, high: float | None = None) -> Tube:
    """The tube half so wide and half so high, round without a height. Raises ValueError unless both are over 0."""
    high = wide if high is None else high
    if not min(wide, high) > 0:
        raise ValueError(f"a tube has a width and a height, not {2 * wide:.6g} by {2 * high:.6g} mm")
    return Tube((TubeArc(0.0, 0.0, wide, 0.0, tau),)) if wide == high else _ellipse(wide, high)


@lru_cache(maxsize=256)
def _parallel(tube: Tube, distance: float) -> Tube:
    if not tube.least_radius + distance > 0:
        raise ValueError(f"{-distance:.6g} mm inside the tube its parallel curve would have corners")
    return Tube(tuple(TubeArc(a.x, a.y, a.radius + distance, a.start, a.end) for a in tube.arcs))


@lru_cache(maxsize=256)
def _ellipse(wide: float, high: float) -> Tube:
    """By biarcs through places whose normals are evenly spread on either side of EXACT, as few as keep to it."""
    count = 1
    while True:
        nodes = [EXACT * k / count for k in range(count)]
        nodes += [EXACT + (pi / 2 - EXACT) * k / count for k in range(count)] + [pi / 2]
        quarter = [arc for a, b in pairwise(nodes) for arc in _biarc(wide, high, a, b)]
        if max(_off(wide, high, arc) for arc in quarter) <= ON_ELLIPSE:
            return Tube(tuple(_mirrored(quarter)))
        count += 1


def _place(wide: float, high: float, angle: float) -> Point:
    """Of an ellipse, where its normal has this angle."""
    support = hypot(wide * cos(angle), high * sin(angle))
    return wide**2 * cos(angle) / support, high**2 * sin(angle) / support


def _biarc(wide: float, high: float, start: float, end: float) -> tuple[TubeArc, TubeArc]:
    """Two arcs between two places, their joint's normal half-way: p1 - p0 = r0 (n - n0) + r1 (n1 - n)."""
    middle = (start + end) / 2
    (x0, y0), (x1, y1) = (_place(wide, high, angle) for angle in (start, end))
    a, b = cos(middle) - cos(start), cos(end) - cos(middle)
    c, d = sin(middle) - sin(start), sin(end) - sin(middle)
    det = a * d - b * c
    one, two = ((x1 - x0) * d - (y1 - y0) * b) / det, ((y1 - y0) * a - (x1 - x0) * c) / det
    return (
        TubeArc(x0 - one * cos(start), y0 - one * sin(start), one, start, middle),
        TubeArc(x1 - two * cos(end), y1 - two * sin(end), two, middle, end),
    )


def _off(wide: float, high: float, arc: TubeArc) -> float:
    """How far its tangents lie from the ellipse's."""
    angles = [arc.start + (arc.end - arc.start) * k / _SAMPLES for k in range(_SAMPLES + 1)]
    return max(
        abs(arc.x * cos(a) + arc.y * sin(a) + arc.radius - hypot(wide * cos(a), high * sin(a)))
        for a in angles
    )


def _mirrored(quarter: list[TubeArc]) -> Iterator[TubeArc]:
    """All round from the first of a quarter's arcs, which crosses the axis of x as the last does that of y."""
    first, *middle, last = quarter
    yield TubeArc(first.x, 0.0, first.radius, -first.end, first.end)
    yield from middle
    yield TubeArc(0.0, last.y, last.radius, last.start, pi - last.start)
    yield from (TubeArc(-a.x, a.y, a.radius, pi - a.end, pi - a.start) for a in reversed(middle))
    yield TubeArc(-first.x, 0.0, first.radius, pi - first.end, pi + first.end)
    yield from (TubeArc(-a.x, -a.y, a.radius, pi + a.start, pi + a.end) for a in middle)
    yield TubeArc(0.0, -last.y, last.radius, pi + last.start, tau - last.start)
    yield from (TubeArc(a.x, -a.y, a.radius, tau - a.end, tau - a.start) for a in reversed(middle))


def _in_quarters(arc: TubeArc) -> list[TubeArc]:
    """A circle in two halves, for one edge does not turn all round."""
    if arc.end - arc.start < pi:
        return [arc]
    middle = (arc.start + arc.end) / 2
    return [
        TubeArc(arc.x, arc.y, arc.radius, arc.start, middle),
        TubeArc(arc.x, arc.y, arc.radius, middle, arc.end),
    ]


def _halved(tube: Tube, angles: list[float], rows: list[Row], ccw: bool) -> tuple[list[float], list[Row]]:
    """The edge that turns most in two."""
    k = max(range(len(rows)), key=lambda i: abs(angles[i + 1] - angles[i]))
    middle = (angles[k] + angles[k + 1]) / 2
    bulge = tan((1 if ccw else -1) * abs(angles[k + 1] - angles[k]) / 8)
    start, halfway = rows[k], tube.at(middle)
    rows = [*rows[:k], (start[0], start[1], bulge), (*halfway, bulge), *rows[k + 1 :]]
    return [*angles[: k + 1], middle, *angles[k + 1 :]], rows


def _clamped(ratio: float) -> float:
    return copysign(min(1.0, abs(ratio)), ratio)
