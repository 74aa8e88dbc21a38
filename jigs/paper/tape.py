"""Tape layouts: a ring's pieces side by side at their developed spacing, to be taped and rolled up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from string import ascii_uppercase

from jigs.figures.figure import Figure, Item, Point
from jigs.paper.page import SMALLEST, fitting, page, room, words
from jigs.paper.row_drawing import CAPTION, WOOD, drawn_row
from jigs.paper.rows import TAIL, Row, rows_of
from jigs.paper.strips import OTHER, TURNED, Strip, strips_of
from jigs.plans.plan import Plan
from jigs.words.counting import ring_list
from jigs.words.lengths import show_length

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
    return {name: name if fits else _letter(k) for k, name in enumerate(names)}


def _letter(k: int) -> str:
    return ascii_uppercase[k % 26] * (k // 26 + 1)


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
    unit = plan.job.unit
    every = show_length(strip.pitch, unit)
    rows = [f"A {strip.name} is larger than this paper: mark the tape by rule, every {every}, from one mark."]
    if strip.slope:
        end = "lower" if strip.lower < strip.upper else "upper"
        narrow = show_length(min(strip.lower, strip.upper), unit)
        rows.append(
            f"That is along the wider end; along the {end} end, on a tape of its own, every {narrow}."
        )
    starts = (show_length(k * strip.pitch, unit) for k in range(len(strip.pieces)))
    rows += [
        f"{strip.name} {k}, {wood}: from {start}"
        for k, (wood, start) in enumerate(zip(strip.pieces, starts, strict=True), 1)
    ]
    return [*rows, f"{strip.name} 1 again: {show_length(strip.length, unit)}"]
