"""Changes of keys, as a turner would type them, and a job file's values with them."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from copy import copy
from typing import Any

from geometry.records import Record, replace
from jigs.asked.toml_source import Source
from jigs.words.lengths import MM_PER_INCH, Unit, typed_length


class Change(Record):
    """One key of the job file with its new value as tomllib would read it; None leaves the key out."""

    key: str  # dotted: table and name
    value: Any

    @property
    def table(self) -> str:
        return self.key.rpartition(".")[0]

    @property
    def name(self) -> str:
        return self.key.rpartition(".")[2]

    @property
    def line(self) -> str:
        """The line of the file that makes it; a comment where the key is left out."""
        return f"# without {self.name}" if self.value is None else f"{self.name} = {toml_value(self.value)}"


Changes = Mapping[str, Any]  # values by dotted key


def changed(source: Source, changes: Changes) -> Source:
    """The file as it would be read with these changes."""
    data, lines = dict(source.data), dict(source.lines)
    for key, value in changes.items():
        table, _, name = key.rpartition(".")
        if table:
            inner = data.get(table)
            into = data[table] = copy(inner) if isinstance(inner, dict) else {}
        else:
            into = data
        if value is None:
            into.pop(name, None)
            lines.pop(key, None)
        else:
            into[name] = value
            lines.setdefault(key, lines.get(table, 0))
    return replace(source, data={k: v for k, v in data.items() if v != {}}, lines=lines)


def raw_value(source: Source, key: str) -> Any:
    """What a file states for a key; None where it states nothing."""
    table, _, name = key.rpartition(".")
    held: Any = source.data.get(table) if table else source.data
    return held.get(name) if isinstance(held, dict) else None


def typed(mm: float, unit: Unit) -> Any:
    """A length as it is typed in a file of this unit: a number of mm, or inches to 1/64 as text."""
    if unit == "in":
        return typed_length(mm, "in")
    size = round(mm, 2)
    return int(size) if size == int(size) else size


def rounded(mm: float, unit: Unit) -> float:
    """A length to the nearest mm, or 1/16 in."""
    step = 1.0 if unit == "mm" else MM_PER_INCH / 16
    return round(mm / step) * step


def toml_value(value: Any, number: Callable[[Any], str] = str) -> str:
    """A value as a TOML file writes it, its numbers in this way."""
    if isinstance(value, list | tuple):
        return f"[{', '.join(toml_value(item, number) for item in value)}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{name} = {toml_value(item, number)}' for name, item in value.items())}}}"
    if isinstance(value, bool | str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return number(value)


def in_order(changes: Iterable[Change], tables: Iterable[str]) -> list[Change]:
    """Changes by table in the order of a file."""
    order = {name: place for place, name in enumerate(["", *tables])}
    return sorted(changes, key=lambda change: order.get(change.table, len(order)))
