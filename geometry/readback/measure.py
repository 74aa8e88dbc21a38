"""Measuring contours read back from a file: exact ones, or the chords of a mesh in single precision.

All lengths mm, all angles radians. A straight edge is the longest run of straight edges in one line (chords
that a mesh or a file has split count as one); it is picked by a point on or near it. Everything here
raises ValueError when what is to be measured is not there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray, IntArray, Point, lengths_of, points_along
from geometry.records import Record

_SINGLE = 2.4e-7  # single precision moves a vertex off its line by a smaller share of its coordinates
_NEAR = 0.02  # a working edge lies within this share of its nominal radius,
_NEAREST = 1.0  # and within this many mm, so that the short edges that end a large arc are not taken for it
_ARC_PIECES = 16  # an exact arc is looked at in this many pieces
_ROUND = 0.1  # a hole is round when no point of it is farther off than this share of its radius


class ArcFit(Record):
    """Mean `radius` about the given centre; `worst` a vertex or chord middle is off the nominal one."""

    radius: float
    worst: float


class Run(Record):
    """A straight edge from `start` to `end`."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        return (self.start[0] + self.end[0]) / 2.0, (self.start[1] + self.end[1]) / 2.0

    @property
    def direction(self) -> Point:
        return (self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length

    def across(self, point: Point) -> float:
        """Distance of a point from the line, + to the left of travel."""
        ux, uy = self.direction
        return ux * (point[1] - self.start[1]) - uy * (point[0] - self.start[0])

    def foot(self, point: Point) -> Point:
        """The point of the line nearest to `point`."""
        (ux, uy), off = self.direction, self.across(point)
        return point[0] + off * uy, point[1] - off * ux


def straight_edge(contours: Sequence[Contour], point: Point) -> Run:
    """The straight edge nearest to `point`."""
    edges = _straight_edges(tuple(contours))
    if not len(edges.start):
        raise ValueError(f"there is no straight edge to measure at ({point[0]:.6g}, {point[1]:.6g})")
    nearest = int(edges.away(np.array(point)).argmin())
    return _longest_run(contours[edges.contour[nearest]], int(edges.number[nearest]))


def edge_length(contours: Sequence[Contour], point: Point) -> float:
    """Length of the straight edge at `point`."""
    return straight_edge(contours, point).length


def edge_gap(contours: Sequence[Contour], first: Point, second: Point) -> float:
    """Distance, square to the straight edge at `first`, from its line to the middle of the other."""
    return abs(straight_edge(contours, first).across(straight_edge(contours, second).middle))


def edge_angle(contours: Sequence[Contour], first: Point, second: Point) -> float:
    """Angle (0 to π) at the crossing of two straight edges' lines, between the rays to the points."""
    a, b = straight_edge(contours, first), straight_edge(contours, second)
    (ax, ay), (bx, by) = a.direction, b.direction
    cross = ax * by - ay * bx
    if abs(cross) < 1e-9:
        raise ValueError("the two edges are parallel and make no angle")
    along = b.across(a.start) / cross
    crossing = a.start[0] + along * ax, a.start[1] + along * ay
    p, q = a.foot(first), b.foot(second)
    return _angle_between((p[0] - crossing[0], p[1] - crossing[1]), (q[0] - crossing[0], q[1] - crossing[1]))


def hole_diameter(contours: Sequence[Contour], centre: Point) -> float:
    """Diameter of the round hole about `centre`: of the circle best through vertices and chord middles."""
    boxed = [contour for contour in contours if _in_box(contour, centre)]
    smallest_first = sorted(boxed, key=lambda contour: abs(contour.area))
    around = next((contour for contour in smallest_first if contour.contains(np.array([centre]))[0]), None)
    if around is None:
        raise ValueError(f"nothing surrounds ({centre[0]:.6g}, {centre[1]:.6g})")
    if around.as_circle:
        return 2.0 * around.as_circle[1]
    pieces = _pieces((around,))
    points = np.concatenate((pieces[:, 0], pieces[:, 1]))
    middle, radius = _fitted_circle(points)
    if np.abs(lengths_of(points - middle) - radius).max() > _ROUND * radius:
        raise ValueError(f"there is no round hole about ({centre[0]:.6g}, {centre[1]:.6g})")
    return 2.0 * radius


def radius_at(contours: Sequence[Contour], centre: Point, start: float, end: float, nominal: float) -> ArcFit:
    """Measure the working arc about `centre`, counter-clockwise from the angle `start` to `end`.

    The edges that count lie in that sector and within 2 %, at most 1 mm, of the `nominal` radius, and must fill it. The
    radius is the mean distance of their vertices and middles from `centre` (a centre fitted to the chords of
    a short arc would say little); `worst` is the farthest of them from the nominal circle.
    """
    span = (end - start) % (2.0 * math.pi) or 2.0 * math.pi
    pieces = _pieces(contours) - np.array(centre)
    off = np.abs(np.hypot(pieces[..., 0], pieces[..., 1]) - nominal)
    angles = np.arctan2(pieces[..., 1], pieces[..., 0])
    slack = 1e-6
    inside = (angles[:, 1] - start + slack) % (2.0 * math.pi) <= span + 2.0 * slack
    picked = inside & (off <= min(_NEAR * nominal, _NEAREST)).all(axis=1)
    widths = np.abs((angles[picked, 2] - angles[picked, 0] + math.pi) % (2.0 * math.pi) - math.pi)
    if widths.sum() < 0.98 * span - widths.max(initial=0.0):
        raise ValueError(
            f"an edge of radius {nominal:.6g} about ({centre[0]:.6g}, {centre[1]:.6g}) fills only "
            f"{math.degrees(widths.sum()):.4g} of {math.degrees(span):.4g} degrees"
        )
    radii = np.hypot(pieces[picked, :, 0], pieces[picked, :, 1])
    mean = float((radii[:, 0] + 2.0 * radii[:, 1] + radii[:, 2]).mean() / 4.0)
    return ArcFit(mean, float(off[picked].max()))


def extent(contours: Sequence[Contour], axis: Literal["x", "y"]) -> float:
    """Size along an axis of the bounding box of all the contours."""
    if not contours:
        raise ValueError("there is nothing to measure")
    bounds = np.array([contour.bounds for contour in contours])
    k = "xy".index(axis)
    return float(bounds[:, k + 2].max() - bounds[:, k].min())


def _angle_between(a: Point, b: Point) -> float:
    return abs(math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]))


