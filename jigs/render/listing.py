"""The listing: the work as short text, for a terminal and the wall. How each step is done stands in the book."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest

from jigs.counting import count_text
from jigs.file_names import of_job
from jigs.findings import Finding
from jigs.render.amounts import minutes_text, shown
from jigs.render.cells import table_text
from jigs.render.goods import by_group, goods_text
from jigs.tables import table
from jigs.work.model import Operation, Table, Work

WIDTH = 87
TABLES = (
    "blank",
    "tolerance",
    "cut-list",
    "finished",
    "rings",
    "joints",
    "values",
)  # told here; all are files


def listing_text(work: Work) -> str:
    """The job in short, what is assumed, the standing cautions, the steps, then the tables of reference."""
    blocks = [_head(work), _assumed(work.assumed), _notes(work.notes), _cautions(work), *_steps(work)]
    blocks += [_table(one, work) for one in work.tables if one.id in TABLES]
    blocks += [_goods(work), _rack(work)]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _head(work: Work) -> list[str]:
    wide = max(len(fact.label) for fact in work.facts)
    rows = [f"{fact.label.ljust(wide)}  {shown(fact, work.unit)}" for fact in work.facts]
    return [
        f"{work.title}: it {work.verdict}",
        *(line for row in rows for line in _wrapped(row, "  ", "    ")),
    ]


def _assumed(findings: Sequence[Finding]) -> list[str]:
    rows = [f"{finding.key}: {finding.message}" for finding in findings]
    told = [line for row in rows for line in _wrapped(row, "  ", "    ")]
    return ["Never measured, so assumed; measure yours and state them:", *told] if told else []


def _notes(findings: Iterable[Finding]) -> list[str]:
    return [
        line for finding in findings for line in _wrapped(f"{finding.severity}: {finding.said}", "", "  ")
    ]


def _cautions(work: Work) -> list[str]:
    told = [line for one in work.cautions if one.standing for line in _wrapped(one.text, "  ! ", "    ")]
    return ["At every step", *told] if told else []


def _steps(work: Work) -> Iterator[list[str]]:
    codes = {entry.name: entry.code for entry in work.rack}
    for stage in work.stages:
        lines = [stage.title.upper()]
        for operation in work.of_stage(stage.id):
            lines += _step(work, operation, codes)
        yield lines


def _step(work: Work, operation: Operation, codes: dict[str, str]) -> Iterator[str]:
    """What is done and where; what is set, measured and tried; the cautions that were not met before."""
    number = f"{work.number(operation.id)}."
    yield from _wrapped(f"{number:<3} {operation.does} ({_made(operation, codes)})", "", "    ")
    told = [f"{setting.label} {shown(setting, work.unit)}" for setting in operation.settings]
    sizes = [f"{s.label} {shown(s, work.unit)}" for check in operation.checks for s in check.sizes]
    lines = ["; ".join(told), f"check: {'; '.join(sizes)}" if sizes else ""]
    for line in filter(None, lines):
        yield from _wrapped(line, "    ", "    ")
    for id in operation.cautions:
        if _first(work, operation, id):
            yield from _wrapped(work.caution(id).text, "    ! ", "      ")


def _first(work: Work, operation: Operation, caution: str) -> bool:
    """Whether a caution is met here for the first time: the listing says each once."""
    return next(o for o in work.operations if caution in o.cautions) is operation


def _made(operation: Operation, codes: dict[str, str]) -> str:
    told: list[str] = [operation.place]
    if operation.pieces:
        told.append(count_text(operation.pieces, operation.comes))
    if operation.minutes:
        told.append(minutes_text(operation.minutes))
    if operation.hours:
        told.append(f"then wait {operation.hours:g} h")
    jigs = " ".join(codes[use.part] for use in operation.jigs)
    return f"{', '.join(told)}; {jigs}" if jigs else ", ".join(told)


def _table(one: Table, work: Work) -> list[str]:
    """Two or more rows side by side where they are short; the first columns of what is too wide for a page."""
    head, rows = table_text(one, work.unit)
    if one.id == "values":
        return _values(one.title, rows)
    if len(head) == 2:
        return [one.title, *columns([f"{name}  {value}" for name, value in rows])]
    for kept in range(len(head), 1, -1):
        cut = [row[:kept] for row in rows]
        lines = table([tuple(line) for line in [*_headings(head[:kept], cut), *cut]])
        if max(map(len, lines)) <= WIDTH:
            more = [] if kept == len(head) else [f"  more of it in {_csv(one, work)}"]
            return [one.title, *lines, *more]
    return [f"{one.title}: see {_csv(one, work)}"]


def _csv(one: Table, work: Work) -> str:
    """The file of a table."""
    return of_job(work.job, f"tables/{one.id}.csv")


def _values(title: str, rows: Sequence[Sequence[str]]) -> list[str]:
    """Those that a file states one by one, then the others in one run."""
    stated = [f"{name} {value}" for name, value, origin in rows if origin == "stated"]
    others = "; ".join(f"{name} {value}" for name, value, origin in rows if origin != "stated")
    return [f"{title}, as you stated them", *columns(stated), "By default", *_wrapped(others, "  ", "  ")]


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


def _goods(work: Work) -> list[str]:
    """A run for each group."""
    runs = [
        f"{group}: {'; '.join(goods_text(one, work.unit).replace('; ', ', ') for one in goods)}"
        for group, goods in by_group(work.goods)
    ]
    told = [line for run in runs for line in _wrapped(run[0].upper() + run[1:], "  ", "    ")]
    return ["Shopping list", *told] if told else []


def _rack(work: Work) -> list[str]:
    return [
        "The rack, with the code that each part carries",
        *columns([_part(e.code, e.name, e.quantity) for e in work.rack]),
    ]


def _part(code: str, name: str, quantity: int) -> str:
    return f"{code} {name}" if quantity == 1 else f"{code} {name} x {quantity}"


def columns(cells: Sequence[str]) -> list[str]:
    """Down one column, then down the next, as many as the page is wide."""
    for count in range(6, 1, -1):
        high = -(-len(cells) // count)
        down = [cells[k * high : (k + 1) * high] for k in range(count)]
        widths = [max(map(len, column), default=0) for column in down]
        if sum(widths) + 2 * count <= WIDTH:
            rows = zip_longest(*down, fillvalue="")
            return [
                "".join(f"  {cell.ljust(w)}" for cell, w in zip(row, widths, strict=True)).rstrip()
                for row in rows
            ]
    return [line for cell in cells for line in _wrapped(cell, "  ", "    ")]


def _wrapped(text: str, first: str, later: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False)
