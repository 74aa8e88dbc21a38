"""How far a whole working edge, read back from a file, lies from the edge that was meant. Lengths mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from geometry.plane.arcs import FloatArray, Point
from geometry.plane.contour import Contour
from geometry.plane.crossings import distances, parameter
from geometry.plane.edges import Edge
from geometry.plane.loops import part
from geometry.plane.profile import Profile

_PITCH = 1.0  # mm between the places of the nominal edge that are looked at
_ARC_PIECES = 16  # an exact arc of a file is looked at in this many pieces
_Place = tuple[int, float]  # number of an edge, and the fraction of it


def edge_form(contours: Sequence[Contour], nominal: Profile) -> float:
    """The worst distance, both ways, between a nominal edge and the run of an outline that should be it.

    The run goes from the place of the first contour nearest to the edge's start to that nearest to its end.
    Its vertices and chord middles are held against the edge, and the edge, sampled, against the run. Raises
    ValueError when there is no contour.
    """
    if not contours:
        raise ValueError("there is no outline to measure")
    outline = contours[0].edges()
    start, end = (_nearest(outline, point) for point in (nominal.start, nominal.end))
    # An outline may run along the edge either way; the other way round leads round the rest of the plate.
    runs = [run for run in (_run(outline, start, end), _run(outline, end, start)) if run]
    wanted = nominal.edges()
    points = _sampled(wanted)
    return min((_apart(run, wanted, points) for run in runs), default=math.inf)


def _apart(run: Sequence[Edge], wanted: Sequence[Edge], points: FloatArray) -> float:
    """The worst distance of a run's vertices and chord middles from an edge, and of its points from the run."""
    return float(max(distances(wanted, _looked_at(run)).max(), distances(run, points).max()))


def _nearest(edges: Sequence[Edge], point: Point) -> _Place:
    places = ((k, parameter(edge, point)) for k, edge in enumerate(edges))
    return min(places, key=lambda place: math.dist(edges[place[0]].point_at(place[1]), point))


def _run(edges: Sequence[Edge], start: _Place, end: _Place) -> list[Edge]:
    """The edges of a closed chain from one place on to another."""
    (first, a), (last, b) = start, end
    if first == last and a <= b:
        found = [part(edges[first], a, b)]
    else:
        count = (last - first) % len(edges) or len(edges)
        whole = [edges[(first + k) % len(edges)] for k in range(1, count)]
        found = [part(edges[first], a, 1.0), *whole, part(edges[last], 0.0, b)]
    return [edge for edge in found if edge.length > 0.0]


def _looked_at(run: Sequence[Edge]) -> FloatArray:
    """Both ends and the middle of each chord, and of each piece of an arc, (m, 2)."""
    counts = [2 * _ARC_PIECES if edge.is_arc else 2 for edge in run]
    return _points(run, counts)


def _sampled(edges: Sequence[Edge]) -> FloatArray:
    return _points(edges, [max(4, math.ceil(edge.length / _PITCH)) for edge in edges])


def _points(edges: Sequence[Edge], counts: Sequence[int]) -> FloatArray:
    """Evenly spaced points of each edge, its ends among them."""
    return np.array(
        [edge.point_at(k / n) for edge, n in zip(edges, counts, strict=True) for k in range(n + 1)]
    )
