"""How far a whole working edge, read back from a file, lies from the edge that was meant. Lengths mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.crossings import distances, parameter
from geometry.plane.edges import Edge, FloatArray, points_along, spread
from geometry.plane.loops import part
from geometry.plane.nearest import Table, nearest
from geometry.plane.profile import Profile

_PITCH = 1.0  # mm between the places of the nominal edge that are looked at
_ARC_PIECES = 16  # an exact arc of a file is looked at in this many pieces
_NOTHING = 1e-9  # mm: a shorter edge is what rounding leaves
_SAME = 1e-7  # mm that two runs may be apart, edge for edge, to be the same
_Place = tuple[int, float]  # number of an edge, and the fraction of it


def edge_form(contours: Sequence[Contour], nominal: Profile) -> float:
    """The worst distance, both ways, between a nominal edge and the run of an outline that should be it.

    The run goes from the place of the first contour nearest to the edge's start to that nearest to its end. Its
    vertices and chord middles are held against the edge, and the edge, sampled, against the run. Infinite where the two
    places are one, as on an outline that lies elsewhere. Raises ValueError when there is no contour.
    """
    if not contours:
        raise ValueError("there is no outline to measure")
    outline = contours[0].edges()
    ends = np.array([nominal.start, nominal.end])
    start, end = (
        (k, parameter(outline[k], point))
        for k, point in zip(nearest(contours[0].table, ends)[1].tolist(), ends.tolist(), strict=True)
    )
    # An outline may run along the edge either way; the other way round leads round the rest of the plate.
    runs = [run for run in (_run(outline, start, end), _run(outline, end, start)) if run]
    ways = (nominal.edges(), nominal.reversed().edges())
    off = min((_edge_for_edge(run, way) for run in runs for way in ways), default=math.inf)
    if off <= _SAME:
        return off
    wanted = Table.of(nominal.edges())
    points = _points(wanted, [max(4, math.ceil(edge.length / _PITCH)) for edge in nominal.edges()])
    worst = math.inf
    for least, run in sorted(((_middle_off(run, wanted), run) for run in runs), key=lambda one: one[0]):
        if least < worst:
            worst = min(worst, _apart(run, wanted, points))
    return worst


def _edge_for_edge(run: Sequence[Edge], nominal: Sequence[Edge]) -> float:
    """How far the ends and the middles of edges are from those of another run, edge for edge; infinite for as many
    as that has not.
    """
    if len(run) != len(nominal):
        return math.inf
    places = [(*edge.start, *edge.end, *edge.midpoint) for edge in (*run, *nominal)]
    return float(np.abs(np.subtract(places[: len(run)], places[len(run) :])).max())


def _middle_off(run: Sequence[Edge], wanted: Table) -> float:
    """How far one of the places of a run that are looked at lies from an edge: it is no nearer."""
    return float(distances(wanted, np.array([run[len(run) // 2].point_at(0.5)]))[0])


def _apart(run: Sequence[Edge], wanted: Table, points: FloatArray) -> float:
    """The worst distance of a run's vertices and chord middles, and of the middles of pieces of its arcs, from an
    edge, and of the edge's points from the run."""
    own = Table.of(run)
    looked_at = _points(own, [2 * _ARC_PIECES if edge.is_arc else 2 for edge in run])
    return float(max(distances(wanted, looked_at).max(), distances(own, points).max()))


def _run(edges: Sequence[Edge], start: _Place, end: _Place) -> list[Edge]:
    """The edges of a closed chain from one place on to another."""
    (first, a), (last, b) = start, end
    if first == last and a <= b:
        found = [part(edges[first], a, b)]
    else:
        count = (last - first) % len(edges) or len(edges)
        whole = [edges[(first + k) % len(edges)] for k in range(1, count)]
        found = [part(edges[first], a, 1.0), *whole, part(edges[last], 0.0, b)]
    return [edge for edge in found if edge.length > _NOTHING]


def _points(edges: Table, parts: Sequence[int]) -> FloatArray:
    """Points (m, 2) that part each edge into so many, its ends among them."""
    t, which = spread(np.zeros(len(edges)), np.ones(len(edges)), np.array(parts))
    on = edges.only(which)
    return points_along(on.start, on.end, on.sweep, t)
