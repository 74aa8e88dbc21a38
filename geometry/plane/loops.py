"""Cutting edges where they meet, and chaining the pieces that are kept into closed contours."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from geometry.grouping import grouped
from geometry.plane.contour import Contour
from geometry.plane.crossings import close_pairs, crossings, parameter
from geometry.plane.edges import SAME_POINT, Edge, FloatArray, Point
from geometry.records import Record

_SMOOTH = 1e-7  # radians by which edges that run on may turn
_NODE = 10.0 * SAME_POINT  # piece ends no farther apart than this are joined
_ASLANT = np.array((math.cos(1.0), math.sin(1.0)))  # a direction square to which no edge is likely to run


class Piece(Record):
    """The part of edge number `source` from the fraction `start` to `end` of it."""

    source: int
    start: float
    end: float
    edge: Edge


class Link(Record):
    """A piece from the node number `tail` to the node `head`; nodes are places where pieces meet."""

    piece: Piece
    tail: int
    head: int


def cut(edges: Sequence[Edge], bounds: Sequence[Edge] = ()) -> list[Piece]:
    """All edges, cut wherever they meet each other or one of the bounds, in order."""
    every = [*edges, *bounds]
    cuts: list[list[float]] = [[] for _ in every]
    for i, j in close_pairs(every):
        if i >= len(edges) or _run_on(every[i], every[j]) or _run_on(every[j], every[i]):
            continue
        for point in crossings(every[i], every[j], _NODE):
            cuts[i].append(parameter(every[i], point))
            cuts[j].append(parameter(every[j], point))
    return [piece for k, edge in enumerate(edges) for piece in _cut_at(edge, k, cuts[k])]


def _run_on(a: Edge, b: Edge) -> bool:
    """Whether b goes on where a ends, tangent to it: lines and circles that touch so meet nowhere else."""
    if math.dist(a.end, b.start) > SAME_POINT or abs(a.angle) + abs(b.angle) > math.pi:
        return False
    return abs(math.remainder(b.heading(0.0) - a.heading(1.0), 2.0 * math.pi)) <= _SMOOTH


def chain(pieces: Sequence[Piece]) -> tuple[Contour, ...]:
    """The closed contours that the pieces form end to end; pieces that lead nowhere are left out.

    So are loops without area, to and fro over the same line. Each contour starts with its first piece, and
    the contours come in the order of these.
    """
    loops = [_from_first(loop) for loop in _loops(linked(pieces))]
    contours = [_contour(loop) for loop in sorted(loops, key=lambda loop: _place(loop[0]))]
    return tuple(c for c in contours if c is not None and abs(c.area) > _NODE * c.length)


def _cut_at(edge: Edge, source: int, cuts: list[float]) -> list[Piece]:
    least = _NODE / max(edge.length, _NODE)
    stops = [0.0]
    for t in sorted(cuts):
        if t - stops[-1] > least and 1.0 - t > least:
            stops.append(t)
    stops.append(1.0)
    return [Piece(source, a, b, part(edge, a, b)) for a, b in pairwise(stops)]


def part(edge: Edge, start: float, end: float) -> Edge:
    """The part of an edge between two fractions of its length."""
    if (start, end) == (0.0, 1.0):
        return edge
    bulge = math.tan(edge.angle * (end - start) / 4.0)
    first = edge.start if start == 0.0 else edge.point_at(start)
    return Edge(first, edge.end if end == 1.0 else edge.point_at(end), bulge)


def linked(pieces: Sequence[Piece]) -> list[Link]:
    """The pieces between numbered nodes, placed on these; what is shorter than a node is wide is left out."""
    if not pieces:
        return []
    ends = np.array([p.edge.start for p in pieces] + [p.edge.end for p in pieces])
    nodes = _clusters(ends)
    places: list[Point] = [(x, y) for x, y in ends.tolist()]
    links = []
    for piece, tail, head in zip(pieces, nodes, nodes[len(pieces) :], strict=False):
        if tail != head or piece.edge.length > 4.0 * _NODE:
            placed = Edge(places[tail], places[head], piece.edge.bulge)
            links.append(Link(Piece(piece.source, piece.start, piece.end, placed), tail, head))
    return links


def _clusters(points: FloatArray) -> list[int]:
    """For each point the number of the first point of its cluster."""
    along = points @ _ASLANT
    order = np.argsort(along)
    places, along, first = points[order], along[order], np.arange(len(points))
    for on in range(1, len(points)):
        if not (along[on:] - along[:-on] <= _NODE).any():
            break
        near = np.hypot(*(places[on:] - places[:-on]).T) <= _NODE
        pairs = np.sort([order[:-on][near], order[on:][near]], axis=0)
        np.minimum.at(first, pairs[1], pairs[0])
    while (first[first] != first).any():
        first = first[first]
    numbers: list[int] = first.tolist()
    return numbers


def _loops(links: list[Link]) -> list[list[Link]]:
    """Follow the links; whenever the path meets itself the loop it has closed is taken off it."""
    waiting, loops = grouped(links, lambda link: link.tail), list[list[Link]]()
    for start in links:
        if start not in waiting[start.tail]:
            continue
        waiting[start.tail].remove(start)
        path, place = [start], {start.tail: 0}
        while path:
            loop_start = place.get(path[-1].head)
            if loop_start is not None:
                loops.append(path[loop_start:])
                for link in path[loop_start:]:
                    del place[link.tail]
                del path[loop_start:]
            if path:
                _extend(path, place, waiting)
    return loops


def _extend(path: list[Link], place: dict[int, int], waiting: dict[int, list[Link]]) -> None:
    """Add a waiting link that goes on from the end of the path, or take the path's last one back."""
    onward = waiting.get(path[-1].head)
    if onward:
        path.append(onward.pop(0))
        place[path[-1].tail] = len(path) - 1
    else:
        del place[path.pop().tail]


def _place(link: Link) -> tuple[int, float]:
    return link.piece.source, link.piece.start


def _from_first(loop: list[Link]) -> list[Link]:
    first = min(range(len(loop)), key=lambda k: _place(loop[k]))
    return loop[first:] + loop[:first]


def merged(run: Sequence[Link]) -> list[Piece]:
    """The pieces of a run, whole again where they were cut for nothing."""
    whole: list[Piece] = []
    for piece in (link.piece for link in run):
        last = whole[-1] if whole else None
        if last and last.source == piece.source and last.end == piece.start:
            bulge = _bulge_sum(last.edge.bulge, piece.edge.bulge)
            whole[-1] = Piece(
                piece.source, last.start, piece.end, Edge(last.edge.start, piece.edge.end, bulge)
            )
        else:
            whole.append(piece)
    return whole


def _contour(loop: list[Link]) -> Contour | None:
    pieces = merged(loop)
    if len(pieces) < 2:
        return None
    return Contour(np.array([(*piece.edge.start, piece.edge.bulge) for piece in pieces]))


def _bulge_sum(a: float, b: float) -> float:
    """Bulge of two arcs of one circle that follow each other: the tangents' sum."""
    return (a + b) / (1.0 - a * b)
