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
from jigs.compare.wish import BY, MOST_RINGS, MOST_SEGMENTS, By, Options
from jigs.page.contract_work import Choice, Choices, Named, RemedyLine
from jigs.page.fast import said
from jigs.render.amounts import shown
from jigs.words.findings import Refused
from jigs.words.lengths import Unit

LEAST = 6  # rings or segments
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


def wish_of(body: Mapping[str, Any]) -> dict[str, str]:
    """What the page asks for, as options: `by`, and from where to where counts are tried. Raises BadWish."""
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
    return found


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
