"""How far one plate is from doing another's work: its edges and holes against those of a plate that does it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, dist, inf

import numpy as np

from geometry.plane.arcs import FloatArray, Point
from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from geometry.plane.nearest import distances
from geometry.records import dataclass

PITCH = 4.0  # mm between the places at which an edge is looked at
ON_EDGE = 0.05  # mm: a free edge's point lies no farther from it
CUT = 5.0  # mm of a working edge at most that a free one beside it may cut off
SAME = 1e-9  # mm: so little that no other place is better
ROUND = 0.05  # mm beyond the ends of a free edge that still belong to it


@dataclass(frozen=True)
class FreeEdge:
    """An edge on which nothing depends: it may stand back by `less` and out by `more` mm. `at` lies on it."""

    at: Point
    less: float = inf
    more: float = inf


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
    best = (inf, (0.0, 0.0))
    for shift in dict.fromkeys(_shifts(wanted, plate)) if movable else [(0.0, 0.0)]:
        out = _out(wanted, [c.moved(*shift) for c in plate], free, loose)
        best = min(best, (out, shift), key=lambda pair: pair[0])
        if best[0] < SAME:
            break
    return best


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


def _out(
    wanted: Sequence[Contour], plate: Sequence[Contour], free: Sequence[FreeEdge], loose: Sequence[Point]
) -> float:
    edges = wanted[0].edges()
    limits = {_edge_at(edges, item.at): item for item in free}
    fixed = [edge for k, edge in enumerate(edges) if k not in limits]
    strips = [(edges[k], item) for k, item in limits.items()]
    holes = [hole for hole in wanted[1:] if not any(dist(hole.centroid, point) < ON_EDGE for point in loose)]
    return max(
        _beyond(plate[0], fixed, strips), _missing(plate[0], fixed, strips), _holes(holes, plate[1:]), 0.0
    )


def _edge_at(edges: Sequence[Edge], point: Point) -> int:
    return int(np.argmin([distances([edge], np.array([point]))[0] for edge in edges]))


def _places(edges: Sequence[Edge]) -> FloatArray:
    """Points (k, 2) along edges, their ends among them."""
    found = [
        edge.point_at(t)
        for edge in edges
        for t in np.linspace(0.0, 1.0, max(3, ceil(edge.length / PITCH) + 1))
    ]
    return np.array(found).reshape(-1, 2)


def _beyond(outline: Contour, fixed: Sequence[Edge], strips: Sequence[tuple[Edge, FreeEdge]]) -> float:
    """How far the plate's outline runs where the wanted one neither has an edge nor leaves it free."""
    places = _places(outline.edges())
    out = distances(fixed, places) if fixed else np.full(len(places), inf)
    for edge, limits in strips:
        out = np.minimum(out, _off_strip(edge, limits, places))
    return float(out.max())


def _missing(outline: Contour, fixed: Sequence[Edge], strips: Sequence[tuple[Edge, FreeEdge]]) -> float:
    """How far the plate has no edge where the wanted one works, but for ends that a free edge may cut off."""
    places = _places(fixed)
    for edge, limits in strips:
        along, outward = _frame(edge, places)
        cut = (
            (outward >= -min(limits.less, CUT) - ON_EDGE) & (along >= -ROUND) & (along <= edge.length + ROUND)
        )
        places = places[~cut]
    return float(distances(outline.edges(), places).max()) if len(places) else 0.0


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
        away = np.hypot(*(places - np.array(edge.centre)).T) - edge.radius
        return np.full(len(places), edge.length / 2), away if edge.bulge > 0 else -away
    start, way = np.array(edge.start), np.subtract(edge.end, edge.start) / edge.chord
    from_start = places - start
    return from_start @ way, from_start @ np.array((way[1], -way[0]))


def _holes(wanted: Sequence[Contour], holes: Sequence[Contour]) -> float:
    """How far the nearest of the plate's holes is from each one that is wanted."""
    return max((min((_apart(hole, other) for other in holes), default=inf) for hole in wanted), default=0.0)


def _apart(one: Contour, other: Contour) -> float:
    if max(abs(a - b) for a, b in zip(one.bounds, other.bounds, strict=True)) > one.length:
        return inf
    return max(float(distances(b.edges(), _places(a.edges())).max()) for a, b in ((one, other), (other, one)))
