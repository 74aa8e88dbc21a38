"""An open profile in the plane of the axis: x is the radius, y the height. Lengths mm, angles radians."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import SAME_POINT, Edge, FloatArray, Point
from geometry.plane.levels import beyond, clip, lean, monotone
from geometry.plane.loops import part
from geometry.plane.profile_offset import beside
from geometry.records import Record, cached_property


class Profile(Record, eq=False):
    """An open chain of straight and circular edges.

    Row i of `vertices` (n, 3) is x, y (mm) and the bulge of the edge to row i + 1; the last row's is taken as
    0. The array is copied and made read-only. Raises ValueError unless it is (n, 3), n at least 2, and finite.
    """

    vertices: FloatArray

    def __post_init__(self) -> None:
        own = Contour(self.vertices).vertices.copy()
        own[-1, 2] = 0.0
        own.flags.writeable = False
        object.__setattr__(self, "vertices", own)

    def __len__(self) -> int:
        return len(self.vertices)

    @property
    def points(self) -> FloatArray:
        """The vertices without bulges, (n, 2)."""
        return self.vertices[:, :2]

    @cached_property
    def _closed(self) -> Contour:
        """The profile and the straight line from its end back to its start."""
        return Contour(self.vertices)

    def edges(self) -> tuple[Edge, ...]:
        """The n - 1 edges in order; edge i starts at vertex i."""
        return self._closed.edges()[:-1]

    @property
    def length(self) -> float:
        return float(self._closed.lengths[:-1].sum())

    @property
    def start(self) -> Point:
        return float(self.vertices[0, 0]), float(self.vertices[0, 1])

    @property
    def end(self) -> Point:
        return float(self.vertices[-1, 0]), float(self.vertices[-1, 1])

    @property
    def bottom(self) -> float:
        """The least height, arcs included."""
        return self._closed.bounds[1]

    @property
    def top(self) -> float:
        """The largest height, arcs included."""
        return self._closed.bounds[3]

    @cached_property
    def _part_ends(self) -> tuple[list[float], list[float]]:
        """Heights of both ends of all parts, the lowest first, and their x."""
        ends = sorted((y, x) for piece in self._parts for x, y in (piece.start, piece.end))
        return [y for y, _ in ends], [x for _, x in ends]

    @cached_property
    def _known(self) -> dict[float, list[float]]:
        return {}

    def _at(self, z: float) -> list[float]:
        """x of each part that is at a height; kept, for a stack's rings ask for few heights often."""
        key = round(z, 7)
        if key not in self._known:
            self._known[key] = [x for _, x, _ in self._ends_between(z, z)]
        return self._known[key]

    def reversed(self) -> Profile:
        """The same profile run the other way."""
        bulges = np.append(-self.vertices[-2::-1, 2], 0.0)
        return Profile(np.column_stack((self.points[::-1], bulges)))

    def moved(self, dx: float, dy: float) -> Profile:
        return Profile(self.vertices + np.array((dx, dy, 0.0)))

    @cached_property
    def _parts(self) -> tuple[Edge, ...]:
        """The edges cut so that each only rises or only falls, in x and in y."""
        return tuple(piece for edge in self.edges() for piece in monotone(edge))

    @cached_property
    def _spans(self) -> list[tuple[Edge, float, float]]:
        """Each part, its least height and its largest."""
        ends = ((part, part.start[1], part.end[1]) for part in self._parts)
        return [(part, min(first, last), max(first, last)) for part, first, last in ends]

    def fold(self) -> float | None:
        """The height at which the profile first runs downward, arcs included; None when it only rises."""
        return self._fold

    @cached_property
    def _fold(self) -> float | None:
        falling = (piece.start[1] for piece in self._parts if piece.end[1] < piece.start[1] - SAME_POINT)
        return next(falling, None)

    def radii(self, low: float, high: float) -> tuple[float, float]:
        """The least and the largest x between two heights, which may be one, arcs included.

        Raises ValueError where the profile has no part there.
        """
        y, x = self._part_ends
        found = x[bisect_left(y, low - SAME_POINT) : bisect_right(y, high + SAME_POINT)]
        found += self._at(low) if low == high else [*self._at(low), *self._at(high)]
        if not found:
            raise ValueError(f"the profile has no part between the heights {low:.6g} and {high:.6g} mm")
        return min(found), max(found)

    def radius_at(self, z: float) -> float:
        """The largest x at a height. Raises ValueError where the profile has no part there."""
        return self.radii(z, z)[1]

    def lean_at(self, z: float) -> float:
        """The direction at a height where x is largest: radians from vertical, + outward as it rises.

        At a corner that of the edge after it. Raises ValueError where the profile has no part there.
        """
        largest = self.radius_at(z)
        headings = [piece.heading(t) for piece, x, t in self._ends_between(z, z) if x >= largest - SAME_POINT]
        return lean(headings[-1])

    def _ends_between(self, low: float, high: float) -> list[tuple[Edge, float, float]]:
        """For both ends of each part between two heights: its edge, x, and the fraction of the edge."""
        near = (
            part
            for part, least, most in self._spans
            if most >= low - SAME_POINT and least <= high + SAME_POINT
        )
        clips = ((piece, clip(piece, low, high)) for piece in near)
        return [
            (piece, piece.point_at(t)[0], t) for piece, ends in clips if ends for t in dict.fromkeys(ends)
        ]

    def between(self, low: float, high: float) -> Profile:
        """The part between two heights. Raises ValueError when there is none, or the profile has a fold."""
        fold = self.fold()
        if fold is not None:
            raise ValueError(
                f"only a profile that rises has a part between heights; this one folds at {fold:.6g}"
            )
        ends = self.points[:, 1]
        near = np.flatnonzero((ends[1:] >= low - SAME_POINT) & (ends[:-1] <= high + SAME_POINT))
        edges = self.edges()
        clips = ((edge, clip(edge, low, high)) for edge in (edges[k] for k in near))
        pieces = [part(edge, *ends) for edge, ends in clips if ends]
        pieces = [piece for piece in pieces if piece.length > SAME_POINT]
        if not pieces:
            raise ValueError(f"the profile has no part between the heights {low:.6g} and {high:.6g} mm")
        return from_edges(pieces)

    def beside(self, distance: float) -> Profile:
        """The parallel at `distance`, + to the right of travel: outward for a profile from the foot up.

        Corners that open are rounded; whatever comes nearer to the profile than the distance is trimmed, over
        the whole of it, so the result may start or end early. Raises ValueError when nothing is left, or the
        distance is not finite.
        """
        return from_edges(beside(self.edges(), distance))

    def spanning(self, low: float, high: float) -> Profile:
        """Clipped to two heights and, where it does not reach one, lengthened to it along its end's tangent.

        Straight up or down where that tangent lies flatter than 45 degrees. Raises ValueError as `between`.
        """
        clipped = self.between(low, high)
        rows, edges = clipped.vertices, clipped.edges()
        if clipped.start[1] > low + SAME_POINT:
            first = beyond(clipped.start, edges[0].heading(0.0), low)
            rows = np.vstack(((*first, 0.0), rows))
        if clipped.end[1] < high - SAME_POINT:
            last = beyond(clipped.end, edges[-1].heading(1.0), high)
            rows = np.vstack((rows, (*last, 0.0)))
        return Profile(rows)


def profile(*vertices: tuple[float, ...]) -> Profile:
    """A profile from (x, y) corners and (x, y, bulge) starts of arcs, in order."""
    return Profile(np.array([(*v, 0.0) if len(v) == 2 else v for v in vertices], dtype=np.float64))


def from_edges(edges: Sequence[Edge]) -> Profile:
    """A profile of edges that follow each other, each from the end of the last."""
    return Profile(np.array([*((*edge.start, edge.bulge) for edge in edges), (*edges[-1].end, 0.0)]))


def revolved_volume(profile: Profile) -> float:
    """Volume (mm³) between a profile and the axis, closed by planes square to the axis at its ends.

    Exact (to rounding) with arcs, by Pappus' theorem; negative for a profile from the top down.
    """
    (_, low), (_, high) = profile.start, profile.end
    closed = Contour(np.vstack((profile.vertices, (0.0, high, 0.0), (0.0, low, 0.0))))
    return 2.0 * math.pi * closed.moments.x
