from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from jigs.asked.jobfile import parse
from jigs.asked.keys import KEYS, keys_of
from jigs.asked.schema import json_schema, schema_files
from jigs.words.findings import Refused

CONFIGS = Path(__file__).parents[2] / "configs"
EXAMPLES = sorted(CONFIGS.glob("*.toml"))
SOUND = {
    "form": {"outer_diameter": 250, "tube_diameter": 54, "wedge_rings": 18, "segments": 8, "core_opening": 20}
}


def validator(kind="job"):
    return jsonschema.Draft7Validator(json_schema(kind))


def test_something_reads_every_key():
    """By its name, which keys of several tables may share."""
    code = "\n".join(file.read_text("utf-8") for file in (CONFIGS.parent / "jigs").rglob("*.py"))
    assert [key.path for key in KEYS if key.table and not re.search(rf"\.{key.name}\b", code)] == []


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
        ("form", {"wedge_rings": 18, "segments": 8, "core_opening": 20, "outer_diameter": 250}),
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


def test_the_schema_takes_every_sound_vessel():
    for data in SOUND_VESSELS:
        validator().validate(data)
        parse(as_toml(data))


PROFILE, WALL = {"stations": [[0, 70], ["40 mm", "110"], [90, 80.5]]}, {"thickness": 6}
RINGS = {"heights": 20, "segments": 12, "species": "maple"}
VESSEL = {"profile": PROFILE, "wall": WALL, "rings": RINGS}
OWN = {"inside": {"stations": [[9, 50], [90, 70]]}}
SOUND_VESSELS = (
    VESSEL,
    {**VESSEL, "inside": {}},
    {**VESSEL, "wall": {}, **OWN},
    {"profile": PROFILE, "rings": RINGS, **OWN},
    {**VESSEL, "wall": {"by_height": [[0, 7], [90, "5 mm"]]}},
    {**VESSEL, "profile": {"edges": [[0, 0], [0, 70], [40, 80, "-90 mm"], [60, 90, 70.5]]}},
    {**VESSEL, "rings": {"heights": ["20 mm", 25], "segments": [8, 12], "species": ["ash", ["ash", "oak"]]}},
    {**VESSEL, "rings": {**RINGS, "heights": "least wood"}},
    {**VESSEL, "staves": {"low": 20, "high": 60, "count": 8, "species": ["ash", "oak"]}},
)
WRONG_VESSELS = {
    "both forms": {**SOUND, **VESSEL},
    "neither form": {"unit": "mm"},
    "a torus with a wall": {**SOUND, "wall": WALL},
    "no profile": {"wall": WALL, "rings": RINGS},
    "no rings": {"profile": PROFILE, "wall": WALL},
    "no way": {**VESSEL, "profile": {}},
    "two ways": {**VESSEL, "profile": {**PROFILE, "edges": [[0, 70], [90, 80]]}},
    "two ways inside": {**VESSEL, "wall": {}, "inside": {**OWN["inside"], "edges": [[9, 50], [90, 70]]}},
    "no way inside": {**VESSEL, "wall": {}, "inside": {"layer": "a"}},
    "no wall": {"profile": PROFILE, "rings": RINGS},
    "an empty wall": {**VESSEL, "wall": {"floor": 9}},
    "two walls": {**VESSEL, "wall": {**WALL, "by_height": [[0, 7], [90, 5]]}},
    "wall and inside": {**VESSEL, **OWN},
    "one station": {**VESSEL, "profile": {"stations": [[0, 70]]}},
    "stations in words": {**VESSEL, "profile": {"stations": "0 70, 40 90"}},
    "a radius in stations": {**VESSEL, "profile": {"stations": [[0, 70], [40, 80, 9]]}},
    "a radius of a wall": {**VESSEL, "wall": {"by_height": [[0, 7], [40, 8, 9]]}},
    "a negative diameter": {**VESSEL, "profile": {"edges": [[0, 70], [40, -8]]}},
    "no heights": {**VESSEL, "rings": {**RINGS, "heights": []}},
    "another choice": {**VESSEL, "rings": {**RINGS, "heights": "most rings"}},
    "three segments": {**VESSEL, "rings": {**RINGS, "segments": [12, 3]}},
    "segments in words": {**VESSEL, "rings": {**RINGS, "segments": "12"}},
    "no species": {**VESSEL, "rings": {**RINGS, "species": []}},
    "species too deep": {**VESSEL, "rings": {**RINGS, "species": ["ash", [["oak"]]]}},
    "a numbered species": {**VESSEL, "rings": {**RINGS, "species": 3}},
    "a key of a torus": {**VESSEL, "rings": {**RINGS, "wedge_rings": 18}},
    "another base": {**VESSEL, "rings": {**RINGS, "base": "open"}},
    "boards by name": {**VESSEL, "stock": {"boards": ["ash"]}},
}


@pytest.mark.parametrize("name", WRONG_VESSELS)
def test_what_the_schema_refuses_of_a_vessel_the_reader_refuses_too(name):
    data = WRONG_VESSELS[name]
    assert not validator().is_valid(data)
    with pytest.raises(Refused):
        parse(as_toml(data))


@pytest.mark.parametrize("board", [{"species": "ash"}, {"species": "ash", "thickness": 20, "count": 0}])
def test_the_schema_knows_what_a_board_needs(board):
    stock = {"boards": [board]}
    assert not validator().is_valid({**VESSEL, "stock": stock})
    assert not validator("workshop").is_valid({"stock": stock})
    assert validator().is_valid({**VESSEL, "stock": {"boards": [{**board, "thickness": 20, "count": 2}]}})


def test_the_defaults_in_the_schema_are_valid_values():
    for key in KEYS:
        table = json_schema()["properties"]
        schema = (table[key.table]["properties"] if key.table else table)[key.name]
        if "default" in schema:
            assert jsonschema.Draft7Validator(schema).is_valid(schema["default"]), key.path
