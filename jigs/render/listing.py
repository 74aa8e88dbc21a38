"""The listing: the work as short text, for a terminal and the wall."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from jigs.findings import Finding
from jigs.render.amounts import count_text, minutes_text, ring_list, shown
from jigs.render.cells import table_text
from jigs.tables import table
from jigs.work.model import Operation, Table, Work

WIDTH = 87


def listing_text(work: Work) -> str:
    """The job in short, what is assumed, the standing cautions, the steps, then the tables of reference."""
    blocks = [_head(work), _assumed(work.assumed), _notes(work.notes), _cautions(work), *_steps(work)]
    blocks += [_table(one, work) for one in work.tables]
    blocks.append(_rack(work))
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _head(work: Work) -> list[str]:
    wide = max(len(fact.label) for fact in work.facts)
    rows = [f"{fact.label.ljust(wide)}  {shown(fact, work.unit)}" for fact in work.facts]
    return [f"{work.title}: it can be made", *(line for row in rows for line in _wrapped(row, "  ", "    "))]


def _assumed(findings: Sequence[Finding]) -> list[str]:
    rows = [f"{finding.key}: {finding.message}" for finding in findings]
    told = [line for row in rows for line in _wrapped(row, "  ", "    ")]
    return ["Never measured, so assumed; measure yours and state them:", *told] if told else []


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


def _table(one: Table, work: Work) -> list[str]:
    """Two or more rows side by side where they are short; what is too wide for a page is a file of its own."""
    head, rows = table_text(one, work.unit)
    if len(head) == 2 or one.id == "values":
        return [one.title, *columns([f"{name}  {value}" for name, value, *_ in rows])]
    lines = table([tuple(line) for line in [*_headings(head, rows), *rows]])
    if max(map(len, lines)) > WIDTH:
        return [f"{one.title}: see tables/{one.id}.csv"]
    return [one.title, *lines]


def _headings(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[list[str]]:
    """As many lines as they need to be no wider than what stands under them, or a word."""
    widths = [max(len(row[k]) for row in rows) for k in range(len(head))]
    cells = [
        textwrap.wrap(name, max(width, *map(len, name.split()))) if name else []
        for name, width in zip(head, widths, strict=True)
    ]
    high = max(map(len, cells))
    padded = [[*[""] * (high - len(lines)), *lines] for lines in cells]
    return [list(line) for line in zip(*padded, strict=True)]


def _rack(work: Work) -> list[str]:
    return ["The rack", *columns([f"{e.code}  {e.name}  {e.quantity} x {e.process}" for e in work.rack])]


def columns(cells: Sequence[str]) -> list[str]:
    """Down one column, then down the next, as many as the page is wide."""
    fitting = [cell for cell in cells if len(cell) <= WIDTH // 2]
    wide = max(map(len, fitting), default=0) + 2
    count = max(1, (WIDTH - 2) // wide)
    high = -(-len(fitting) // count)
    rows = [fitting[row::high] for row in range(high)]
    return [
        *("  " + "".join(cell.ljust(wide) for cell in row).rstrip() for row in rows),
        *(line for cell in cells if cell not in fitting for line in _wrapped(cell, "  ", "    ")),
    ]


def _wrapped(text: str, first: str, later: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False)
