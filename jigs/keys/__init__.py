"""Every key of a job or workshop file, once: the reader, the schema and the starter all follow this table."""

from __future__ import annotations

from collections.abc import Mapping

from jigs.keys.key import FEWEST, FINISHED, LEAST_WOOD, FileKind, Form, Key, Kind, Table, Value
from jigs.keys.prices import PRICE_KEYS, PRICE_TABLES
from jigs.keys.torus import DIAMETERS, TORUS_KEYS, TORUS_TABLES
from jigs.keys.usual import default_allowance, default_stages
from jigs.keys.vessel import SHAPES, VESSEL_KEYS, VESSEL_TABLES
from jigs.keys.wood import WOOD_KEYS, WOOD_TABLES
from jigs.keys.workshop import GAUGE_KEYS, HEAD_KEYS, MAKINGS, SHOP_KEYS, SHOP_TABLES

__all__ = [
    "DIAMETERS",
    "FEWEST",
    "FINISHED",
    "KEYS",
    "LEAST_WOOD",
    "MAKINGS",
    "SHAPES",
    "TABLES",
    "FileKind",
    "Form",
    "Key",
    "Kind",
    "Table",
    "Value",
    "default_allowance",
    "default_stages",
    "keys_of",
    "keys_of_form",
]

TABLES: Mapping[str, Table] = {**TORUS_TABLES, **VESSEL_TABLES, **WOOD_TABLES, **SHOP_TABLES, **PRICE_TABLES}
KEYS: tuple[Key, ...] = (
    *HEAD_KEYS,
    *TORUS_KEYS,
    *VESSEL_KEYS,
    *GAUGE_KEYS,
    *WOOD_KEYS,
    *SHOP_KEYS,
    *PRICE_KEYS,
)


def keys_of(kind: FileKind) -> tuple[Key, ...]:
    """The keys that may stand in a job file, or in a workshop file."""
    if kind == "job":
        return KEYS
    return tuple(key for key in KEYS if key.path == "unit" or (key.table and TABLES[key.table].shared))


def keys_of_form(form: Form) -> tuple[Key, ...]:
    """The keys that a job of this form may state."""
    return tuple(key for key in KEYS if not key.table or TABLES[key.table].form in (None, form))
