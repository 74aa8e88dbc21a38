"""One row of a tape layout as it is drawn: pieces, what stands between them, where it meets other rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import atan2, cos, dist, sin

from jigs.figures.boxes import text_width
from jigs.figures.figure import Item, Point
from jigs.paper.page import (
    MARGIN,
    SMALLEST,
    arrow,
    fitting,
    line,
    outline,
    rectangle,
    solid,
    words,
)
from jigs.paper.rows import Row
from jigs.paper.strips import Strip

CAPTION = 12.0  # below a row
NUMBER, WOOD, CAPTIONS = 4.5, 3.2, 3.1  # sizes of words at most
MARK = 1.6  # half of a match mark
ARROW, INSET = 3.0, 0.8  # of an arrow: its size at most, and how far it lies below the edge


def drawn_row(strip: Strip, rows: Sequence[Row], k: int, names: Mapping[str, str], at: Point) -> list[Item]:
    """Row k with its upper left corner there; `names` is what is written for each wood."""
    row, (left, y) = rows[k], at
    x, items = left + row.tail, list[Item]()
    for number, corners in zip(row.numbers, row.corners, strict=True):
        placed = [(x + px, y + py) for px, py in corners]
        items += _piece(number + 1, names[strip.pieces[number]], placed)
        if strip.between:
            items.append(_between(strip, placed[1], row.height))
    if row.tail:
        items += _tail(left, y, row)
    below = y + row.height
    if not strip.slope:
        items += [*_half_mark((x, below), 1), *_half_mark((x + row.width, below), -1)]
    return [*items, *_joins(rows, k, x, below)]


def _piece(number: int, name: str, corners: Sequence[Point]) -> list[Item]:
    """Number and wood in its middle, the arrow near its upper left corner."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    width, height = min(dist(*corners[:2]), dist(*corners[2:])), dist(corners[0], corners[3])
    middle = ((ax + bx + cx + dx) / 4, (ay + by + cy + dy) / 4)
    most = (height - 1.6) / 2.4
    first, second = (
        fitting([text], width - 1.0, min(largest, most))
        for text, largest in ((str(number), NUMBER), (name, WOOD))
    )
    base = middle[1] + 0.75 * first - (0.75 * first + 1.25 * second) / 2
    return [
        outline(corners),
        words((middle[0], base), str(number), first, "middle"),
        words((middle[0], base + 1.25 * second), name, second, "middle"),
        _arrow(corners, min(ARROW, height / 4, width / 6)),
    ]


def _arrow(corners: Sequence[Point], size: float) -> Item:
    """Along the piece's middle line."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    lean = atan2(ax + bx - cx - dx, cy + dy - ay - by)
    tip = (ax + 0.17 * (bx - ax) - INSET * sin(lean), ay + 0.17 * (by - ay) + INSET * cos(lean))
    return arrow(tip, size, lean)


def _between(strip: Strip, corner: Point, height: float) -> Item:
    corners = rectangle(*corner, strip.between, height)
    return outline(corners, "pale")


def _tail(left: float, y: float, row: Row) -> list[Item]:
    """Where the tape starts: a dashed end of tape."""
    size = fitting(["tape starts"], row.tail - 1.0, CAPTIONS)
    told: list[Item] = [
        words((left + row.tail / 2, y + row.height / 2 + size / 3), "tape starts", size, "middle")
    ]
    corners = rectangle(left, y + row.height / 4, row.tail, row.height / 2)
    return [outline(corners, dashes=(2.0, 1.0)), *(told if size >= SMALLEST else ())]


def _joins(rows: Sequence[Row], k: int, x: float, y: float) -> list[Item]:
    """Below a row's two ends: which row it meets there."""
    row, last = rows[k], len(rows) - 1
    end = x + row.width
    first, total = row.start + 1, rows[-1].stop
    begins = f"row {k + 1} meets row {k}, {first} follows {first - 1}" if k else f"1 closes on {total}"
    ends = f"row {k + 1} meets row {k + 2}, {row.stop + 1} follows" if k < last else f"{total} closes on 1"
    return [
        words((x + MARK + 1.0, y + 4.0), begins, CAPTIONS),
        words((max(end, MARGIN + text_width(ends, CAPTIONS)), y + 8.0), ends, CAPTIONS, "end"),
    ]


def _half_mark(at: Point, side: int) -> list[Item]:
    """A triangle whose point lies to a side; the row that it meets has the other half."""
    x, y = at
    peak = (x + side * MARK, y + 1.0 + MARK)
    return [line(at, (x, y + 2 * MARK + 2.0)), solid([(x, y + 1.0), peak, (x, y + 1.0 + 2 * MARK)])]
