"""Values that are lists: points of a profile, ring by ring, boards."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import floor, log10
from typing import Any, cast

from jigs.asked.job_wood import Board, Ply
from jigs.asked.key import RANGE, Key, Value, Wrong
from jigs.words import lengths
from jigs.words.findings import near_names
from jigs.words.lengths import (
    MM_PER_INCH,
    BadLength,
    Bound,
    Unit,
    example_length,
    parse_length,
    show_length,
    shown,
    within,
)

LEAST_PLY = 0.1  # mm
COLOUR = r"#[0-9a-fA-F]{6}"
LEAST_BOARD = 1.0  # mm, of a board's thickness, width or length
MOST_BOARDS = 10000  # of one size
LONGEST_NAME = 40
_BOARD = ("species", "thickness", "width", "length", "count")


def read_list(key: Key, raw: object, unit: Unit) -> Value:
    """Return a value of one of the list kinds: lengths in mm. Raises Wrong or BadLength."""
    match key.kind:
        case "points":
            return _points(key, raw, unit)
        case "heights":
            return _heights(key, raw, unit)
        case "counts":
            return _counts(key, raw)
        case "numbers":
            return _numbers(key, raw)
        case "names":
            return _names(key, raw)
        case "plies":
            return _plies(key, raw, unit)
        case _:
            return _boards(key, raw, unit)


def ranged(key: Key, raw: object, unit: Unit, least: float | None = None) -> float:
    """Return a length in mm from the key's least, or this one, to its most. Raises Wrong or BadLength."""
    mm, low_end = parse_length(raw, unit), key.least if least is None else least
    if not low_end <= mm <= key.most:
        low, high = _limit(low_end, unit, "least"), _limit(key.most, unit, "most")
        remedy = f"Give {low} to {high}{_or_other(raw, unit, low_end, key.most)}"
        raise Wrong(RANGE, f"{show_length(mm, unit)} is out of range", remedy)
    return mm


def _limit(mm: float, unit: Unit, bound: Bound) -> str:
    """A limit typed as shown is accepted: in inches two digits, or whole ones."""
    if unit == "mm":
        return show_length(mm, unit)
    inches = mm / MM_PER_INCH
    step = min(1.0, 10.0 ** (floor(log10(inches)) - 1)) if inches else 1.0
    return f"{within(inches, step, bound):g} in"


def _or_other(raw: object, unit: Unit, least: float, most: float) -> str:
    """Asks of a plain number that is out of range, and would do in the other unit, whether it is meant so."""
    if not isinstance(raw, int | float) or not least <= raw * (1.0 if unit == "in" else MM_PER_INCH) <= most:
        return ""
    other = "mm" if unit == "in" else "in"
    return f', or did you mean "{raw:g} {other}"?'


def _list(raw: object, remedy: str) -> Sequence[object]:
    if not isinstance(raw, list):
        raise Wrong("wrong-type", f"{shown(raw)} is not a list", remedy)
    if not raw:
        raise Wrong("wrong-type", "the list is empty", remedy)
    return raw


def _points(key: Key, raw: object, unit: Unit) -> Value:
    """Rows of a height, a size there and, where the key takes three numbers, the radius of an arc."""
    remedy = f"Give a list such as {_example(key, unit)}: {key.help}"
    rows = []
    for entry in _list(raw, remedy):
        if not isinstance(entry, list) or len(entry) not in key.sizes:
            raise Wrong("wrong-type", f"{_written(entry)} does not belong in such a list", remedy)
        leasts = (0.0, 0.0, key.least)
        rows.append(tuple(ranged(key, item, unit, low) for item, low in zip(entry, leasts, strict=False)))
    if len(rows) < 2:
        raise Wrong("too-few", "one point makes no line", remedy)
    for below, row in pairwise(rows):
        _check_order(key, below, row, unit)
    return tuple(rows)


