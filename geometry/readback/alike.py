"""How far one plate is from doing another's work: its edges and holes against those of a plate that does it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist, inf

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge, FloatArray, Point, lengths_of, points_along, spread
from geometry.plane.nearest import Table, distances, nearest
from geometry.readback.free_edge import FreeEdge
from geometry.records import Record

PITCH = 4.0  # mm between the places at which an edge is looked at
ON_EDGE = 0.05  # mm: a free edge's point lies no farther from it
CUT = 5.0  # mm of a working edge at most that a free one beside it may cut off
SAME = 1e-9  # mm: so little that no other place is better
ROUND = 0.05  # mm beyond the ends of a free edge that still belong to it


def astray(
    wanted: Sequence[Contour],
    plate: Sequence[Contour],
    free: Sequence[FreeEdge],
    loose: Sequence[Point] = (),
    movable: bool = True,
) -> tuple[float, Point]:
    """How far (mm) a plate is out where it works, laid on the wanted one as well as it goes; and the shift.

    Contours are an outline, counter-clockwise, then holes. What is free may be elsewhere within its limits; the
    holes of `wanted` about a point of `loose` may be anywhere. Holes that the plate has besides do no harm. The
    plate is moved, not turned; what is drawn about an axis is not `movable`.
    """
    asked, own = _Asked.of(wanted, free, loose), [_Drawn.of(contour) for contour in plate]
    best = (inf, (0.0, 0.0))
    for shift in dict.fromkeys(_shifts(wanted, plate)) if movable else [(0.0, 0.0)]:
        out = asked.out([contour.moved(shift) for contour in own], best[0])
        best = min(best, (out, shift), key=lambda pair: pair[0])
        if best[0] < SAME:
            break
    return best


class _Drawn(Record, eq=False):
    """A contour's edges, the places at which they are looked at, and the corners of its box."""

    edges: Table
    places: FloatArray
    box: FloatArray

    @staticmethod
    def of(contour: Contour) -> _Drawn:
        places = _places(contour.table, contour.lengths)
        return _Drawn(contour.table, places, np.array(contour.bounds).reshape(2, 2))

    def moved(self, shift: Point) -> _Drawn:
        way, edges = np.array(shift), self.edges
        moved = Table(edges.start + way, edges.end + way, edges.sweep)
        return _Drawn(moved, self.places + way, self.box + way)

    def apart(self, other: _Drawn) -> float:
        """How far the two edges are from each other where they are farthest."""
        return max(float(distances(b.edges, a.places).max()) for a, b in ((self, other), (other, self)))


class _Asked(Record, eq=False):
    """What is wanted of a plate: edges that work, and places on them; free edges; holes, each with its length."""

    fixed: Table
    places: FloatArray
    strips: Sequence[tuple[Edge, FreeEdge]]
    holes: Sequence[tuple[_Drawn, float]]

    @staticmethod
    def of(wanted: Sequence[Contour], free: Sequence[FreeEdge], loose: Sequence[Point]) -> _Asked:
        outline, edges = wanted[0], wanted[0].edges()
        limits = {int(nearest(outline.table, np.array([item.at]))[1][0]): item for item in free}
        kept = np.array([k for k in range(len(edges)) if k not in limits], dtype=np.intp)
        fixed, strips = outline.table.only(kept), [(edges[k], item) for k, item in limits.items()]
        places = _not_cut(_places(fixed, outline.lengths[kept]), strips)
        holes = [hole for hole in wanted[1:] if all(dist(hole.centroid, point) >= ON_EDGE for point in loose)]
        return _Asked(fixed, places, strips, [(_Drawn.of(hole), hole.length) for hole in holes])

    def out(self, plate: Sequence[_Drawn], least: float) -> float:
        """How far a plate is out; no more is looked at once it is out by `least`."""
        out = 0.0
        for each in (self._beyond, self._missing, self._without_holes):
            if out < least:
                out = max(out, each(plate))
        return out

    def _beyond(self, plate: Sequence[_Drawn]) -> float:
        """How far the plate's outline runs where the wanted one neither has an edge nor leaves it free."""
        places = plate[0].places
        out = distances(self.fixed, places) if len(self.fixed) else np.full(len(places), inf)
        for edge, limits in self.strips:
            out = np.minimum(out, _off_strip(edge, limits, places))
        return float(out.max())

    def _missing(self, plate: Sequence[_Drawn]) -> float:
        """How far the plate has no edge where the wanted one works."""
        return float(distances(plate[0].edges, self.places).max()) if len(self.places) else 0.0

    def _without_holes(self, plate: Sequence[_Drawn]) -> float:
        """How far the nearest of the plate's holes is from each one that is wanted."""
        return max((_nearest_hole(hole, length, plate[1:]) for hole, length in self.holes), default=0.0)


def _nearest_hole(wanted: _Drawn, length: float, holes: Sequence[_Drawn]) -> float:
    """How far the nearest is; infinite when none is within its length. No two are nearer than their boxes differ."""
    found = inf
    for off, hole in sorted(
        ((float(np.abs(hole.box - wanted.box).max()), hole) for hole in holes), key=lambda pair: pair[0]
    ):
        if off > length or off >= found:
            break
        found = min(found, wanted.apart(hole))
    return found


def _shifts(wanted: Sequence[Contour], plate: Sequence[Contour]) -> Iterator[Point]:
    """As it is; corner on corner of the boxes round them; hole on hole."""
    yield (0.0, 0.0)
    new, old = wanted[0].bounds, plate[0].bounds
    yield from ((new[i] - old[i], new[j] - old[j]) for i in (0, 2) for j in (1, 3))
    if len(wanted) > 1 and len(plate) > 1:
        for hole in wanted[1:3]:
            x, y = hole.centroid
            for other in plate[1:3]:
                yield (x - other.centroid[0], y - other.centroid[1])


def _places(edges: Table, lengths: FloatArray) -> FloatArray:
    """Points (k, 2) along edges, their ends among them."""
    t, of = spread(
        np.zeros(len(edges)), np.ones(len(edges)), np.maximum(2, np.ceil(lengths / PITCH)).astype(np.intp)
    )
    return points_along(edges.start[of], edges.end[of], edges.sweep[of], t)


def _not_cut(places: FloatArray, strips: Sequence[tuple[Edge, FreeEdge]]) -> FloatArray:
    """Places on working edges but for ends that a free edge may cut off."""
    for edge, limits in strips:
        along, outward = _frame(edge, places)
        cut = (
            (outward >= -min(limits.less, CUT) - ON_EDGE) & (along >= -ROUND) & (along <= edge.length + ROUND)
        )
        places = places[~cut]
    return places


def _off_strip(edge: Edge, limits: FreeEdge, places: FloatArray) -> FloatArray:
    """How far points lie outside the strip in which a free edge may be; wider beyond it, where plates grow."""
    along, outward = _frame(edge, places)
    wide = np.where(outward > 0, np.minimum(outward, limits.more), ROUND)
    aside = np.maximum(-wide - along, along - edge.length - wide)
    back, out = -limits.less - outward, outward - limits.more
    return np.asarray(np.maximum(np.maximum(back, out), np.maximum(aside, 0.0)))


def _frame(edge: Edge, places: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Of points: how far along an edge of a counter-clockwise outline, and how far outside it."""
    if edge.is_arc:
        away = lengths_of(places - np.array(edge.centre)) - edge.radius
        return np.full(len(places), edge.length / 2), away if edge.bulge > 0 else -away
    start, way = np.array(edge.start), np.subtract(edge.end, edge.start) / edge.chord
    from_start = places - start
    return from_start @ way, from_start @ np.array((way[1], -way[0]))
