"""A tape marked by rule, for pieces that are larger than the paper."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.figures.figure import Item
from jigs.paper.page import fitting, room, words
from jigs.paper.strips import Strip
from jigs.plans.plan import Plan
from jigs.words.lengths import show_length

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
