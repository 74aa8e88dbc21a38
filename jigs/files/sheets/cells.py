"""Rectangles that hold one part, or two of a kind head to tail, with the spacing round them.

Packing is done in whole micrometres, rounded up, so that no sum of sizes is a rounding too large or too small.
"""

from __future__ import annotations

from math import ceil, floor

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray, lengths_of
from geometry.plane.sample import sample
from geometry.records import Record
from jigs.files.drawing import widened
from jigs.parts.part import Part

MICRON = 1000  # in a mm
ROUNDING = 1e-6  # mm; less than this over a micrometre is rounding
DEVIATION = 0.05  # mm; of the chords that stand for arcs when two parts are laid together
WORTH = 0.97  # a pair must take no more than this share of two single rectangles


class Cell(Record):
    """Parts of one kind in a rectangle of `width` x `height` micrometres, half of the spacing all round.

    `places` are each part's quarter turns and where its own origin lies from the lower left corner, mm.
    """

    part: Part
    width: int
    height: int
    places: tuple[tuple[int, float, float], ...]

    def fits(self, room: tuple[int, int]) -> bool:
        """Whether it lies in a room of this size, one way or the other."""
        return min(self.width, self.height) <= min(room) and max(self.width, self.height) <= max(room)

    def turned(self) -> Cell:
        """By a quarter turn, counter-clockwise: its top goes to the left."""
        top = self.height / MICRON
        places = tuple(((turns + 1) % 4, top - y, x) for turns, x, y in self.places)
        return Cell(self.part, self.height, self.width, places)


class Cells(Record):
    """How a part may lie: alone, and head to tail with another where that takes less room."""

    single: Cell
    pair: Cell | None


def cells_of(part: Part, spacing: float, kerf: float) -> Cells:
    """The rectangles of a part whose lines, moved out by half of the kerf, keep `spacing` between them."""
    single = cell_of(part, spacing, kerf)
    return Cells(single, _pair(part, _drawn(part, kerf), spacing, single) if part.quantity > 1 else None)


def cell_of(part: Part, spacing: float, kerf: float) -> Cell:
    """That of a part alone."""
    x0, y0, x1, y1 = _drawn(part, kerf).bounds
    return _cell(part, (x1 - x0, y1 - y0), ((0, -x0, -y0),), spacing)


def _drawn(part: Part, kerf: float) -> Contour:
    return widened(part.outline.ccw(), kerf / 2)


def room_on(size: tuple[float, float], spacing: float) -> tuple[int, int]:
    """What cells may fill of a sheet, in micrometres: each brings half of the spacing to its edges."""
    width, height = (floor((side - spacing + ROUNDING) * MICRON) for side in size)
    return width, height


def _cell(
    part: Part, size: tuple[float, float], places: tuple[tuple[int, float, float], ...], spacing: float
) -> Cell:
    width, height = (ceil((side + spacing - ROUNDING) * MICRON) for side in size)
    half = spacing / 2
    return Cell(part, width, height, tuple((turns, x + half, y + half) for turns, x, y in places))


def _pair(part: Part, drawn: Contour, spacing: float, single: Cell) -> Cell | None:
    """The smallest rectangle of two, one turned by half a turn, if it is worth it.

    Two convex shapes H and v - H stand at least `spacing` apart when n·v >= 2 h(n) + spacing for the normal n
    of some edge of H, h(n) its support there. So for a v square across from the first, the least step along
    x or y is the least over the edges that face that way.
    """
    normals, support = _hull(sample(drawn, DEVIATION))
    support = 2 * (support + DEVIATION) + spacing
    x0, y0, x1, y1 = drawn.bounds
    middle = np.array((x0 + x1, y0 + y1))
    found = []
    for axis in (0, 1):
        for sign in (1.0, -1.0):
            facing = sign * normals[:, axis] > 1e-9
            across = normals[facing, 1 - axis] * middle[1 - axis]
            steps = (support[facing] - across) / (sign * normals[facing, axis])
            to = middle.copy()
            to[axis] = sign * steps.min()
            found.append(_two(part, (x0, y0, x1, y1), (float(to[0]), float(to[1])), spacing))
    best = min(found, key=lambda cell: cell.width * cell.height)
    return best if best.width * best.height <= WORTH * 2 * single.width * single.height else None


def _two(
    part: Part, bounds: tuple[float, float, float, float], to: tuple[float, float], spacing: float
) -> Cell:
    """The part, and it turned by half a turn with its origin at `to`, in one rectangle."""
    x0, y0, x1, y1 = bounds
    left, low = min(x0, to[0] - x1), min(y0, to[1] - y1)
    right, high = max(x1, to[0] - x0), max(y1, to[1] - y0)
    places = ((0, -left, -low), (2, to[0] - left, to[1] - low))
    return _cell(part, (right - left, high - low), places, spacing)


def _hull(points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Outward normals (k, 2) of the convex hull of points (m, 2), and its support (k,) along each."""
    rows = sorted(map(tuple, points.tolist()))
    corners = np.array([*_chain(rows), *_chain(rows[::-1])])
    along = np.roll(corners, -1, axis=0) - corners
    normals = np.column_stack((along[:, 1], -along[:, 0])) / lengths_of(along)[:, None]
    return normals, (normals @ points.T).max(axis=1)


def _chain(rows: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    """One side of a hull (the monotone chain method), without its last point."""
    kept: list[tuple[float, ...]] = []
    for x, y in rows:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], (x, y)) <= 0:
            kept.pop()
        kept.append((x, y))
    return kept[:-1]


def _turn(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
