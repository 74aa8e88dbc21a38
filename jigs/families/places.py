"""Finding room on a plate: lettering and hanging holes go where nothing else is."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from geometry.contour import Contour, circle
from geometry.polylines import dense
from geometry.sample import sample
from jigs.families.labels import ENGRAVED, LATHE_CAUTION, SAW_CAUTION, block, block_height, block_width
from jigs.part import Lettering, Line, Point

PITCH = 2.0  # of the grid on which room is looked for, mm
ROUGH = 0.05  # mm: how near the grid looks at curves
MARGIN = 2.5  # kept free around lettering
SHORT_TITLE = 12  # characters of the title, where the plate is too small for all
WHOLE = "\N{NO-BREAK SPACE}"
ARROWS = frozenset("←→↑↓")
# The spaces within a length ("4 33/64 + .003 IN") and behind a diameter's sign.
IN_A_LENGTH = re.compile(
    r"(?<=\d) (?=\d+/\d)|(?<=\d) (?=[+-] \.\d)|(?<=[+-]) (?=\.\d)|(?<=\d) (?=(?:mm|in)\b)|(?<=Ø) (?=[\d.])",
    re.IGNORECASE,
)
LEAST_TEXT = 2.0  # cap height below which engraved text is not read


class NoRoom(ValueError):
    """A plate too small for what has to be lettered on it, or hung by; `key` and `remedy` say what would do."""

    def __init__(self, message: str, key: str = "title", remedy: str = "shorten the title") -> None:
        self.key, self.remedy = key, remedy
        super().__init__(message)


@dataclass(frozen=True)
class Room:
    """A plate as a grid: `taken` counts, summed from the corner, the grid points that are not free."""

    left: float
    bottom: float
    taken: NDArray[np.int64]

    def spots(self, width: float, height: float) -> NDArray[np.float64]:
        """Lower left corners (k, 2) of the free rectangles of this size."""
        across, up = int(np.ceil(width / PITCH)) + 1, int(np.ceil(height / PITCH)) + 1
        t = self.taken
        if across >= t.shape[1] or up >= t.shape[0]:
            return np.empty((0, 2))
        inside = t[up:, across:] - t[:-up, across:] - t[up:, :-across] + t[:-up, :-across]
        rows, columns = np.nonzero(inside == 0)
        return np.column_stack([self.left + columns * PITCH, self.bottom + rows * PITCH])


def room(outline: Contour, holes: Sequence[Contour] = (), lines: Sequence[Line] = ()) -> Room:
    """The room left on a plate by its holes and its marked lines."""
    x0, y0, x1, y1 = outline.bounds
    xs, ys = np.arange(x0, x1 + PITCH, PITCH), np.arange(y0, y1 + PITCH, PITCH)
    taken = ~_covered(outline, xs, ys)
    for hole in holes:
        h0, h1, h2, h3 = hole.bounds
        rows = slice(*np.searchsorted(ys, (h1, h3)))
        columns = slice(*np.searchsorted(xs, (h0, h2)))
        taken[rows, columns] |= _covered(hole, xs[columns], ys[rows])
    columns_at, rows_at = (
        np.round((dense([line.points for line in lines], PITCH)[0] - (x0, y0)) / PITCH).astype(np.int64).T
    )
    on_grid = (rows_at >= 0) & (rows_at < len(ys)) & (columns_at >= 0) & (columns_at < len(xs))
    taken[rows_at[on_grid], columns_at[on_grid]] = True
    summed = np.zeros((len(ys) + 1, len(xs) + 1), dtype=np.int64)
    summed[1:, 1:] = taken.cumsum(axis=0).cumsum(axis=1)
    return Room(x0, y0, summed)


def _covered(contour: Contour, xs: NDArray[np.float64], ys: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which points (len(ys), len(xs)) of a grid a contour encloses: those with odd crossings to their left."""
    inside = np.zeros((len(ys), len(xs) + 1), dtype=np.int64)
    start = sample(contour, ROUGH)
    (ax, ay), (bx, by) = start.T, np.roll(start, -1, axis=0).T
    rows, edges = np.nonzero((ay > ys[:, None]) != (by > ys[:, None]))
    share = (ys[rows] - ay[edges]) / (by - ay)[edges]
    columns = np.searchsorted(xs, ax[edges] + share * (bx - ax)[edges])
    np.add.at(inside, (rows, columns), 1)
    return np.asarray(inside.cumsum(axis=1)[:, :-1] % 2 == 1)


def _nearest(spots: NDArray[np.float64], size: Point, wanted: Point) -> Point:
    middles = spots + np.array(size) / 2
    best = spots[np.argmin(((middles - np.array(wanted)) ** 2).sum(axis=1))]
    return (float(best[0]), float(best[1]))


def lettered(
    outline: Contour, holes: Sequence[Contour], lines: Sequence[Line], text: Sequence[str],
    near: Point | None = None, height: float = ENGRAVED,
) -> tuple[Lettering, ...]:  # fmt: skip
    """Lettering in the largest size up to `height` for which there is room, nearest to a point.

    Lines are kept where they fit, else run together or broken. `near` is the outline's centroid unless
    given. Raises NoRoom when not even the least size fits.
    """
    free = room(outline, holes, lines)
    ways = (tuple(text), *rewrapped(text))
    for size in np.arange(height, LEAST_TEXT - 1e-9, -0.25).tolist():
        for lines_of_text in ways:
            wide = block_width(lines_of_text, size) + 2 * MARGIN
            tall = block_height(lines_of_text, size) + 2 * MARGIN
            spots = free.spots(wide, tall)
            if len(spots):
                left, bottom = _nearest(spots, (wide, tall), near or outline.centroid)
                return block(lines_of_text, left + MARGIN, bottom + tall - MARGIN, size)
    raise NoRoom(f"no room on the plate for the lettering {' / '.join(text)!r}")


def lettered_titled(
    outline: Contour, holes: Sequence[Contour], title: str, text: Sequence[str]
) -> tuple[Lettering, ...]:
    """Lettering under the job's title, or as much of it as a small plate has room for. Raises NoRoom."""
    try:
        return lettered(outline, holes, (), (title, *text))
    except NoRoom:
        return lettered(outline, holes, (), (title[:SHORT_TITLE].strip(), *text))


def rewrapped(text: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """The lines run together and broken anew, from one row to many; lengths and a line with an arrow stay whole."""
    joined = ", ".join(
        line.replace(" ", WHOLE) if ARROWS & set(line) else IN_A_LENGTH.sub(WHOLE, line) for line in text
    )
    for caution in (SAW_CAUTION, LATHE_CAUTION):
        joined = joined.replace(", ".join(caution), WHOLE.join(" ".join(caution).split(" ")))
    longest = max(map(len, joined.split(" ")))
    widths = [max(longest, ceil(len(joined) / rows)) for rows in range(1, len(text) + 4)]
    rows = [textwrap.wrap(joined, width, break_on_hyphens=False) for width in dict.fromkeys(widths)]
    return tuple(tuple(row.replace(WHOLE, " ") for row in found) for found in rows)


def hang_hole(outline: Contour, holes: Sequence[Contour], near: Point, radius: float = 2.5) -> Contour:
    """A hole to hang the plate by, at the free place nearest to `near`. Raises NoRoom without one."""
    size = 2 * radius + 2 * MARGIN
    spots = room(outline, holes).spots(size, size)
    if not len(spots):
        raise NoRoom("no room on the plate for its hanging hole")
    left, bottom = _nearest(spots, (size, size), near)
    return circle((left + size / 2, bottom + size / 2), radius).cw()
