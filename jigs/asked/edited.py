"""A job file's text with keys changed, its comments and its order kept."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Array

from jigs.asked.change import Change


class BadEdit(ValueError):
    """A change that is none: an unknown key, or a value that cannot be read."""


def edited(text: str, changes: Iterable[Change]) -> str:
    """The text with these changes. Raises BadEdit where it cannot be read as it is."""
    try:
        document = tomlkit.parse(text)
    except (TOMLKitError, RecursionError) as error:
        raise BadEdit("the file's text has to be put right first") from error
    for change in changes:
        _apply(document, change)
    return document.as_string()


def _apply(document: tomlkit.TOMLDocument, change: Change) -> None:
    table: Any = document
    if change.table:
        if change.table not in document:
            if change.value is None:
                return
            document.append(change.table, tomlkit.table())
        table = document[change.table]
        if isinstance(table, AoT) or not hasattr(table, "keys"):
            raise BadEdit(f"{change.table} is no section")
    if change.value is None:
        table.pop(change.name, None)
    elif isinstance(change.value, list) and _same_length(table.get(change.name), change.value):
        _fill(table[change.name], change.value)
    elif change.name not in table or table[change.name] != change.value:
        table[change.name] = change.value


def _same_length(held: object, value: list[Any]) -> bool:
    return isinstance(held, Array) and len(held) == len(value)


def _fill(held: Any, value: list[Any]) -> None:
    """Entry by entry, so that comments between them stay."""
    for place, entry in enumerate(value):
        if isinstance(entry, list) and _same_length(held[place], entry):
            _fill(held[place], entry)
        elif held[place] != entry:
            held[place] = entry
