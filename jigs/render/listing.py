"""The listing: the work as short text, for a terminal and the wall."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from jigs.findings import Finding
from jigs.quantity import Quantity
from jigs.render.amounts import count_text, minutes_text, ring_list, shown
from jigs.tables import table
from jigs.work.model import Operation, Work

WIDTH = 87


def listing_text(work: Work) -> str:
    """The job in short, what is assumed, the standing cautions, the steps, then the tables of reference."""
    blocks = [_head(work), _assumed(work.assumed), _notes(work.notes), _cautions(work), *_steps(work)]
    blocks += [_table(table_.title, table_.rows, work) for table_ in work.tables]
    blocks.append(_rack(work))
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _head(work: Work) -> list[str]:
    rows = [(fact.label, shown(fact, work.unit)) for fact in work.facts]
    return [f"{work.title}: it can be made", *table(rows)]


def _assumed(findings: Sequence[Finding]) -> list[str]:
    rows = [(finding.key, finding.message) for finding in findings]
    return ["Never measured, so assumed; measure yours and state them:", *table(rows)] if rows else []


def _notes(findings: Iterable[Finding]) -> list[str]:
    return [line for finding in findings for line in _wrapped(finding.told, "", "  ")]


def _cautions(work: Work) -> list[str]:
    told = [line for one in work.cautions if one.standing for line in _wrapped(one.text, "  ! ", "    ")]
    return ["At every step", *told] if told else []


def _steps(work: Work) -> Iterator[list[str]]:
    for stage in work.stages:
        lines = [stage.title.upper()]
        for operation in work.of_stage(stage.id):
            lines += _step(work, operation)
        yield lines


def _step(work: Work, operation: Operation) -> Iterator[str]:
    number = f"{work.number(operation.id)}."
    yield from _wrapped(f"{number:<4}{operation.does}{_made(operation)}", "", "    ")
    for head, items in _rows(work, operation):
        yield from _wrapped(f"{head}: {'; '.join(items)}", "    ", "      ")
    for id in operation.cautions:
        if _first(work, operation, id):
            yield from _wrapped(work.caution(id).text, "    ! ", "      ")


def _first(work: Work, operation: Operation, caution: str) -> bool:
    """Whether a caution is met here for the first time: the listing says each once."""
    return next(o for o in work.operations if caution in o.cautions) is operation


def _rows(work: Work, operation: Operation) -> Iterator[tuple[str, list[str]]]:
    unit = work.unit
    codes = {entry.name: entry.code for entry in work.rack}
    if operation.settings:
        yield "Set", [f"{setting.label} {shown(setting, unit)}" for setting in operation.settings]
    if operation.jigs:
        yield "Jigs", [", ".join(codes[use.part] for use in operation.jigs)]
    if operation.trial:
        yield "Try first", [operation.trial]
    for check in operation.checks:
        told = [f"{size.label} {shown(size, unit)}" for size in check.sizes]
        yield "Check", [check.how, *told, *([f"if not: {check.if_not}"] if check.if_not else [])]


def _made(operation: Operation) -> str:
    told: list[str] = [operation.place]
    if operation.pieces:
        told.append(count_text(operation.pieces, operation.comes))
    if operation.rings:
        told.append(ring_list(operation.rings))
    if operation.minutes:
        told.append(minutes_text(operation.minutes))
    if operation.hours:
        told.append(f"then wait {operation.hours:g} h")
    return f" ({', '.join(told)})"


def _table(title: str, rows: Sequence[Quantity], work: Work) -> list[str]:
    cells = [(row.label, shown(row, work.unit)) for row in rows]
    return [title, *table(cells)]


def _rack(work: Work) -> list[str]:
    rows = [(e.code, e.name, f"{e.quantity} x {e.process}") for e in work.rack]
    return ["The rack", *table(rows)]


def _wrapped(text: str, first: str, later: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False)
