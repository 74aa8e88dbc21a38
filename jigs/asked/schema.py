"""JSON Schemas of the two files, for editors that complete and check while one types."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, cast

from jigs.asked.key import FINISHED, FileKind, Form, Key, Value
from jigs.asked.keys import DIAMETERS, TABLES, keys_of, keys_of_form
from jigs.asked.lists import COLOUR, LONGEST_NAME
from jigs.asked.values import MOST_STAGES, NAME_PATTERN
from jigs.asked.vessel_job import SHAPES
from jigs.words.lengths import LENGTH_PATTERN, show_length
from jigs.words.trade import RATES, SOLD

_NUMBER = {"type": "number", "minimum": 0}
_WRITTEN = {"type": "string", "pattern": LENGTH_PATTERN}
_LENGTH = {"anyOf": [_NUMBER, _WRITTEN]}
_EITHER_WAY = {"anyOf": [{"type": "number"}, _WRITTEN]}
_EMPTY = {"maxProperties": 0}
_COLOUR = {"type": "string", "pattern": f"^{COLOUR}$"}
_NAME = {"type": "string", "minLength": 1, "maxLength": LONGEST_NAME}


def json_schema(kind: FileKind = "job") -> dict[str, Any]:
    """Return the schema (draft 7) of a job or workshop file.

    It cannot know the range of a length, whose unit may stand anywhere: the reader has the last word.
    """
    keys = keys_of(kind)
    top = _object({key.name: _property(key) for key in keys if not key.table})
    for name in TABLES:
        inside = [key for key in keys if key.table == name]
        if inside:
            top["properties"][name] = {"description": TABLES[name].help, **_table(inside)}
    if kind == "job":
        _add_ways(top["properties"])
        top["oneOf"] = [_form("torus"), {**_form("vessel"), "anyOf": _walls()}]
    return {"$schema": "http://json-schema.org/draft-07/schema#", "title": f"A {kind} file", **top}


def schema_files() -> dict[str, str]:
    """Return the schema files' text by file name."""
    kinds: tuple[FileKind, ...] = ("job", "workshop")
    return {f"{kind}.schema.json": json.dumps(json_schema(kind), indent=2) + "\n" for kind in kinds}


