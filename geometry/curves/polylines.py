"""Points along polylines."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from geometry.plane.edges import FloatArray, Point

IntArray = npt.NDArray[np.int64]


def dense(lines: Sequence[Sequence[Point] | FloatArray], step: float) -> tuple[FloatArray, IntArray]:
    """Points (m, 2) no farther than `step` apart along the pieces of polylines (k, 2), and whose they are (m,).

    Both ends of each piece are among them.
    """
    if not lines:
        return np.empty((0, 2)), np.empty(0, dtype=np.int64)
    points, sizes = np.concatenate(lines, dtype=np.float64), np.array([len(line) for line in lines])
    last = np.cumsum(sizes) - 1
    onward = np.ones(len(points), dtype=np.bool_)
    onward[last] = False
    starts, ends = points[onward], points[1:][onward[:-1]]
    counts = np.maximum(2, np.ceil(np.hypot(*(ends - starts).T) / step).astype(np.int64) + 1)
    piece = np.repeat(np.arange(len(counts)), counts)
    at = np.arange(len(piece)) - np.repeat(np.cumsum(counts) - counts, counts)
    share = (at / (counts - 1)[piece])[:, None]
    owner = np.repeat(np.arange(len(lines)), sizes - 1)
    return starts[piece] + (ends - starts)[piece] * share, owner[piece]


def hull(points: FloatArray) -> FloatArray:
    """The corners (k, 2) of the convex hull of points (m, 2), counter-clockwise (Andrew's monotone chain)."""
    ordered = sorted(set(map(tuple, points.tolist())))
    if len(ordered) < 3:
        return np.array(ordered)
    return np.array(_half_hull(ordered)[:-1] + _half_hull(ordered[::-1])[:-1])


def _half_hull(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for x, y in points:
        while len(found) > 1:
            (ax, ay), (bx, by) = found[-2:]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0.0:
                break
            found.pop()
        found.append((x, y))
    return found
