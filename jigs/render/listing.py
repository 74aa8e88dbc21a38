"""The listing: the work on a few sheets to staple, and on a terminal.

Every step in order, with what is set and measured; a number stands once in its stage. How a step is done, how jigs
are built, and every table stand in the book, and in tables/.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import zip_longest

from geometry.grouping import gathered
from jigs.render.lines import lines, minutes_text, shown
from jigs.words.findings import Finding
from jigs.words.lengths import Unit
from jigs.work.model import Heading, Operation, Work

WIDTH = 87


def listing_text(work: Work) -> str:
    """The job in short, what is assumed, every caution, then the steps in order."""
    blocks = [_head(work), _assumed(work.assumed), _notes(work.notes), [*_cautions(work), *_steps(work)]]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _head(work: Work) -> list[str]:
    facts = [f"{fact.label}  {shown(fact, work.unit)}" for fact in work.facts]
    short = [fact for fact in facts if len(fact) <= WIDTH // 2]
    long = [line for fact in facts if fact not in short for line in wrapped(fact, "  ", "    ")]
    return [f"{work.title}: it {work.verdict}", *long, *_columns(short)]


def _assumed(findings: Sequence[Finding]) -> list[str]:
    rows = [f"{finding.key}: {finding.message}" for finding in findings]
    told = [line for row in rows for line in wrapped(row, "  ", "    ")]
    return ["Never measured, so assumed; measure yours and state them:", *told] if told else []


def _notes(findings: Iterable[Finding]) -> list[str]:
    return [line for finding in findings for line in wrapped(f"{finding.severity}: {finding.said}", "", "  ")]


def _cautions(work: Work) -> list[str]:
    """The standing ones, then each at the place where it is met first, with the step that meets it."""
    standing = " ".join(one.text for one in work.cautions if one.standing)
    met = _met(work)
    places = gathered(
        (first.place, f"{work.number(first.id)}! {one.text}")
        for one in work.cautions
        if (first := met.get(one.id))
    )
    told = [
        ("Always", standing),
        *((f"First at the {place}", " ".join(texts)) for place, texts in places.items()),
    ]
    rows = [line for place, text in told for line in wrapped(f"{place}: {text}", "", "  ")]
    return ["CAUTIONS: each behind the step that meets it first, which has its ! too", *rows]


def _met(work: Work) -> dict[str, Operation]:
    """By caution, the operation that meets it first; none meets a standing one."""
    return {id: operation for operation in reversed(work.operations) for id in operation.cautions}


def _steps(work: Work) -> list[str]:
    met, codes = _met(work), {entry.name: entry.code for entry in work.rack}
    found = ["THE WORK: what stays the same within a stage stands once; how to do it is in the book"]
    for stage in work.stages:
        operations = work.of_stage(stage.id)
        told: set[tuple[str, str]] = set()
        steps = [
            (
                f"{work.number(one.id)}{'!' if any(met[id] is one for id in one.cautions) else ''}",
                _step(one, work.unit, codes, told) if stage.sort == "work" else one.does,
            )
            for one in operations
        ]
        if stage.in_a_run or len(operations) == 1:
            run = "  ".join(f"{number} {text}" for number, text in steps)
            found += wrapped(f"{_heading(stage, operations)}  {run}", "", "   ")
        else:
            rows = [line for number, text in steps for line in wrapped(f"{number} {text}", "", "   ")]
            found += [_heading(stage, operations), *rows]
    return found


def _heading(stage: Heading, operations: Sequence[Operation]) -> str:
    places = ", ".join(dict.fromkeys(operation.place for operation in operations))
    minutes = minutes_text(sum(operation.minutes for operation in operations))
    hours = sum(operation.hours for operation in operations)
    return f"{stage.title.upper()}: {places}, {minutes}{f', then wait {hours:.0f} h' if hours else ''}"


def _step(operation: Operation, unit: Unit, codes: Mapping[str, str], told: set[tuple[str, str]]) -> str:
    """What is done, with which jigs by code; what is set and measured, where the stage did not tell it before."""
    jigs = " ".join(codes[use.part] for use in operation.jigs)
    sizes = [size for check in operation.checks for size in check.sizes]
    runs = [_run(lines(some, unit), told) for some in (operation.settings, sizes)]
    parts = [operation.does, f"({jigs})" if jigs else "", runs[0], f"Check: {runs[1]}" if runs[1] else ""]
    return " ".join(filter(None, parts))


def _run(rows: Iterable[tuple[str, str]], told: set[tuple[str, str]]) -> str:
    """Those that are new; what several begin with, "Ring 2: ", stands once."""
    new = [row for row in rows if row not in told]
    told.update(new)
    run, before = "", ""
    for label, value in new:
        head, colon, rest = label.partition(": ")
        alike = bool(colon) and head == before
        name = rest if alike else label
        run += f"{', ' if alike else '; ' if run else ''}{name}{':' * name[-1].isdigit()} {value}"
        before = head if colon else ""
    return f"{run}." if run else ""


def _columns(cells: Sequence[str]) -> list[str]:
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
    return [line for cell in cells for line in wrapped(cell, "  ", "    ")]


def wrapped(text: str, first: str, later: str) -> list[str]:
    """Broken where words end; a word that is longer than a line stands alone."""
    rows, indent = [], first
    while text:
        room = WIDTH - len(indent)
        end = len(text) if len(text) <= room else text.rfind(" ", 0, room + 1)
        if end < 0:
            end = f"{text} ".index(" ")
        rows.append(indent + text[:end].rstrip(" "))
        text, indent = text[end:].lstrip(" "), later
    return rows