def _object(properties: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": False, "properties": properties}


def _table(keys: list[Key]) -> dict[str, Any]:
    schema = _object({key.name: _property(key) for key in keys})
    required = [key.name for key in keys if key.required]
    return {**schema, "required": required} if required else schema


def _add_ways(tables: dict[str, Any]) -> None:
    """Values that may be given in several ways: how many of them a table has."""
    tables["form"]["anyOf"] = _two_of_three()
    for name in ("profile", "inside", "knob"):
        tables[name]["oneOf"] = [{"required": [way]} for way in SHAPES]
    for name in ("inside", "knob"):
        tables[name]["oneOf"].append(_EMPTY)
    tables["wall"]["not"] = {"required": ["thickness", "by_height"]}


def _form(form: Form) -> dict[str, Any]:
    """A job of this form: its tables that have to be there, none of the other form's."""
    needed = {key.table for key in keys_of_form(form) if key.required}
    others = {name: False for name, table in TABLES.items() if table.form not in (None, form)}
    return {"required": sorted(needed | ({"profile"} if form == "vessel" else set())), "properties": others}


def _walls() -> list[dict[str, Any]]:
    """An inside of its own, or a wall."""
    either = [{"required": [way]} for way in ("thickness", "by_height")]
    own = {"wall": {"not": {"anyOf": either}}, "inside": {"not": _EMPTY}}
    return [{"required": ["inside"], "properties": own},
            {"required": ["wall"], "properties": {"wall": {"anyOf": either}, "inside": _EMPTY}}]  # fmt: skip


def _two_of_three() -> list[Mapping[str, Any]]:
    names = [path.rpartition(".")[2] for path in DIAMETERS]
    return [{"required": [name for name in names if name != without]} for without in names]


def _property(key: Key) -> dict[str, Any]:
    unset = f" (without it: {key.unset})" if key.unset else ""
    inches = "" if key.inch_default is None else f" (in a job in inches: {_inches(key, key.inch_default)})"
    schema = {"description": f"{key.help}{unset}{inches}", **_type(key)}
    return schema if key.default is None else {**schema, "default": _default(key, key.default)}


def _inches(key: Key, default: Value) -> str:
    if key.kind == "number":
        return f"{float(cast(float, default)) * SOLD[key.per]['in']:g}"
    sizes = default if isinstance(default, tuple) else (default,)
    return " × ".join(
        size if isinstance(size, str) else show_length(float(cast(float, size)), "in") for size in sizes
    )


def _default(key: Key, default: Value) -> object:
    if isinstance(default, tuple):
        if key.kind == "names":
            return [name for ring in cast("tuple[tuple[str, ...], ...]", default) for name in ring]
        return [show_length(cast(float, length), "mm") for length in default]
    return show_length(float(default), "mm") if key.kind == "length" else default


def _type(key: Key) -> dict[str, Any]:
    match key.kind:
        case "length":
            return _LENGTH
        case "number" | "price":
            return _number(key)
        case "numbers":
            return _or_several(_number(key))
        case "count":
            return _count(key)
        case "flag":
            return {"type": "boolean"}
        case "bed":
            return {"type": "array", "items": _LENGTH, "minItems": 2, "maxItems": 2}
        case "stages":
            items = {"anyOf": [{"const": FINISHED}, _LENGTH]}
            return {"type": "array", "items": items, "minItems": 1, "maxItems": MOST_STAGES}
        case "choice":
            return {"enum": [*key.choices, *(size[:-3] for size in key.choices if size.endswith(" in"))]}
        case "name":
            return {"type": "string", "pattern": NAME_PATTERN}
        case "colour":
            return _COLOUR
        case "text":
            return {"type": "string", "minLength": 1, "maxLength": int(key.most)}
        case "points":
            return _several(_point(key), least=2)
        case "heights":
            return _or_several(_LENGTH, {"enum": list(key.choices)})
        case "counts":
            return _or_several(_count(key))
        case "names":
            return _or_several(_or_several(_NAME))
        case "prices":
            return _several({**_list_of(_NAME, _number(key)), "minItems": 2, "maxItems": 2})
        case "plies":
            return _several(_ply())
        case "boards":
            return _several(_board())


def _number(key: Key) -> dict[str, Any]:
    each = SOLD[key.per].values() if key.per in RATES else (1,)  # the file may be in either unit
    return {"type": "number", "minimum": key.least * min(each), "maximum": key.most * max(each)}


def _count(key: Key) -> dict[str, Any]:
    schema = {"type": "integer", "minimum": int(key.least), "maximum": int(key.most)}
    return {**schema, "multipleOf": 2} if key.even else schema


def _list_of(*items: Mapping[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": list(items), "additionalItems": False}


def _several(item: Mapping[str, Any], least: int = 1) -> dict[str, Any]:
    return {"type": "array", "items": item, "minItems": least}


def _or_several(item: Mapping[str, Any], *others: Mapping[str, Any]) -> dict[str, Any]:
    return {"anyOf": [item, *others, _several(item)]}


def _point(key: Key) -> dict[str, Any]:
    """Height, size there and, where the key takes it, the radius of an arc, which may be hollow."""
    columns = (_LENGTH, _LENGTH, _EITHER_WAY)[: max(key.sizes)]
    return {
        "type": "array", "items": list(columns), "minItems": min(key.sizes), "maxItems": max(key.sizes)
    }  # fmt: skip


def _ply() -> dict[str, Any]:
    """A wood or a colour's name, a thickness and perhaps a colour."""
    return {**_list_of(_NAME, _LENGTH, _COLOUR), "minItems": 2, "maxItems": 3}


def _board() -> dict[str, Any]:
    sizes = {name: _LENGTH for name in ("thickness", "width", "length")}
    board = _object({"species": _NAME, **sizes, "count": {"type": "integer", "minimum": 1}})
    return {**board, "required": ["species", "thickness"]}
