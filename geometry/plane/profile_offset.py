"""Parallels of open chains: every edge moved square to itself, arcs staying arcs, trimmed over the whole."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

import numpy as np

from geometry.grouping import grouped
from geometry.plane.crossings import distances
from geometry.plane.edges import SAME_POINT, Edge
from geometry.plane.loops import Link, Piece, cut, linked, merged
from geometry.plane.offset import CLEAR, SMOOTH, moved, opened_corner, rounding, vanishes

SLIVER = 1e-4  # mm; a mesh in single precision has no shorter edges


def beside(edges: Sequence[Edge], distance: float) -> list[Edge]:
    """The parallel of an open chain at `distance` (mm), + to the right of travel.

    Corners that open are rounded, arcs that vanish are left out, and what comes nearer to the chain, its ends
    included, than the distance is trimmed. Of several runs that are left, the longest that is not closed.
    Raises ValueError when nothing is left, or the distance is not finite.
    """
    if not math.isfinite(distance):
        raise ValueError(f"an offset must be a finite number of mm, not {distance}")
    if abs(distance) <= CLEAR:
        return list(edges)
    runs = runs_beside(edges, distance)
    if not runs:
        raise ValueError(f"nothing is left of the profile {abs(distance):.6g} mm beside it")
    return _without_slivers(runs[0])


def runs_beside(edges: Sequence[Edge], distance: float) -> list[list[Edge]]:
    """All that is left of the parallel, end to end: what is not closed before what is, the longest first."""
    chain = [edge for edge in edges if edge.length > SAME_POINT]
    raw = _moved_chain(chain, distance)
    if _untrimmed(chain, distance):
        whole = [Piece(k, 0.0, 1.0, edge) for k, edge in enumerate(raw)]
        return [[link.piece.edge for link in linked(whole)]]
    # What else bounds the band about the chain cuts and is no part of the result: where the chain folds back, the
    # parallel comes to its other side, and to circles about its ends.
    bounds = [*_moved_chain(chain, -distance), *_caps(edges, abs(distance))]
    free = _free(edges, cut(raw, bounds), abs(distance))
    runs = sorted(_runs(linked(free)), key=_rank, reverse=True)
    return [[piece.edge for piece in merged(run)] for run in runs]


def _untrimmed(edges: Sequence[Edge], distance: float) -> bool:
    """Whether certainly nothing of the parallel comes nearer to the chain than the distance.

    So where no arc vanishes, no corner closes, and all headings lie within half a turn. A point of the parallel
    is then moved forward along the chain's own headings only, so it keeps to one side of the chain; and were a
    place s of the chain its nearest, nearer than the distance, it would have gone some way h square to the
    heading at s, 0 < h < distance. For that some of its headings are over a quarter turn from that at s, and
    the corners and arcs that open from there to s move it by the distance or more square to that heading.
    """
    corners = [math.remainder(b.heading(0.0) - a.heading(1.0), math.tau) for a, b in pairwise(edges)]
    if any(corner * math.copysign(1.0, distance) < -SMOOTH for corner in corners):
        return False
    turns = (
        turn for edge, corner in zip(edges, [*corners, 0.0], strict=True) for turn in (edge.angle, corner)
    )
    headings = [0.0, *accumulate(turns)]
    within = max(headings) - min(headings) < math.pi - SMOOTH
    return within and not any(vanishes(edge, distance) for edge in edges)


def _moved_chain(edges: Sequence[Edge], distance: float) -> list[Edge]:
    raw: list[Edge | None] = [moved(edges[0], distance)]
    for a, b in pairwise(edges):
        corner = opened_corner(a, b, distance, "round")
        raw += [rounding(corner) if corner else None, moved(b, distance)]
    return [edge for edge in raw if edge]


def _caps(edges: Sequence[Edge], radius: float) -> Iterator[Edge]:
    """A circle, in halves, about each end of the chain."""
    for x, y in (edges[0].start, edges[-1].end):
        right, left = (x + radius, y), (x - radius, y)
        yield Edge(right, left, 1.0)
        yield Edge(left, right, 1.0)


def _free(edges: Sequence[Edge], pieces: Sequence[Piece], distance: float) -> list[Piece]:
    """The pieces no nearer to the chain than the distance."""
    if not pieces:
        return []
    gaps = distances(edges, np.array([piece.edge.midpoint for piece in pieces]))
    return [piece for piece, gap in zip(pieces, gaps, strict=True) if gap >= distance - CLEAR]


def _runs(links: Sequence[Link]) -> Iterator[list[Link]]:
    """The links end to end, first from where none leads to; a run ends where none goes on.

    At a kink so slight that what is past the crossing lies within CLEAR, and was kept, a run does not turn off
    into it.
    """
    heads, tails = {link.head for link in links}, {link.tail for link in links}
    waiting = grouped(links, lambda link: link.tail)
    for first in sorted(links, key=lambda link: link.tail in heads):
        if first not in waiting[first.tail]:
            continue
        waiting[first.tail].remove(first)
        run = [first]
        while onward := waiting.get(run[-1].head):
            run.append(min(onward, key=lambda link: (link.head not in tails, -link.piece.edge.length)))
            onward.remove(run[-1])
        yield run


def _without_slivers(edges: Sequence[Edge]) -> list[Edge]:
    """The edges, each led on over the slivers after it: roundings of kinks that nobody sees."""
    found = list(edges[:1])
    for edge in edges[1:]:
        if edge.length < SLIVER:
            last = found.pop()
            edge = Edge(last.start, edge.end, last.bulge)
        found.append(edge)
    return found


def _rank(run: Sequence[Link]) -> tuple[bool, float]:
    """An open run before a closed one, which is what a hollow with too narrow a mouth keeps to itself."""
    return run[0].tail != run[-1].head, sum(link.piece.edge.length for link in run)
