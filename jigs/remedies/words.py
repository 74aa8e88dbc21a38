"""Remedies as lines that can be pasted into a job file, and for scripts."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import indent
from typing import Any

from jigs.asked.change import Change, raw_value, toml_value
from jigs.asked.toml_source import Source
from jigs.remedies.offered import Remedy
from jigs.remedies.order import of_a_machine

NOTHING = (
    "Nothing that was tried makes this job pass: more than a few of its values would have to be others. Begin with "
    "sizes nearer to one of the examples, and change one at a time."
)


def remedies_text(found: Sequence[Remedy], source: Source, doubted: bool = False) -> str:
    """The first set in full, the others after it, each as lines of a job file; of readings that are doubted, only if
    they are right."""
    if not found:
        return NOTHING
    first = "If you read the same again, this would do" if doubted else "What would do"
    heads = [f"{first}; tried, and the job passes:", *["Or, tried too:"] * (len(found) - 1)]
    lines = (indent("\n".join(remedy_lines(remedy, source)), "  ") for remedy in found)
    return "\n\n".join(f"{head}\n\n{own}" for head, own in zip(heads, lines, strict=True))


def remedy_lines(remedy: Remedy, source: Source) -> list[str]:
    """The lines of one set under their tables' names; a comment tells which line each stands for."""
    lines, table = [], ""
    for change in remedy.changes:
        if change.table != table:
            table = change.table
            lines.append(f"[{table}]")
        lines.append(f"{change.line}  # {_instead(change, source)}")
    return lines


def _instead(change: Change, source: Source) -> str:
    now, line = raw_value(source, change.key), source.lines.get(change.key, 0)
    if of_a_machine(change.key):
        return "if yours measures so much" if now is None else "only if yours measures so much"
    if now is None:
        return "a new line" + (f" under [{change.table}]" if change.table in source.data else "")
    if change.value is None:
        return f"take line {line} out"
    old = toml_value(now)
    return f"in place of line {line}" + (f", {old}" if len(old) <= 40 else "")


def remedies_json(found: Sequence[Remedy]) -> list[list[dict[str, Any]]]:
    """Every set as its keys and new values, as tomllib would read them; null leaves a key out."""
    return [[{"key": change.key, "value": change.value} for change in remedy.changes] for remedy in found]
