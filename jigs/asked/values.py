"""One value of a file, read as its key says: mm from any length, or a plain statement of what is wrong."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise
from unicodedata import normalize

from geometry.records import replace
from jigs.asked.key import FINISHED, RANGE, Key, Kind, Value, Wrong
from jigs.asked.lists import COLOUR, LONGEST_NAME, one_number, ranged, read_list
from jigs.words.lengths import BadLength, Unit, example_length, show_length, shown
from jigs.words.trade import SOLD

_DEVICES = (
    "CON",
    "PRN",
    "AUX",
    "NUL",
    "COM",
    "LPT",
)  # no names for folders on Windows; the last two with a figure
_EITHER_CASE = ["".join(f"[{letter}{letter.lower()}]" for letter in name) for name in _DEVICES]
_RESERVED = "|".join((*_EITHER_CASE[:4], *(f"{name}[0-9]" for name in _EITHER_CASE[4:])))
NAME_PATTERN = rf"^(?!(?:{_RESERVED})$)[A-Za-z0-9][A-Za-z0-9_-]{{0,59}}$"


def name_like(text: str) -> str:
    """The nearest name to a text that can name a folder."""
    if re.fullmatch(NAME_PATTERN, text):
        return text
    ascii_only = normalize("NFKD", text).encode("ascii", "ignore").decode()
    near = re.sub(r"[^A-Za-z0-9_]+", "-", ascii_only).strip("-_")[:60]
    return near if re.fullmatch(NAME_PATTERN, near) else "my-job"


MOST_STAGES = 10


def read_value(key: Key, raw: object, unit: Unit) -> Value:
    """Return `raw`, as tomllib gave it, as `key` takes it: lengths in mm. Raises Wrong."""
    try:
        reader = _READERS.get(key.kind)
        return reader(key, raw, unit) if reader else read_list(key, raw, unit)
    except BadLength as bad:
        raise Wrong("bad-length", str(bad), bad.remedy) from bad


def _number(key: Key, raw: object, unit: Unit) -> float:
    return one_number(key, raw, f"Give a number from {key.least:g} to {key.most:g}")


def _rate(key: Key, raw: object, unit: Unit) -> float:
    """As this unit has it, brought to that of a square metre; most numbers have no unit."""
    each = SOLD[key.per][unit]
    return _number(replace(key, least=key.least * each, most=key.most * each), raw, unit) / each


def _price(key: Key, raw: object, unit: Unit) -> float:
    """As it is sold in this unit, brought to that of one mm3, gram or piece."""
    return _number(key, raw, unit) / SOLD[key.per][unit]


def _prices(key: Key, raw: object, unit: Unit) -> tuple[tuple[str, float], ...]:
    remedy = 'Give a list of names and prices, such as [["maple", 3200], ["walnut", 5400]]'
    if not isinstance(raw, list) or not raw:
        raise Wrong("wrong-type", f"{shown(raw)} is not a list of names and prices", remedy)
    if any(not isinstance(entry, list) or len(entry) != 2 for entry in raw):
        raise Wrong("wrong-type", "an entry is not a name and a price", remedy)
    found = [(_wood(name, remedy), _price(key, price, unit)) for name, price in raw]
    if len({name.lower() for name, _ in found}) < len(found):
        raise Wrong("listed-twice", "a wood stands there twice", "Give each wood one price")
    return tuple(found)


def _wood(raw: object, remedy: str) -> str:
    name = _string(raw, remedy)
    if not name.strip() or not name.isprintable() or len(name) > LONGEST_NAME:
        raise Wrong("bad-text", f"{shown(raw)} is not the name of a wood", remedy)
    return name


def _count(key: Key, raw: object, unit: Unit) -> int:
    sort = "an even" if key.even else "a whole"
    quoted = ", without quotes" if isinstance(raw, str) and raw.strip().isdigit() else ""
    remedy = f"Give {sort} number from {key.least:g} to {key.most:g}{quoted}"
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise Wrong("wrong-type", f"{shown(raw)} is not a whole number", remedy)
    if not key.least <= raw <= key.most:
        raise Wrong(RANGE, f"{shown(raw)} is out of range", remedy)
    if key.even and raw % 2:
        raise Wrong("odd-count", f"{raw} is odd", f"Give {raw - 1} or {raw + 1}")
    return raw


def _flag(key: Key, raw: object, unit: Unit) -> bool:
    if not isinstance(raw, bool):
        raise Wrong(
            "wrong-type", f"{shown(raw)} is neither true nor false", "Give true or false, without quotes"
        )
    return raw


def _text(key: Key, raw: object, unit: Unit) -> str:
    text = _string(raw, "Give text in quotes")
    if not text.strip() or not text.isprintable() or len(text) > key.most:
        remedy = f"Give 1 to {key.most:g} printable characters on one line"
        raise Wrong("bad-text", f"{shown(raw)} cannot be used here", remedy)
    return text


def _name(key: Key, raw: object, unit: Unit) -> str:
    text = _string(raw, "Give a name in quotes")
    if not re.fullmatch(NAME_PATTERN, text):
        remedy = "Use up to 60 letters A to Z, digits, - and _, the first a letter or a digit, and no name of a device"
        raise Wrong("bad-name", f"{shown(raw)} cannot name a folder", remedy)
    return text


def _choice(key: Key, raw: object, unit: Unit) -> str:
    remedy = "Give " + " or ".join(f'"{choice}"' for choice in key.choices)
    text = _string(raw, remedy)
    for choice in (text, f"{text} {unit}"):  # a size without a unit is in the file's
        if choice in key.choices:
            return choice
    raise Wrong("not-a-choice", f"{shown(raw)} is not one of the choices", remedy)


def _colour(key: Key, raw: object, unit: Unit) -> str:
    remedy = 'Give red, green and blue in hexadecimal, such as "#c06000"'
    text = _string(raw, remedy)
    if not re.fullmatch(COLOUR, text):
        raise Wrong("bad-colour", f"{shown(raw)} is not a colour", remedy)
    return text.lower()


def _bed(key: Key, raw: object, unit: Unit) -> tuple[float, ...]:
    if not isinstance(raw, list) or len(raw) != 2:
        side = example_length(220.0, unit)
        raise Wrong(
            "wrong-type", f"{shown(raw)} is not two lengths", f"Give two lengths, such as [{side}, {side}]"
        )
    return tuple(ranged(key, item, unit) for item in raw)


def _stages(key: Key, raw: object, unit: Unit) -> tuple[float, ...]:
    """Offsets without the finished one, which stands for the sanding allowance."""
    if not isinstance(raw, list) or not raw or raw[-1] != FINISHED:
        message = f'{shown(raw)} is not a list that ends with "{FINISHED}"'
        rough, near = (example_length(mm, unit) for mm in (3.0, 1.0))
        raise Wrong("wrong-type", message, f'Give lengths, falling, such as [{rough}, {near}, "{FINISHED}"]')
    if len(raw) > MOST_STAGES:
        remedy = f"Give at most {MOST_STAGES}; two or three are usual"
        raise Wrong("too-many", f"{len(raw)} stages are more than gauges are made for", remedy)
    stages = [ranged(key, item, unit) for item in raw[:-1]]
    if any(later >= sooner for sooner, later in pairwise(stages)):
        raise Wrong("bad-order", "the stages do not fall", f"Give {_stage_list(stages, unit)}")
    return tuple(stages)


def _stage_list(stages: Sequence[float], unit: Unit) -> str:
    falling = [show_length(stage, unit) for stage in sorted(set(stages), reverse=True)]
    return "[" + ", ".join(f'"{item}"' for item in [*falling, FINISHED]) + "]"


def _string(raw: object, remedy: str) -> str:
    if not isinstance(raw, str):
        raise Wrong("wrong-type", f"{shown(raw)} is not text", remedy)
    return raw


_READERS: dict[Kind, Callable[[Key, object, Unit], Value]] = {
    "length": ranged,
    "number": _rate,
    "count": _count,
    "flag": _flag,
    "text": _text,
    "name": _name,
    "choice": _choice,
    "colour": _colour,
    "bed": _bed,
    "stages": _stages,
    "price": _price,
    "prices": _prices,
}
