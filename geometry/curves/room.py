"""Points along polylines, and room on a plate: rectangles in which nothing else is."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import BoolArray, FloatArray, Point, lengths_of, paired
from geometry.plane.sample import IntArray, sample
from geometry.records import Record

if TYPE_CHECKING:
    import numpy.typing as npt


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
    counts = np.maximum(2, np.ceil(lengths_of(ends - starts) / step).astype(np.int64) + 1)
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


PITCH = 2.0  # of the grid on which room is looked for, mm
ROUGH = 0.05  # mm: how near the grid looks at curves


class Room(Record):
    """A plate as a grid: `taken` counts, summed from the corner, the grid points that are not free."""

    left: float
    bottom: float
    taken: npt.NDArray[np.int32]
    pitch: float = PITCH

    def spots(self, width: float, height: float) -> FloatArray:
        """Lower left corners (k, 2) of the free rectangles of this size."""
        across, up = ceil(width / self.pitch) + 1, ceil(height / self.pitch) + 1
        t = self.taken
        if across >= t.shape[1] or up >= t.shape[0]:
            return np.empty((0, 2))
        inside = t[up:, across:] - t[:-up, across:] - t[up:, :-across] + t[:-up, :-across]
        rows, columns = (inside == 0).nonzero()
        return paired(self.left + columns * self.pitch, self.bottom + rows * self.pitch)


def room(
    outline: Contour,
    holes: Sequence[Contour] = (),
    lines: Sequence[Sequence[Point] | FloatArray] = (),
    pitch: float = PITCH,
) -> Room:
    """The room left on a plate by its holes and by lines (k, 2), on a grid of this pitch."""
    xs, ys, inside = _grid(outline, pitch)
    x0, y0 = float(xs[0]), float(ys[0])
    taken = ~inside
    if holes:
        taken |= _covered(holes, [_chords(hole) for hole in holes], xs, ys)
    if lines:
        places = np.round((dense(lines, pitch)[0] - (x0, y0)) / pitch).astype(np.int64)
        columns_at, rows_at = places[:, 0], places[:, 1]
        on_grid = (rows_at >= 0) & (rows_at < len(ys)) & (columns_at >= 0) & (columns_at < len(xs))
        taken[rows_at[on_grid], columns_at[on_grid]] = True
    summed = np.zeros((len(ys) + 1, len(xs) + 1), dtype=np.int32)
    np.cumsum(taken.cumsum(axis=0, dtype=np.int32), axis=1, out=summed[1:, 1:])
    return Room(x0, y0, summed, pitch)


@lru_cache(maxsize=8)  # lettering, code and hanging hole look for room on one plate after the other
def _grid(outline: Contour, pitch: float) -> tuple[FloatArray, FloatArray, BoolArray]:
    """x and y of a plate's grid, and which of its points (len(ys), len(xs)) lie on the plate."""
    x0, y0, x1, y1 = outline.bounds
    xs, ys = np.arange(x0, x1 + pitch, pitch), np.arange(y0, y1 + pitch, pitch)
    return xs, ys, _covered((outline,), [_rough(outline)], xs, ys)


@lru_cache(maxsize=256)
def _rough(contour: Contour) -> FloatArray:
    """Where the chords of a contour start and end (n, 4)."""
    start = sample(contour, ROUGH)
    return np.concatenate((start, np.concatenate((start[1:], start[:1]))), axis=1)


def _chords(contour: Contour) -> FloatArray:
    """The same, of a shape that may recur elsewhere."""
    x, y = contour.points[0].tolist()
    return np.add(_rough(contour.moved(-x, -y)), (x, y, x, y))


def _covered(
    contours: Sequence[Contour], chords: Sequence[FloatArray], xs: FloatArray, ys: FloatArray
) -> BoolArray:
    """Which points (len(ys), len(xs)) of a grid contours enclose: they are wound about, from their left."""
    ax, ay, bx, by = np.concatenate(chords).T
    starts, ends = np.searchsorted(ys, ay), np.searchsorted(ys, by)  # rows below
    crossed = np.abs(starts - ends)
    edges = np.repeat(np.arange(len(ax)), crossed)
    first = np.minimum(starts, ends) - np.cumsum(crossed) + crossed
    rows = np.arange(len(edges)) + first[edges]
    share = (ys[rows] - ay[edges]) / (by - ay)[edges]
    columns = np.searchsorted(xs, ax[edges] + share * (bx - ax)[edges])
    senses = np.sign([contour.area for contour in contours])
    turns = np.repeat(senses, [len(own) for own in chords]) * np.sign(starts - ends)
    wide = len(xs) + 1
    met = np.bincount(rows * wide + columns, turns[edges], len(ys) * wide).reshape(len(ys), wide)
    return np.asarray(met.cumsum(axis=1)[:, :-1] != 0.0)


def nearest_spot(spots: FloatArray, size: Point, wanted: Point) -> Point:
    """Of lower left corners (k, 2) of free rectangles the one whose rectangle's middle is nearest to a point."""
    x, y = spots[:, 0] + size[0] / 2 - wanted[0], spots[:, 1] + size[1] / 2 - wanted[1]
    left, bottom = spots[(x**2 + y**2).argmin()].tolist()
    return left, bottom
