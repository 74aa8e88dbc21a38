"""JSON Schemas of the two files, for editors that complete and check while one types."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from jigs.keys import DIAMETERS, FINISHED, KEYS, TABLES, FileKind, Key, Value, keys_of
from jigs.lengths import LENGTH_PATTERN, show_length
from jigs.values import NAME_PATTERN

_NUMBER = {"type": "number", "minimum": 0}
_LENGTH = {"anyOf": [_NUMBER, {"type": "string", "pattern": LENGTH_PATTERN}]}


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
        top["required"] = sorted({key.table for key in KEYS if key.required})
        top["properties"]["form"]["anyOf"] = _two_of_three()
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


def _two_of_three() -> list[Mapping[str, Any]]:
    names = [path.rpartition(".")[2] for path in DIAMETERS]
    return [{"required": [name for name in names if name != without]} for without in names]


def _property(key: Key) -> dict[str, Any]:
    unset = f" (without it: {key.unset})" if key.unset else ""
    schema = {"description": f"{key.help}{unset}", **_type(key)}
    return schema if key.default is None else {**schema, "default": _default(key, key.default)}


def _default(key: Key, default: Value) -> object:
    if isinstance(default, tuple):
        return [show_length(length, "mm") for length in default]
    return show_length(float(default), "mm") if key.kind == "length" else default


def _type(key: Key) -> dict[str, Any]:
    match key.kind:
        case "length":
            return _LENGTH
        case "number":
            return {"type": "number", "minimum": key.least, "maximum": key.most}
        case "count":
            return _count(key)
        case "flag":
            return {"type": "boolean"}
        case "bed":
            return {"type": "array", "items": _LENGTH, "minItems": 2, "maxItems": 2}
        case "stages":
            return {"type": "array", "items": {"anyOf": [{"const": FINISHED}, _LENGTH]}, "minItems": 1}
        case "choice":
            return {"enum": list(key.choices)}
        case "name":
            return {"type": "string", "pattern": NAME_PATTERN}
        case "text":
            return {"type": "string", "minLength": 1, "maxLength": int(key.most)}


def _count(key: Key) -> dict[str, Any]:
    schema = {"type": "integer", "minimum": int(key.least), "maximum": int(key.most)}
    return {**schema, "multipleOf": 2} if key.even else schema
