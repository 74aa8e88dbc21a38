"""Plain numbers that look as if they were typed in the other unit: asked about, never changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from math import sqrt
from typing import Any

from geometry.records import replace
from jigs.asked.key import Key, Kind
from jigs.asked.toml_source import Source
from jigs.words.findings import Finding
from jigs.words.lengths import MM_PER_INCH, Unit, show_length

_KINDS: tuple[Kind, ...] = ("length", "bed", "stages", "points", "heights", "boards", "plies")
# A size is sensible within this many times its key's usual one, either way. A number in the other unit is 25.4 times
# off, so that no number is sensible in both.
_SPAN = sqrt(MM_PER_INCH)


def unit_questions(
    source: Source, unit: Unit, raw_values: Mapping[str, Any], keys: Mapping[str, Key]
) -> Iterator[Finding]:
    """A warning for each key that holds a plain number which is sensible in the other unit only."""
    for path, raw in raw_values.items():
        found = number_in_other_unit(keys[path], raw, unit)
        if found is not None:
            yield replace(found, file=source.file, line=source.lines.get(path, 0))


def number_in_other_unit(key: Key, raw: Any, unit: Unit) -> Finding | None:
    """A warning where a key's value holds a plain number that is sensible in the other unit only."""
    wrong = next((number for number, usual in _numbers(key, raw) if in_other_unit(number, usual, unit)), None)
    if wrong is None:
        return None
    other = "in" if unit == "mm" else "mm"
    message = f"{wrong:g} is {show_length(_mm(wrong, unit), unit)}, which is far from usual here"
    remedy = f'did you mean "{wrong:g} {other}"? Write the unit, and this is not asked again'
    return Finding("other-unit", message, remedy, key.path, severity="warning")


def in_other_unit(number: float, usual: float, unit: Unit) -> bool:
    """Whether a plain number is far from the usual size in this unit, mm, and near to it in the other."""
    here, there = _mm(number, unit), _mm(number, "in" if unit == "mm" else "mm")
    return not usual / _SPAN <= here <= usual * _SPAN and usual / _SPAN <= there <= usual * _SPAN


def in_the_other(key: Key, raw: Any, unit: Unit) -> Any:
    """A value with all its plain numbers stated in the other unit."""
    other = "in" if unit == "mm" else "mm"
    return _each(raw, lambda number: f"{number:g} {other}") if key.kind in _KINDS else raw


def _each(raw: Any, change: Callable[[float], Any]) -> Any:
    if isinstance(raw, list):
        return [_each(item, change) for item in raw]
    if isinstance(raw, dict):
        return {name: value if name == "count" else _each(value, change) for name, value in raw.items()}
    return change(raw) if isinstance(raw, int | float) and not isinstance(raw, bool) else raw


def _mm(number: float, unit: Unit) -> float:
    return number * (MM_PER_INCH if unit == "in" else 1.0)


def _numbers(key: Key, raw: Any) -> Iterator[tuple[float, float]]:
    """The plain numbers of a value that are lengths above 0, each with its usual size in mm."""
    usual: Any = key.default if key.example is None else key.example
    if usual is None:
        return
    for number, size in _lengths(key, raw, usual):
        if isinstance(number, int | float) and not isinstance(number, bool) and number > 0 and size > 0:
            yield float(number), size


def _lengths(key: Key, raw: Any, usual: Any) -> Iterator[tuple[Any, float]]:
    """The items of a value that are lengths, each with its usual size."""
    match key.kind:
        case "length":
            yield raw, usual
        case "heights" if isinstance(raw, list) and all(isinstance(item, int | float) for item in raw):
            yield max(raw, default=0), usual  # a ring may be a thin strip: they share a unit
        case "bed" | "stages" | "heights":
            largest = max(usual) if isinstance(usual, tuple) else usual
            yield from ((item, largest) for item in (raw if isinstance(raw, list) else [raw]))
        case "points":
            own, known = ([item for row in rows for item in row[:2]] for rows in (raw, usual))
            if all(isinstance(item, int | float) for item in own):
                yield (
                    max(own),
                    max(known),
                )  # a lid may be low and a box narrow: height and diameter share a unit
        case "boards":
            sizes = {
                name: size
                for name, size in vars(usual[0]).items()
                if name in ("thickness", "width", "length")
            }
            yield from (
                (entry[name], size) for entry in raw for name, size in sizes.items() if name in entry and size
            )
        case "plies":
            yield from ((entry[1], usual[0].thickness) for entry in raw)