def _in_box(contour: Contour, point: Point) -> bool:
    x0, y0, x1, y1 = contour.bounds
    return x0 <= point[0] <= x1 and y0 <= point[1] <= y1


class _Straight(Record, eq=False):
    """Straight edges (n, 2) of contours, and of which contour each is which."""

    start: FloatArray
    chord: FloatArray
    size: FloatArray
    contour: IntArray
    number: IntArray

    def away(self, point: FloatArray) -> FloatArray:
        """Distance of a point from each, (n,)."""
        t = ((point - self.start) * self.chord).sum(axis=1) / self.size
        gap = self.start + np.minimum(np.maximum(t, 0.0), 1.0)[:, None] * self.chord - point
        return np.asarray(np.hypot(gap[:, 0], gap[:, 1]))


@lru_cache(maxsize=4)  # a part's edges are measured one after the other
def _straight_edges(contours: tuple[Contour, ...]) -> _Straight:
    numbers = [np.flatnonzero(contour.vertices[:, 2] == 0.0) for contour in contours]
    start = _joined([contour.points[own] for contour, own in zip(contours, numbers, strict=True)])
    chord = _joined([contour.ends[own] for contour, own in zip(contours, numbers, strict=True)]) - start
    size = np.maximum((chord**2).sum(axis=1), 1e-300)
    which = np.repeat(np.arange(len(contours)), [len(own) for own in numbers])
    return _Straight(start, chord, size, which, np.concatenate([np.empty(0, dtype=np.intp), *numbers]))


def _joined(rows: Sequence[FloatArray]) -> FloatArray:
    return np.concatenate(rows) if rows else np.empty((0, 2))


def _longest_run(contour: Contour, edge: int) -> Run:
    """The run of straight edges in one line that holds edge number `edge`."""
    rows, n = contour.vertices.tolist(), len(contour)
    tolerance = _SINGLE * float(np.abs(contour.points).max())
    first, last = edge, edge + 1  # numbers of its end vertices, mod n
    while last - first < n and not rows[last % n][2] and _in_line(rows, first, last + 1, tolerance):
        last += 1
    while last - first < n and not rows[(first - 1) % n][2] and _in_line(rows, first - 1, last, tolerance):
        first -= 1
    (x0, y0, _), (x1, y1, _) = rows[first % n], rows[last % n]
    return Run((x0, y0), (x1, y1))


def _in_line(rows: Sequence[Sequence[float]], first: int, last: int, tolerance: float) -> bool:
    """Whether the vertices from `first` to `last` follow each other in one line; most do not, at the first corner."""
    (x0, y0, _), (x1, y1, _) = rows[first % len(rows)], rows[last % len(rows)]
    way, up = x1 - x0, y1 - y0
    size = math.hypot(way, up)
    if size <= tolerance:
        return False
    before = 0.0
    for k in range(first + 1, last + 1):
        x, y = rows[k % len(rows)][0] - x0, rows[k % len(rows)][1] - y0
        along = (x * way + y * up) / size
        if abs(x * up - y * way) / size > tolerance or along - before < -tolerance:
            return False
        before = along
    return True


def _pieces(contours: Sequence[Contour]) -> FloatArray:
    """Start, middle and end (m, 3, 2) of every straight edge and of every piece of an arc."""
    vertices = np.concatenate([contour.vertices for contour in contours]) if contours else np.empty((0, 3))
    ends = np.concatenate([contour.ends for contour in contours]) if contours else np.empty((0, 2))
    counts = np.where(vertices[:, 2] == 0.0, 1, _ARC_PIECES)
    edge = np.repeat(np.arange(len(counts)), counts)
    k = np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts, counts)
    t = (k[:, None] + np.array((0.0, 0.5, 1.0))) / counts[edge, None]
    sweep = 4.0 * np.arctan(vertices[edge, 2, None])
    return points_along(vertices[edge, None, :2], ends[edge, None], sweep, t)


def _fitted_circle(points: FloatArray) -> tuple[FloatArray, float]:
    """Centre and radius of the least-squares circle: x² + y² = 2ax + 2by + c is linear in a, b and c."""
    middle = points.mean(axis=0)
    local = points - middle
    system = np.column_stack((2.0 * local, np.ones(len(local))))
    (a, b, c), *_ = np.linalg.lstsq(system, (local**2).sum(axis=1), rcond=None)
    return middle + np.array((a, b)), math.sqrt(c + a * a + b * b)
