"""The one currency: a closed loop of straight and circular edges, and its exact measures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from geometry.plane.edges import BoolArray, IntArray, lengths_of, points_along
from geometry.plane.edges import Edge as Edge
from geometry.plane.edges import FloatArray as FloatArray
from geometry.plane.edges import Point as Point
from geometry.records import Record, cached_property

if TYPE_CHECKING:
    import numpy.typing as npt

    from geometry.plane.nearest import Table


_AT_ONCE = 200_000  # pairs of point and edge that are looked at together
_UP = 0.4999999999999999  # of a circle's width, as `points_along` rounds it: a box as any arc's, to the last digit
_STRAIGHT = 1e-10  # a smaller bulge is rounding: the arc leaves its chord by half of this share of it


class Moments(Record):
    """Integrals of 1, x, y and xy over the inside (mm² to mm⁴); negative for a clockwise contour."""

    area: float
    x: float
    y: float
    xy: float

    def moved(self, dx: float, dy: float) -> Moments:
        """The moments after the contour has been moved (parallel axes)."""
        a, x, y = self.area, self.x, self.y
        return Moments(a, x + dx * a, y + dy * a, self.xy + dx * y + dy * x + dx * dy * a)


class Contour(Record, eq=False):
    """A closed loop. Row i of `vertices` (n, 3) is x, y (mm) and the bulge of the edge to row i + 1 (mod n).

    The array is copied and made read-only; contours of the same rows are equal. Raises ValueError unless it is
    (n, 3), n at least 2, and finite.
    """

    vertices: FloatArray

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Contour) and self._rows == other._rows

    def __hash__(self) -> int:
        return hash(self._rows)

    @cached_property
    def _rows(self) -> bytes:
        return self.vertices.tobytes()

    def __post_init__(self) -> None:
        own = np.array(self.vertices, dtype=np.float64)
        if own.ndim != 2 or own.shape[1] != 3 or len(own) < 2:
            raise ValueError(f"edges are 2 or more rows of x, y, bulge, not an array of shape {own.shape}")
        if np.count_nonzero(np.isfinite(own)) < own.size:
            raise ValueError("coordinates and bulges must be finite numbers")
        bulges = own[:, 2]
        bulges[np.abs(bulges) < _STRAIGHT] = 0.0
        own.flags.writeable = False
        object.__setattr__(self, "vertices", own)

    def __len__(self) -> int:
        return len(self.vertices)

    @property
    def points(self) -> FloatArray:
        """The vertices without bulges, (n, 2)."""
        return self.vertices[:, :2]

    @cached_property
    def straight(self) -> bool:
        """Whether it has no arcs, which spares working each out that is none."""
        return not np.count_nonzero(self.vertices[:, 2])

    @cached_property
    def as_circle(self) -> tuple[Point, float] | None:
        """Centre and radius of two half turns; None of anything else."""
        if len(self) != 2:
            return None
        (x0, y0, bulge), (x1, y1, other) = self.vertices.tolist()
        if abs(bulge) != 1.0 or bulge != other:
            return None
        return ((x0 + x1) / 2.0, (y0 + y1) / 2.0), math.hypot(x1 - x0, y1 - y0) / 2.0

    @cached_property
    def ends(self) -> FloatArray:
        """Where each edge ends, (n, 2)."""
        return np.concatenate((self.points[1:], self.points[:1]))

    @cached_property
    def sweeps(self) -> FloatArray:
        """The angle each edge turns through, radians, + counter-clockwise, (n,)."""
        return 4.0 * np.arctan(self.vertices[:, 2])

    @cached_property
    def lengths(self) -> FloatArray:
        """The length of each edge, (n,): chord · (sweep/2) / sin(sweep/2)."""
        chords = lengths_of(self.ends - self.points)
        return chords if self.straight else chords / np.sinc(self.sweeps / (2.0 * np.pi))

    @cached_property
    def length(self) -> float:
        return float(self.lengths.sum())

    @cached_property
    def area(self) -> float:
        """Area inside, mm²: positive when counter-clockwise, negative when clockwise.

        The polygon's, and for each arc that between it and its chord.
        """
        if self.as_circle:
            return math.copysign(math.pi * self.as_circle[1] ** 2, self.vertices[0, 2])
        way, step = self.points - self.points[0], self.ends - self.points
        dx, dy = step[:, 0], step[:, 1]
        twice = way[:, 0] * dy - way[:, 1] * dx
        if not self.straight:
            twice += (dx**2 + dy**2) * _arc_share(self.sweeps)
        return float(twice.sum() / 2.0)

    @property
    def centroid(self) -> Point:
        """Centre of area. Raises ValueError when there is no area."""
        moments = self.moments
        if abs(moments.area) <= 1e-14 * self.length**2:
            raise ValueError("a contour without area has no centroid")
        return moments.x / moments.area, moments.y / moments.area

    @cached_property
    def moments(self) -> Moments:
        """Area and its moments by Green's theorem, exact (to rounding) with arcs.

        On an edge the integrands are polynomials of degree 5 or trigonometric ones of degree 4 over less than
        a turn; 24 Gauss points take either to the last digit.
        """
        x0, y0 = self.points.mean(axis=0)
        t, weights = _gauss()
        local = self.points - (x0, y0)
        ends = np.concatenate((local[1:], local[:1]))
        chord = ends - local
        heading = np.arctan2(chord[:, 1], chord[:, 0])[:, None]
        if self.straight:
            x, y = local[:, :1] + t * chord[:, :1], local[:, 1:] + t * chord[:, 1:]
        else:
            sweeps = self.sweeps[:, None]
            x, y = np.moveaxis(points_along(local[:, None], ends[:, None], sweeps, t), -1, 0)
            heading = heading + sweeps * (t - 0.5)
        ds = self.lengths[:, None] * weights
        dx, dy = np.cos(heading) * ds, np.sin(heading) * ds
        sums = ((x * dy - y * dx) / 2.0, x * x * dy / 2.0, -y * y * dx / 2.0, x * x * y * dy / 2.0)
        return Moments(*(float(part.sum()) for part in sums)).moved(float(x0), float(y0))

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Exact bounding box (xmin, ymin, xmax, ymax): vertices, and arcs where they run along an axis."""
        if self.as_circle and self.vertices[0, 1] == self.vertices[1, 1]:
            return _round_bounds(*self.vertices[:, :2].tolist())
        extremes = self.points
        if not self.straight:
            extremes = np.concatenate((self.points, self._turning_points()))
        (x0, y0), (x1, y1) = extremes.min(axis=0), extremes.max(axis=0)
        return float(x0), float(y0), float(x1), float(y1)

    def _turning_points(self) -> FloatArray:
        """Where arcs run along an axis."""
        arcs = np.flatnonzero(self.vertices[:, 2])
        start, end, sweep = self.points[arcs], self.ends[arcs], self.sweeps[arcs]
        heading = np.arctan2(*(end - start).T[::-1]) - sweep / 2.0
        turn = (np.arange(4)[:, None] * (np.pi / 2.0) - heading) * np.sign(sweep)
        t = turn % (2.0 * np.pi) / np.abs(sweep)
        on, of = t < 1.0, np.nonzero(t < 1.0)[1]
        return points_along(start[of], end[of], sweep[of], t[on])

    @cached_property
    def table(self) -> Table:
        """The edges as arrays, for distances."""
        from geometry.plane.nearest import Table  # plates that are only measured have no use for it

        return Table(self.points, self.ends, self.sweeps)

    def edges(self) -> tuple[Edge, ...]:
        """The edges in order; edge i starts at vertex i."""
        return self._edges

    @cached_property
    def _edges(self) -> tuple[Edge, ...]:
        rows = self.vertices.tolist()
        following = rows[1:] + rows[:1]
        return tuple(Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in zip(rows, following, strict=True))

    def moved(self, dx: float, dy: float) -> Contour:
        return Contour(self.vertices + np.array((dx, dy, 0.0)))

    def mirrored(self, point: Point = (0.0, 0.0), direction: Point = (0.0, 1.0)) -> Contour:
        """Mirrored in the line through `point` along `direction`; the sense, and the area's sign, changes.

        Raises ValueError when `direction` has no length.
        """
        size = math.hypot(*direction)
        if size == 0.0:
            raise ValueError("the direction of a mirror line must have a length")
        c, s = direction[0] / size, direction[1] / size
        matrix = np.array(((c * c - s * s, 2 * c * s), (2 * c * s, s * s - c * c)))
        points = (self.points - point) @ matrix + point
        return Contour(np.column_stack((points, -self.vertices[:, 2])))

    def reversed(self) -> Contour:
        """The same loop run the other way."""
        return self._reversed

    @cached_property
    def _reversed(self) -> Contour:
        rows = self.vertices[::-1].copy()
        rows[:-1, 2], rows[-1, 2] = -rows[1:, 2], -rows[0, 2]
        other = Contour(rows)
        other.__dict__["_reversed"] = self
        return other

    def ccw(self) -> Contour:
        return self if self.area >= 0.0 else self.reversed()

    def cw(self) -> Contour:
        return self if self.area <= 0.0 else self.reversed()

    def contains(self, points: npt.ArrayLike) -> BoolArray:
        """Which of the points (m, 2) lie inside (winding number not 0), exact with arcs, either way round.

        A point on the boundary itself may go either way.
        """
        p = np.asarray(points, dtype=np.float64).reshape(-1, 2)
        if self.as_circle:
            centre, radius = self.as_circle
            return np.asarray(lengths_of(p - centre) < radius)
        rows = max(1, _AT_ONCE // len(self))
        found = [self._contains(p[k : k + rows]) for k in range(0, len(p), rows)]
        return np.concatenate(found) if found else np.zeros(0, dtype=np.bool_)

    def _contains(self, points: FloatArray) -> BoolArray:
        x, y = (self._closed[:, k] - points[:, k, None] for k in (0, 1))
        below = y <= 0.0
        which, edge = np.nonzero(below[:, :-1] != below[:, 1:])
        side = _side(x, y, which, edge)[1]
        turns = np.where(below[which, edge], side > 0.0, -1.0 * (side < 0.0))
        winding = np.bincount(which, turns, len(points))
        if self.straight:
            return np.asarray(winding != 0)
        # Inside a circular segment its chord is seen under more than half the rest of the circle.
        arcs, half = np.flatnonzero(self.vertices[:, 2]), np.abs(self.sweeps) / 2.0
        faced = x[:, arcs] * x[:, arcs + 1] + y[:, arcs] * y[:, arcs + 1]
        which, edge = np.nonzero((faced < 0.0) | (half[arcs] > np.pi / 2.0))
        faced, edge = faced[which, edge], arcs[edge]
        cross, side = _side(x, y, which, edge)
        within = (side * self.sweeps[edge] < 0.0) & (np.arctan2(np.abs(cross), faced) > np.pi - half[edge])
        winding = winding + np.bincount(which, within * np.sign(self.sweeps[edge]), len(points))
        return np.asarray(winding != 0)

    @cached_property
    def _closed(self) -> FloatArray:
        """The vertices and the first again, (n + 1, 2)."""
        return np.concatenate((self.points, self.points[:1]))


def _round_bounds(start: Sequence[float], opposite: Sequence[float]) -> tuple[float, float, float, float]:
    """Of a circle of two half turns between its ends in x."""
    (x0, y), (x1, _) = start, opposite
    along, up = (x0, x1, x0 + (x1 - x0), x1 + (x0 - x1)), _UP * abs(x1 - x0)
    return min(along), y - up, max(along), y + up


def _side(x: FloatArray, y: FloatArray, which: IntArray, edge: IntArray) -> tuple[FloatArray, FloatArray]:
    """The cross product of an edge's ends as seen from some points, and on which side of its chord these lie.

    A point on a chord counts as a little to the right of it in x, else above it: both terms must agree.
    """
    ax, ay, bx, by = x[which, edge], y[which, edge], x[which, edge + 1], y[which, edge + 1]
    cross = ax * by - ay * bx
    return cross, np.where(cross != 0.0, cross, np.where(by != ay, ay - by, bx - ax))


def _arc_share(sweep: FloatArray) -> FloatArray:
    """Twice the area between an arc and its chord, over the chord squared: (s - sin s) / (4 sin²(s/2)).

    For flat arcs its series, since the difference loses its digits there.
    """
    flat = np.abs(sweep) < 0.03
    series = sweep / 6.0 * (1.0 + sweep**2 / 30.0 + sweep**4 / 840.0)
    safe = np.where(flat, 1.0, sweep)
    return np.where(flat, series, (safe - np.sin(safe)) / (4.0 * np.sin(safe / 2.0) ** 2))


@cache
def _gauss() -> tuple[FloatArray, FloatArray]:
    """Places from 0 to 1 and their shares of 24-point Gauss-Legendre quadrature (Golub and Welsch, Mathematics of
    Computation 23 (1969) 221-230); numpy.polynomial has them too, at ten times the instructions."""
    k = np.arange(1, 24)
    beside = np.diag(k / np.sqrt(4.0 * k**2 - 1.0), 1)
    nodes, vectors = np.linalg.eigh(beside + beside.T)
    return (nodes + 1.0) / 2.0, vectors[0] ** 2


def polygon(points: Sequence[Point] | FloatArray) -> Contour:
    """A contour of straight edges through the points (n, 2)."""
    corners = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    rows = np.zeros((len(corners), 3))
    rows[:, :2] = corners
    return Contour(rows)


def circle(centre: Point, radius: float) -> Contour:
    """A counter-clockwise circle of two half turns from its +x point. Raises ValueError unless radius > 0."""
    if not radius > 0.0:
        raise ValueError(f"a circle's radius must be more than 0 mm, not {radius:.9g}")
    x, y = centre
    return Contour(np.array(((x + radius, y, 1.0), (x - radius, y, 1.0))))


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Contour:
    """A counter-clockwise rectangle between two opposite corners, from its lower left corner."""
    (left, right), (low, high) = sorted((x0, x1)), sorted((y0, y1))
    return polygon(((left, low), (right, low), (right, high), (left, high)))


def regular_polygon(n: int, apothem: float, first_normal: float = 0.0, centre: Point = (0.0, 0.0)) -> Contour:
    """A counter-clockwise regular polygon; edge k faces `first_normal` + 2πk/n.

    Raises ValueError unless n is at least 3 and the apothem more than 0.
    """
    if n < 3 or not apothem > 0.0:
        raise ValueError(f"a regular polygon has 3 or more sides and an apothem, not {n}, {apothem:.9g} mm")
    angles = first_normal + (2.0 * np.arange(n) - 1.0) * (np.pi / n)
    radius = apothem / math.cos(math.pi / n)
    return polygon(np.column_stack((np.cos(angles), np.sin(angles))) * radius + centre)


def outline(*vertices: tuple[float, ...]) -> Contour:
    """A contour from (x, y) corners and (x, y, bulge) starts of arcs, in order."""
    return Contour(np.array([(*v, 0.0) if len(v) == 2 else v for v in vertices], dtype=np.float64))
