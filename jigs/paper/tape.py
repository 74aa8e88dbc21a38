"""Tape layouts: a ring's pieces side by side at their developed spacing, to be taped and rolled up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import atan2, cos, dist, sin
from string import ascii_uppercase

from jigs.figures.clear import text_width
from jigs.figures.figure import Figure
from jigs.figures.items import Item, Point
from jigs.paper.page import (
    MARGIN,
    SMALLEST,
    arrow,
    fitting,
    line,
    outline,
    page,
    rectangle,
    room,
    solid,
    words,
)
from jigs.paper.rows import TAIL, Row, rows_of
from jigs.paper.strips import OTHER, TURNED, Strip, strips_of
from jigs.plans.plan import Plan
from jigs.words.lengths import show_length
from jigs.words.quantity import ring_list

MIRRORED = {
    TURNED: "Top down: turned about, the other end up.",
    OTHER: "Other hand: its back is its outer side.",
}


def tape_pages(plan: Plan) -> list[Figure]:
    """Each page; rings alike share theirs, discs and open rings have none."""
    return [found for strip in strips_of(plan) for found in _pages(plan, strip)]


def _pages(plan: Plan, strip: Strip) -> Iterator[Figure]:
    paper = plan.job.workshop.paper.size
    left, top, right, bottom = room(paper)
    rows = rows_of(strip, right - left, bottom - top - CAPTION, plan.job.unit)
    names = _short(strip)
    bodies = list(_bodies(strip, rows, names, (left, top), bottom)) if rows else list(by_rule(plan, strip))
    told = " ".join(_told(plan, strip, rows, names))
    rings = ring_list(strip.rings)
    for number, body in enumerate(bodies, 1):
        of = f", page {number} of {len(bodies)}" if len(bodies) > 1 else ""
        heading = f"{plan.job.title}: tape for {rings}{of}"
        yield page(paper, plan.job.unit, heading, told, body)


def _told(plan: Plan, strip: Strip, rows: Sequence[Row], names: Mapping[str, str]) -> Iterator[str]:
    unit = plan.job.unit
    edge, between, length, glued, sanding, tail = (
        show_length(mm, unit)
        for mm in (strip.edge, strip.between, strip.length, strip.glued, strip.sanding, TAIL[unit])
    )
    what = f", {between} between them" if strip.between else ""
    later = f" ({glued} once {sanding} is sanded off each end)" if strip.sanding else ""
    where = " at the wider end" if strip.slope else ""
    yield f"{len(strip.pieces)} {strip.name}s of {edge}{where} as cut{what}: {length} all round{later}."
    yield (
        f"Outer faces up, {'grey left open' if strip.between else 'edge to edge'}, in their order from left to right, "
        f"arrows {strip.up}. The tape goes over them; it starts {tail} before {strip.name} 1, to close over the last."
    )
    if strip.between:
        yield f"Grey: strips of {strip.strip}."
    yield from (text for name, text in MIRRORED.items() if name in strip.pieces)
    if any(abs(row.height - strip.height) > 1e-6 for row in rows) and not strip.slope:
        yield f"Widths are true, heights are not: {strip.name}s are {show_length(strip.height, unit)} high."
    short = [f"{letter}: {name}" for name, letter in names.items() if name != letter]
    if short:
        yield f"{', '.join(short)}."


def _short(strip: Strip) -> dict[str, str]:
    """What is written on a piece for its wood: the name, or a letter where that is too long to be read."""
    names, space = dict.fromkeys(strip.pieces), min(strip.lower, strip.upper) - 1.0
    fits = all(fitting([name], space, WOOD) >= SMALLEST for name in names)
    return {name: name if fits else ascii_uppercase[k % 26] * (k // 26 + 1) for k, name in enumerate(names)}


def _bodies(
    strip: Strip, rows: Sequence[Row], names: Mapping[str, str], corner: Point, bottom: float
) -> Iterator[list[Item]]:
    """As many rows on each page as fit below each other."""
    (left, top), body = corner, list[Item]()
    y = top
    for k, row in enumerate(rows):
        if body and y + row.height + CAPTION > bottom + 1e-6:
            yield body
            body, y = [], top
        body += drawn_row(strip, rows, k, names, (left, y))
        y += row.height + CAPTION
    yield body


SIZE, PITCH = 3.6, 6.0


def by_rule(plan: Plan, strip: Strip) -> Iterator[list[Item]]:
    """What is drawn on each page: how far from the tape's mark each piece begins."""
    left, top, right, bottom = room(plan.job.workshop.paper.size)
    rows = _rows(plan, strip)
    each = int((bottom - top) // PITCH)
    for start in range(0, len(rows), each):
        yield [
            words((left, top + PITCH * (k + 1)), text, fitting([text], right - left, SIZE))
            for k, text in enumerate(rows[start : start + each])
        ]


def _rows(plan: Plan, strip: Strip) -> list[str]:
    every = plan.job.show(strip.pitch)
    rows = [f"A {strip.name} is larger than this paper: mark the tape by rule, every {every}, from one mark."]
    if strip.slope:
        end = "lower" if strip.lower < strip.upper else "upper"
        narrow = plan.job.show(min(strip.lower, strip.upper))
        rows.append(
            f"That is along the wider end; along the {end} end, on a tape of its own, every {narrow}."
        )
    starts = (plan.job.show(k * strip.pitch) for k in range(len(strip.pieces)))
    rows += [
        f"{strip.name} {k}, {wood}: from {start}"
        for k, (wood, start) in enumerate(zip(strip.pieces, starts, strict=True), 1)
    ]
    return [*rows, f"{strip.name} 1 again: {plan.job.show(strip.length)}"]


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