def _check_order(key: Key, below: tuple[float, ...], row: tuple[float, ...], unit: Unit) -> None:
    """Heights rise; an edge may also run level."""
    here, there = (show_length(height, unit) for height in (row[0], below[0]))
    if row[0] < below[0]:
        raise Wrong("bad-order", f"height {here} stands after {there}", "Give them from the foot up")
    if row[0] == below[0] and len(key.sizes) == 1:
        raise Wrong("bad-order", f"height {here} stands twice", "Leave one of the two out")


def _example(key: Key, unit: Unit) -> str:
    """A key's example of points, as a file in this unit would write it."""
    rows = cast("tuple[tuple[float, ...], ...]", key.example)
    return "[" + ", ".join(f"[{', '.join(example_length(mm, unit) for mm in row)}]" for row in rows) + "]"


def _written(entry: object) -> str:
    """A short list as the file writes it, anything else as messages name it."""
    if isinstance(entry, list) and len(entry) <= 4 and not any(isinstance(i, list | dict) for i in entry):
        return f"[{', '.join(shown(item) for item in entry)}]"
    return shown(entry)


def _heights(key: Key, raw: object, unit: Unit) -> Value:
    if isinstance(raw, str) and raw in key.choices:
        return raw
    try:
        return tuple(ranged(key, item, unit) for item in _items(raw))
    except BadLength as bad:
        choices = " or ".join(f'"{choice}"' for choice in key.choices)
        raise BadLength(str(bad), f"Give a length, a list of lengths from the foot up, or {choices}") from bad


def _items(raw: object) -> Sequence[object]:
    """A list's own items, or the one value; an empty list is a wrong value."""
    return raw if isinstance(raw, list) and raw else [raw]


def _counts(key: Key, raw: object) -> Value:
    remedy = f"Give a whole number from {key.least:g} to {key.most:g}, or a list of them from the foot up"
    if raw == [] and not key.required:
        raise Wrong("wrong-type", "the list is empty", f"{remedy}; or leave it out")
    items = cast("Sequence[int]", _items(raw))
    for item in items:
        if isinstance(item, bool) or not isinstance(item, int):
            raise Wrong("wrong-type", f"{shown(item)} is not a whole number", remedy)
        if not key.least <= item <= key.most:
            raise Wrong(RANGE, f"{shown(item)} is out of range", remedy)
    return tuple(items)


def _numbers(key: Key, raw: object) -> Value:
    remedy = (
        f"Give a number, at most {key.most:g} either way, or a list of them, such as {key.name} = [0.5, 1]"
    )
    return tuple(one_number(key, item, remedy) for item in _items(raw))


def one_number(key: Key, raw: object, remedy: str) -> float:
    """A number within the key's limits. Raises Wrong, with the remedy."""
    try:
        value = lengths.number(raw)
    except BadLength as bad:
        raise Wrong("wrong-type", f"{shown(raw)} is not a number for this", remedy) from bad
    if not key.least <= value <= key.most:
        raise Wrong(RANGE, f"{value:g} is out of range", remedy)
    return value


def _names(key: Key, raw: object) -> Value:
    """By ring, and round its segments."""
    remedy = (
        'Give a name in quotes, a list by ring, or for a ring a list: "ash" or ["ash", ["ash", "walnut"]]'
    )
    return tuple(tuple(_one(key, name, remedy) for name in _items(ring)) for ring in _items(raw))


def _one(key: Key, raw: object, remedy: str) -> str:
    if not isinstance(raw, str) or not raw.strip() or not raw.isprintable() or len(raw) > LONGEST_NAME:
        raise Wrong("wrong-type", f"{shown(raw)} is not a name", remedy)
    if set(raw) & set(',;[]"'):
        raise Wrong("wrong-type", f"{shown(raw)} is not one name", remedy)
    return raw.strip().lower()


