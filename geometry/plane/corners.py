"""Rounding the corners of a contour, and joining open runs of edges into one."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from geometry.plane.arcs import SAME_POINT, Point
from geometry.plane.contour import Contour
from geometry.plane.crossings import crossings, parameter
from geometry.plane.edges import Edge
from geometry.plane.loops import part
from geometry.plane.offset import moved

_SMOOTH = 1e-6  # radians; edges that turn by less are tangent
_MEET = 1e-6  # mm; ends of runs no farther apart than this meet


@dataclass(frozen=True)
class _Fillet:
    """Where the edge before the corner ends and the one after starts (fractions), and the arc between."""

    leaves: float
    arrives: float
    arc: Edge


def fillet(contour: Contour, index: int, radius: float) -> Contour:
    """Round the corner at vertex `index` with an arc tangent to both its edges, straight or not.

    An edge that the arc uses up is dropped. Raises ValueError when the vertex is smooth and, with the largest
    radius that fits, when the arc does not fit on the two edges.
    """
    k = index % len(contour)
    if k not in _corner_numbers(contour):
        raise ValueError(f"the edges at vertex {index} meet smoothly: there is no corner to round")
    return _rounded(contour, [k], radius, f"the corner at vertex {index}")


def fillet_all(contour: Contour, radius: float) -> Contour:
    """Round every corner, inside and outside ones alike; smooth vertices stay as they are.

    Raises ValueError, with the largest radius that fits, when the arcs do not fit on the edges.
    """
    return _rounded(contour, _corner_numbers(contour), radius, "every corner")


def join(*runs: npt.ArrayLike) -> Contour:
    """Join open runs (k, 3) of x, y, bulge, each starting where the one before ends, into a closed contour.

    The bulge in the last row of a run belongs to no edge. Raises ValueError where two ends do not meet.
    """
    rows = [np.asarray(run, dtype=np.float64).reshape(-1, 3) for run in runs]
    if not rows or min(len(run) for run in rows) < 2:
        raise ValueError("a contour is joined from one or more runs of 2 or more points")
    for k, run in enumerate(rows):
        gap = math.dist(run[-1, :2], rows[(k + 1) % len(rows)][0, :2])
        if gap > _MEET:
            raise ValueError(f"run {k + 1} ends {gap:.6g} mm from the start of the next; they must meet")
    return Contour(np.concatenate([run[:-1] for run in rows]))


def _corner_numbers(contour: Contour) -> list[int]:
    edges = contour.edges()
    return [k for k in range(len(edges)) if abs(_turn(edges[k - 1], edges[k])) > _SMOOTH]


def _turn(a: Edge, b: Edge) -> float:
    return (b.heading(0.0) - a.heading(1.0) + math.pi) % (2.0 * math.pi) - math.pi


def _rounded(contour: Contour, corners: Sequence[int], radius: float, what: str) -> Contour:
    if not radius > 0.0:
        raise ValueError(f"the radius of a corner must be more than 0 mm, not {radius:.9g}")
    edges = contour.edges()
    done = _with_fillets(edges, corners, radius)
    if done is None:
        largest = _largest(lambda r: _with_fillets(edges, corners, r) is not None, radius)
        raise ValueError(f"{what} cannot be rounded to {radius:.6g} mm; the largest is {largest} mm")
    return done


def _largest(fits: Callable[[float], bool], too_large: float) -> str:
    """The largest radius that fits, by halving, rounded down to three decimals."""
    low, high = 0.0, too_large
    for _ in range(50):
        middle = (low + high) / 2.0
        low, high = (middle, high) if fits(middle) else (low, middle)
    return f"{math.floor(low * 1000.0 + 1e-6) / 1000.0:.3f}".rstrip("0").rstrip(".")


def _with_fillets(edges: Sequence[Edge], corners: Iterable[int], radius: float) -> Contour | None:
    """The closed edges with arcs at these vertices; None when one does not fit."""
    fillets: dict[int, _Fillet] = {}
    for k in corners:
        found = _fillet(edges[k - 1], edges[k], radius)
        if found is None:
            return None
        fillets[k] = found
    rows: list[tuple[float, float, float]] = []
    for k, edge in enumerate(edges):
        before, after = fillets.get(k), fillets.get((k + 1) % len(edges))
        start, end = before.arrives if before else 0.0, after.leaves if after else 1.0
        if (end - start) * edge.length < -SAME_POINT:
            return None
        if before:
            rows.append((*before.arc.start, before.arc.bulge))
        if (end - start) * edge.length > SAME_POINT:
            kept = part(edge, start, end)
            rows.append((*(before.arc.end if before else kept.start), kept.bulge))
    return Contour(np.array(rows))


def _fillet(a: Edge, b: Edge, radius: float) -> _Fillet | None:
    """The tangent arc between two edges; its centre is where the edges, moved by the radius, cross.

    Of several crossings it is the one reached last on the first edge, next to the corner.
    """
    turn = _turn(a, b)
    side = -math.copysign(radius, turn)
    moved_a, moved_b = moved(a, side), moved(b, side)
    if moved_a is None or moved_b is None:
        return None
    centres = crossings(moved_a, moved_b)
    if not centres:
        return None
    centre = max(centres, key=lambda point: parameter(moved_a, point))
    leaves, arrives = parameter(moved_a, centre), parameter(moved_b, centre)
    start, end = a.point_at(leaves), b.point_at(arrives)
    sweep = _sweep(centre, start, end, turn)
    return _Fillet(leaves, arrives, Edge(start, end, math.tan(sweep / 4.0)))


def _sweep(centre: Point, start: Point, end: Point, turn: float) -> float:
    """The angle about `centre` from start to end, the way the corner turns."""
    a = math.atan2(start[1] - centre[1], start[0] - centre[0])
    b = math.atan2(end[1] - centre[1], end[0] - centre[0])
    return math.copysign((math.copysign(1.0, turn) * (b - a)) % (2.0 * math.pi), turn)
