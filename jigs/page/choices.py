"""Other counts, boards and layups for a job, side by side as the page shows them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, get_args

from jigs.asked import toml_source
from jigs.asked.change import Change
from jigs.asked.job import Job
from jigs.compare.run import Comparison, compared_of
from jigs.compare.tell import HEADS
from jigs.compare.tried import Compared
from jigs.compare.wish import BY, MOST_RINGS, MOST_SEGMENTS, By, Options, wish
from jigs.page.contract_state import Choice, Choices, Named, RemedyLine
from jigs.page.reading import said
from jigs.render.lines import shown
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH, Unit

LEAST = 6  # rings or segments
LONGEST = 200  # letters of a list
BOARDS = {
    "mm": "Give the thicknesses of boards as planed, such as 19, 22, 25.",
    "in": "Give the thicknesses of boards as planed, such as 3/4, 7/8, 1.",
}
LAYUPS = "Choose how the layup may be mirrored."
RANGES = {"rings": MOST_RINGS, "segments": MOST_SEGMENTS}


class BadWish(ValueError):
    """What was asked for cannot be compared by."""


def ways_of(job: Job) -> list[Named]:
    """What may matter most."""
    return [
        Named(by, f"{HEADS[by][0].upper()}{HEADS[by][1:]}")
        for by in BY
        if by != "cost" or job.workshop.prices.wood
    ]


def in_stock(job: Job) -> str:
    """Thicknesses of the boards at hand, as they may be typed."""
    each = sorted({round(board.thickness, 3) for board in job.workshop.stock.boards})
    return ", ".join(f"{size / (MM_PER_INCH if job.unit == 'in' else 1.0):.4g}" for size in each)


def wish_of(body: Mapping[str, Any], job: Job) -> dict[str, str]:
    """What the page asks for, as options: `by`, ranges of counts, boards and layups. Raises BadWish."""
    if body.get("by") not in get_args(By):
        raise BadWish("Say what matters most.")
    found = {"by": str(body["by"])}
    for name, most in RANGES.items():
        asked = body.get(name)
        if asked is None:
            continue
        if not isinstance(asked, list) or len(asked) != 2 or not all(_even(one, most) for one in asked):
            raise BadWish(f"Give even counts from {LEAST} to {most}.")
        if asked[0] > asked[1]:
            raise BadWish("Give the smaller count first.")
        found[name] = f"{asked[0]}-{asked[1]}"
    for name, say in (("boards", BOARDS[job.unit]), ("layups", LAYUPS)):
        text = body.get(name, "")
        if not isinstance(text, str) or len(text) > LONGEST:
            raise BadWish(say)
        if text.strip():
            found[name] = _read(name, text, job, say)
    return found


def _read(name: str, text: str, job: Job, say: str) -> str:
    """An option that can be read; its own words are for the command line."""
    try:
        wish(job, Options(**{name: text}))  # type: ignore[arg-type]
    except Refused as refused:
        raise BadWish(say) from refused
    return text


def _even(count: object, most: int) -> bool:
    return type(count) is int and LEAST <= count <= most and count % 2 == 0


def choices(text: str, path: Path, wish: Mapping[str, Any]) -> Choices:
    """The best of them, each tried as the job would have it."""
    try:
        found = compared_of(toml_source.parse(text, str(path)), path, Options(**wish))
    except Refused as refused:
        return Choices("refused", findings=said(refused.findings))
    return _side_by_side(found)


def _side_by_side(found: Comparison) -> Choices:
    unit, every = found.job.unit, [*([found.own] if found.own else []), *found.best]
    labels = [figure.label for figure in every[0].figures] if every else []
    return Choices(
        "done",
        labels=labels,
        own=_cells(found.own, unit) if found.own else None,
        best=[_choice(one, unit) for one in found.best],
        tried=f"{found.counts[0]} looked at, {found.counts[1]} of them looked possible.",
    )


def _choice(one: Compared, unit: Unit) -> Choice:
    changes = [(key, value, Change(key, value)) for key, value in one.changes.items()]
    return Choice(
        _cells(one, unit),
        [RemedyLine(key, value, f"[{made.table}] {made.line}") for key, value, made in changes],
    )


def _cells(one: Compared, unit: Unit) -> list[str]:
    return [shown(figure, unit) for figure in one.figures]
