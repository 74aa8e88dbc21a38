"""Changes of keys as the page sends them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from math import isfinite
from typing import Any

from jigs.asked.change import Change, changed, raw_value, typed
from jigs.asked.edited import BadEdit
from jigs.asked.key import Key, Kind
from jigs.asked.keys import KEYS
from jigs.asked.toml_source import Source
from jigs.words.lengths import Unit

BY_KEY: Mapping[str, Key] = {key.path: key for key in KEYS}
MOST_CHANGES = 40
MOST_LISTED = 200  # sizes in one list
_WORDS: tuple[Kind, ...] = ("text", "name", "choice", "colour")


def read_changes(raw: object, source: Source, unit: Unit) -> list[Change]:
    """Changes from the page: each `key` with `text` as typed, `mm` or a `list` of mm from a handle, or `value` as
    TOML reads it.

    `mm` may have a `place` in the list that the file states: [5, 1] is the second number of the sixth entry.
    Raises BadEdit.
    """
    if not isinstance(raw, list) or not 0 < len(raw) <= MOST_CHANGES:
        raise BadEdit("changes have to be a list")
    found: list[Change] = []
    for entry in raw:
        change = _read_change(entry, source, unit)
        found.append(change)
        source = changed(source, {change.key: change.value})  # two places of one list are two changes
    return found


def _read_change(entry: object, source: Source, unit: Unit) -> Change:
    if not isinstance(entry, dict) or not isinstance(entry.get("key"), str):
        raise BadEdit("a change has a key and what it becomes")
    key = BY_KEY.get(entry["key"])
    if key is None:
        raise BadEdit("no such key")
    how = set(entry) - {"key"}
    if how == {"text"} and isinstance(text := entry["text"], str):
        return Change(key.path, from_text(key, text))
    if how <= {"mm", "place"} and "mm" in how:
        size = typed(_size(entry["mm"]), unit)
        place = entry.get("place") or []
        return Change(key.path, _placed(raw_value(source, key.path), place, size) if place else size)
    if how == {"list"} and isinstance(sizes := entry["list"], list) and len(sizes) <= MOST_LISTED:
        return Change(key.path, [typed(_size(one), unit) for one in sizes])
    if how == {"value"} and isinstance(entry["value"], str | int | float | list | None):
        return Change(key.path, entry["value"])
    raise BadEdit("a change has a key and what it becomes")


def _size(mm: object) -> float:
    if isinstance(mm, bool) or not isinstance(mm, int | float) or not isfinite(mm):
        raise BadEdit("a size is a number of mm")
    return float(mm)


def _placed(held: object, place: object, size: Any) -> Any:
    """A list with one of its numbers changed."""
    if place == []:
        return size
    if not isinstance(held, list) or not isinstance(place, list) or not isinstance(place[0], int):
        raise BadEdit("no such place in the list")
    if not 0 <= place[0] < len(held):
        raise BadEdit("no such place in the list")
    fresh = list(held)
    fresh[place[0]] = _placed(held[place[0]], place[1:], size)
    return fresh


def from_text(key: Key, text: str) -> Any:
    """A value as it would stand in the file; None for nothing. What is none is left to the reader, who says why."""
    text = text.strip()
    if not text:
        return None
    if key.kind in _WORDS:
        return text
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except (ValueError, RecursionError):
        return text
