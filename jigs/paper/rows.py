"""Rows of pieces side by side on a page: where they break, and where each corner lies.

Pieces that taper lie edge to edge as a fan about the point where their edges meet. Lengths mm, y down.
"""

from __future__ import annotations

from itertools import accumulate, pairwise
from math import atan, ceil, cos, sin

from geometry.records import Record, replace
from jigs.figures.items import Point
from jigs.paper.page import rectangle
from jigs.paper.strips import Strip
from jigs.words.lengths import MM_PER_INCH, Unit

TAIL: dict[Unit, float] = {"mm": 30.0, "in": 1.25 * MM_PER_INCH}  # of the tape before the first piece
LOWEST = 8.0  # of a row, so that its words have room
WIDEST_FAN = 2.0  # radians


class Row(Record):
    """Pieces `start` to before `stop`, with the room they take."""

    start: int
    stop: int
    width: float
    height: float
    corners: tuple[tuple[Point, ...], ...]  # of each piece from its upper left one, in the row's own place
    tail: float = 0.0  # of the tape, left of the first row's first piece

    @property
    def numbers(self) -> range:
        return range(self.start, self.stop)


def rows_of(strip: Strip, width: float, height: float, unit: Unit) -> list[Row]:
    """As few rows as there can be, about equally long; none where a piece is larger than the room.

    What is straight is drawn lower or higher where it is too high or too low, since only widths matter.
    """
    most = _most(strip, width, height)
    if not most:
        return []
    tail = 0.0 if strip.slope else max(0.0, min(TAIL[unit], width - strip.pitch))
    first = most if strip.slope else int((width - tail + 1e-9) // strip.pitch)
    counts = _shared(len(strip.pieces), most, first)
    found = [_row(strip, start, stop, height) for start, stop in pairwise(accumulate(counts, initial=0))]
    return [replace(found[0], tail=tail), *found[1:]]


def _shared(total: int, most: int, first: int) -> list[int]:
    """How many pieces lie in each row; the first row holds fewer."""
    rows = 1 + max(0, ceil((total - first) / most))
    counts = [min(first, ceil(total / rows))]
    for left in range(rows - 1, 0, -1):
        counts.append(ceil((total - sum(counts)) / left))
    return counts


def _most(strip: Strip, width: float, height: float) -> int:
    """How many pieces fit side by side."""
    if not strip.slope:
        return int((width + 1e-9) // strip.pitch)
    count = 0
    while count < len(strip.pieces) and 2 * (count + 1) * abs(atan(strip.slope)) <= WIDEST_FAN:
        row = _fan(strip, 0, count + 1)
        if row.width > width + 1e-9 or row.height > height + 1e-9:
            break
        count += 1
    return count


def _row(strip: Strip, start: int, stop: int, most: float) -> Row:
    if strip.slope:
        return _fan(strip, start, stop)
    high = min(max(strip.height, LOWEST), most)
    places = (strip.pitch * k for k in range(stop - start))
    corners = tuple(rectangle(x, 0.0, strip.edge, high) for x in places)
    return Row(start, stop, (stop - start) * strip.pitch, high, corners)


def _fan(strip: Strip, start: int, stop: int) -> Row:
    """Each piece is turned about the fan's point by twice its edges' angle from the one before it."""
    half = atan(strip.slope)
    low, high = (mm / 2 / strip.slope for mm in (strip.lower, strip.upper))
    own = ((-strip.upper / 2, high), (strip.upper / 2, high), (strip.lower / 2, low), (-strip.lower / 2, low))
    turns = ((2 * k - (stop - start - 1)) * half for k in range(stop - start))
    placed = [
        [(d * sin(turn) + u * cos(turn), u * sin(turn) - d * cos(turn)) for u, d in own] for turn in turns
    ]
    every = [point for piece in placed for point in piece]
    left, top = min(x for x, _ in every), min(y for _, y in every)
    width, height = max(x for x, _ in every) - left, max(y for _, y in every) - top
    corners = tuple(tuple((x - left, y - top) for x, y in piece) for piece in placed)
    return Row(start, stop, width, height, corners)
