from __future__ import annotations

import json
import tomllib
from pathlib import Path

import jsonschema
import pytest

from jigs.findings import Refused
from jigs.jobfile import parse
from jigs.keys import KEYS, keys_of
from jigs.schema import json_schema, schema_files

CONFIGS = Path(__file__).parents[2] / "configs"
EXAMPLES = sorted(CONFIGS.glob("*.toml"))
SOUND = {
    "form": {"outer_diameter": 250, "tube_diameter": 54, "wedge_rings": 16, "segments": 8, "core_opening": 20}
}


def validator(kind="job"):
    return jsonschema.Draft7Validator(json_schema(kind))


def test_the_schemas_on_disk_are_those_the_keys_make():
    on_disk = {path.name: path.read_text("utf-8") for path in CONFIGS.glob("*.schema.json")}
    assert on_disk == schema_files()


@pytest.mark.parametrize("kind", ["job", "workshop"])
def test_the_schema_is_itself_valid_and_has_every_key(kind):
    schema = json_schema(kind)
    jsonschema.Draft7Validator.check_schema(schema)
    for key in keys_of(kind):
        place = schema["properties"][key.table] if key.table else schema
        assert key.help in place["properties"][key.name]["description"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_example_validates_against_the_schema_it_names(path):
    text = path.read_text("utf-8")
    kind = "workshop" if path.stem == "shed" else "job"
    assert text.startswith(f"#:schema ./{kind}.schema.json\n")
    validator(kind).validate(tomllib.loads(text))


def changed(path, value):
    table, _, name = path.rpartition(".")
    return {**SOUND, table: {**SOUND.get(table, {}), name: value}} if table else {**SOUND, name: value}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("form.wedge_rings", 15),
        ("form.segments", 4),
        ("form.outer_diameter", "12 ells"),
        ("form.lining", True),
        ("form.friction", 9),
        ("gauges.stages", []),
        ("gauges.stages", ["rough", "finished"]),
        ("printer.bed", [200]),
        ("bolts.centre", "M9"),
        ("unit", "ell"),
        ("name", "a/b"),
        ("title", ""),
        ("saw.kref", 3),
        ("colour", 3),
        ("form", {"wedge_rings": 16, "segments": 8, "core_opening": 20, "outer_diameter": 250}),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses_too(path, value):
    data = changed(path, value)
    assert not validator().is_valid(data)
    with pytest.raises(Refused):
        parse(as_toml(data))


def as_toml(data):
    """JSON text of these values is TOML, but for tables."""
    tables = {name: inner for name, inner in data.items() if isinstance(inner, dict)}
    plain = {name: value for name, value in data.items() if name not in tables}
    top = "".join(f"{name} = {json.dumps(value)}\n" for name, value in plain.items())
    return top + "".join(f"[{name}]\n{as_toml(inner)}" for name, inner in tables.items())


def test_the_defaults_in_the_schema_are_valid_values():
    for key in KEYS:
        table = json_schema()["properties"]
        schema = (table[key.table]["properties"] if key.table else table)[key.name]
        if "default" in schema:
            assert jsonschema.Draft7Validator(schema).is_valid(schema["default"]), key.path
