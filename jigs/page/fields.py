"""The keys of a job as fields to fill in."""

from __future__ import annotations

import json
from collections.abc import Mapping

from jigs.asked.change import raw_value, toml_value
from jigs.asked.key import Form, Key
from jigs.asked.keys import keys_of_form
from jigs.asked.starter import told_in
from jigs.asked.toml_source import Source
from jigs.page.contract_state import Field, Group
from jigs.words.lengths import Unit, typed_length
from jigs.words.trade import SOLD

# By what a turner does with it: give the work its shape, choose wood, say what the shop has, have jigs made.
_GROUPS: Mapping[str, Group] = {
    **dict.fromkeys(("", "form", "profile", "inside", "wall", "foot", "rings", "staves", "floating"), "shape"),
    **dict.fromkeys(("stock", "spares", "glue", "layup", "prices"), "wood"),
    **dict.fromkeys(("gauges", "made", "printer", "cutter", "paper", "reversing", "holding"), "jigs"),
}  # fmt: skip
_WORDS = ("text", "name", "choice", "colour")


def fields_of(source: Source, form: Form | None, unit: Unit) -> list[Field]:
    """Every key that a job of this form may state, in the order of a file."""
    return [] if form is None else [_field(key, source, unit) for key in keys_of_form(form)]


def _field(key: Key, source: Source, unit: Unit) -> Field:
    raw, each = raw_value(source, key.path), SOLD[key.per][unit] if key.kind == "number" else 1.0
    return Field(
        key=key.path,
        label=label_of(key),
        kind=key.kind,
        help=told_in(key.help, unit),
        group=_GROUPS.get(key.table, "shop"),
        text="" if raw is None else _shown(key, raw),
        without=_without(key, unit),
        least=key.least * each,
        most=key.most * each,
        even=key.even,
        choices=list(key.choices),
        line=source.lines.get(key.path, 0),
    )


def label_of(key: Key) -> str:
    """The key's name as words."""
    words = key.name.replace("_", " ")
    return words[:1].upper() + words[1:]


def _shown(key: Key, raw: object) -> str:
    """As it would be typed into the field."""
    return raw if isinstance(raw, str) and key.kind != "names" else toml_value(raw)


def _without(key: Key, unit: Unit) -> str:
    value = key.default_in(unit)
    if value is None:
        return told_in(key.unset, unit)
    if key.kind == "length" and isinstance(value, int | float):
        return typed_length(float(value), unit)
    if key.kind == "number" and isinstance(value, float):
        return f"{value * SOLD[key.per][unit]:g}"
    if isinstance(value, str):
        return value
    return json.dumps(value, ensure_ascii=False)