def _boards(key: Key, raw: object, unit: Unit) -> Value:
    """Boards; what is wrong with one of them names it by its number and species."""
    thickness, width, length = (example_length(mm, unit) for mm in (22.0, 150.0, 1200.0))
    sizes = f"thickness = {thickness}, width = {width}, length = {length}"
    remedy = f'Give a list such as [{{species = "ash", {sizes}, count = 2}}]'
    boards = []
    for number, entry in enumerate(_list(raw, remedy), 1):
        which = f"{key.name.removesuffix('s')} {number}{_of_species(entry)}"
        try:
            boards.append(_board(key, entry, unit, remedy))
        except BadLength as bad:
            raise BadLength(f"{which}: {bad}", bad.remedy) from bad
        except Wrong as wrong:
            raise Wrong(wrong.code, f"{which}: {wrong.message}", wrong.remedy) from wrong
    return tuple(boards)


def _of_species(entry: object) -> str:
    named = isinstance(entry, Mapping) and isinstance(entry.get("species"), str)
    return f" ({shown(cast(Any, entry)['species'])})" if named else ""


def _board(key: Key, entry: object, unit: Unit, remedy: str) -> Board:
    if not isinstance(entry, Mapping):
        raise Wrong("wrong-type", f"{shown(entry)} is not a board", remedy)
    _check_names(entry, remedy)
    count = entry.get("count", 1)
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= MOST_BOARDS:
        raise Wrong("wrong-type", f"{shown(count)} is not a count from 1 to {MOST_BOARDS}", remedy)
    thickness, width, length = (
        ranged(key, entry[name], unit, LEAST_BOARD) if name in entry else None for name in _BOARD[1:4]
    )
    return Board(_one(key, entry["species"], remedy), cast(float, thickness), width, length, count)


def _check_names(entry: Mapping[str, object], remedy: str) -> None:
    """A board has no other keys than its own, and the two that it needs."""
    for name in entry:
        if name not in _BOARD:
            near = near_names(name.lower(), _BOARD)
            known = f"Did you mean {near[0]}?" if near else f"Leave it out; known here: {', '.join(_BOARD)}"
            raise Wrong("unknown-key", f"{shown(name)} is not a known key", known)
    for name in _BOARD[:2]:
        if name not in entry:
            raise Wrong("wrong-type", f"its {name} is missing", remedy)


def _plies(key: Key, raw: object, unit: Unit) -> Value:
    thin = '"0.6 mm"' if unit == "mm" else example_length(0.6, unit)
    remedy = f'Give a list such as [["maple", {example_length(3.0, unit)}], ["black", {thin}, "#202020"]]'
    return tuple(_ply(key, entry, unit, remedy) for entry in _list(raw, remedy))


def _ply(key: Key, entry: object, unit: Unit, remedy: str) -> Ply:
    if not isinstance(entry, list) or len(entry) not in (2, 3):
        raise Wrong("wrong-type", f"{_written(entry)} is not a ply", remedy)
    colour = entry[2] if len(entry) == 3 else None
    if colour is not None and not (isinstance(colour, str) and re.fullmatch(COLOUR, colour)):
        raise Wrong("bad-colour", f"{shown(colour)} is not a colour", remedy)
    return Ply(_one(key, entry[0], remedy), ranged(key, entry[1], unit, LEAST_PLY), colour)


def show_list(key: Key, value: Value, unit: Unit) -> str:
    """A value of one of the list kinds, or a list of lengths, as a person reads it."""
    if not isinstance(value, tuple):
        return str(value)
    between = "; " if key.kind in ("points", "names", "boards", "plies") else ", "
    return between.join(_show_item(key, item, unit) for item in value)


def _show_item(key: Key, item: Any, unit: Unit) -> str:
    match key.kind:
        case "points":
            height, *sizes = (show_length(size, unit) for size in item)
            return f"{' '.join(sizes)} at {height}"
        case "names":
            return ", ".join(item)
        case "counts":
            return str(item)
        case "numbers":
            return f"{item:g}"
        case "plies":
            return f"{item.name} {show_length(item.thickness, unit)}"
        case "boards":
            known = (size for size in (item.thickness, item.width, item.length) if size is not None)
            return f"{item.count} of {item.species}, {' × '.join(show_length(size, unit) for size in known)}"
        case _:
            return show_length(item, unit)
