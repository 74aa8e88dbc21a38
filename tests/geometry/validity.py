"""Whether a contour is fit to be cut or printed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from geometry.plane.contour import Contour
from geometry.plane.crossings import close_pairs, crossings
from geometry.plane.edges import SAME_POINT, Edge, Point

_LEAST = 1e-6  # mm; a shorter edge has no direction that a file keeps


def problems(contour: Contour) -> tuple[str, ...]:
    """What is wrong with a contour, in words; () when it is simple, with an area and no edge of length 0.

    Simple means that no edge, arcs included, crosses or touches another but at the vertex they share. That a
    contour is closed and finite is in its making (geometry.plane.contour.Contour).
    """
    edges = contour.edges()
    short = [f"edge {k} has no length" for k, edge in enumerate(edges) if edge.length < _LEAST]
    if short:
        return tuple(short)
    meets = [
        f"edges {i} and {j} meet at ({x:.6g}, {y:.6g})"
        for i, j in sorted(close_pairs(edges))
        for x, y in _wrong_meetings(edges, i, j)[:1]
    ]
    flat = abs(contour.area) <= _LEAST * contour.length
    return (*meets, *(["it encloses no area"] if flat else []))


def _wrong_meetings(edges: Sequence[Edge], i: int, j: int) -> list[Point]:
    """Points where edges i < j meet other than at a vertex they share."""
    n = len(edges)
    shared = [edges[i].end] if j == i + 1 else []
    shared += [edges[j].end] if (j + 1) % n == i else []
    met = crossings(edges[i], edges[j])
    return [p for p in met if all(math.dist(p, vertex) > 10.0 * SAME_POINT for vertex in shared)]
