"""Every jig has a code of its own, which its plate carries and everything that tells of it repeats."""

from __future__ import annotations

import json
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.keys import KEYS
from jigs.files.drawing import drawing
from jigs.parts.codes import code_of
from jigs.parts.coding import carries_code
from jigs.parts.families import FAMILIES, family_of
from jigs.parts.part import Lettering, Part
from tests.jigs.inspection import text_of
from tests.jigs.shops import CONFIGS, each_job, shop

LEAST = 3.0  # mm


def assert_told_apart(parts: list[Part]) -> None:
    """Of any job; of random ones in `test_random_jobs` and `test_random_vessels`, which make them.

    No two carry the same code, nor the same words; each carries its code, or it stands beside its drawing; and each
    code is a listed one, for one made up of the name's letters is long.
    """
    for told in (lambda part: part.code, text_of):
        assert [text for text, count in Counter(map(told, parts)).items() if count > 1] == []
    for part in parts:
        assert part.jig.code, part.name
        assert part.jig in family_of(part.family).jigs, part.name
        assert carries_code(part, part.marks) or part.code in part.beside, part.name
        assert not part.words


@each_job
def test_no_two_parts_of_an_example_are_lettered_alike_and_each_carries_its_code(path):
    parts = shop(path).parts
    assert_told_apart(list(parts))
    assert all(carries_code(part, part.marks) for part in parts)


@each_job
def test_cut_lettering_is_three_millimetres_at_least(path):
    for part in shop(path).of("cut"):
        assert min(m.height for m in part.marks if isinstance(m, Lettering)) >= LEAST, part.name


def test_a_code_is_that_of_the_name_whatever_else_the_job_has():
    assert code_of("sled-base") == "SB"
    assert code_of("outer-gauge-stage-2") == "OG2"
    assert code_of("standing-gauge-a-outer") == "YAOU"
    assert code_of("joint-plate-n12") == "JP12"
    assert code_of("outer-stick-a") == "OSA"
    assert code_of("something-never-heard-of") == "SONEHEOF"


def test_each_jig_has_a_name_and_a_code_of_its_own():
    jigs = [jig for family in FAMILIES for jig in family.jigs]
    taken = Counter(word for jig in jigs for word in (jig.name, jig.code))
    assert [word for word, times in taken.items() if times > 1] == []


def test_a_jig_is_cut_to_values_that_there_are():
    assert {key for family in FAMILIES for jig in family.jigs for key in jig.cut_to} <= {
        key.path for key in KEYS
    }


def test_a_ring_that_joins_others_keeps_the_code_of_the_first():
    assert code_of("stop-stick-ring-12") == code_of("stop-stick-ring-12-13") == "SS12"


@given(st.lists(st.integers(1, 30), min_size=1, max_size=12, unique=True))
def test_codes_are_short_enough_for_small_plates(rings):
    assert len(code_of("stop-stick-ring-" + "-".join(map(str, sorted(rings))))) <= 4


def test_the_two_wedges_are_told_apart_by_more_than_half_a_millimetre(tmp_path):
    parts = {part.name: part for part in shop(CONFIGS / "garland.toml").parts}
    sled, end = parts["sled-wedge"], parts["end-wedge"]
    assert carries_code(sled, sled.marks)
    assert not carries_code(end, sled.marks)
    assert carries_code(end, end.marks)


@each_job
def test_plates_of_a_stack_are_counted(path):
    stacks = [part for part in shop(path).of("cut") if part.stack > 1]
    assert stacks
    for part in stacks:
        assert part.quantity % part.stack == 0, part.name
    counted = [mark for part in stacks for mark in part.marks if isinstance(mark, Lettering) and mark.of > 1]
    assert len(counted) >= len(stacks) // 2
    for mark in counted:
        assert f" OF {mark.of}" in mark.text
        assert f"2 OF {mark.of}" in mark.on_plate(2).text


def test_what_a_plate_has_no_room_for_stands_beside_its_drawing():
    wedge = next(part for part in shop(CONFIGS / "garland.toml").parts if part.name == "sled-wedge")
    assert any("RING EDGE" in row for row in wedge.beside)
    notes = [shape for shape in drawing(wedge) if shape.layer == "note"]
    bare = [shape for shape in drawing(Part(**{**vars(wedge), "beside": ()})) if shape.layer == "note"]
    letters = sum(len(row.replace(" ", "")) for row in wedge.beside)
    assert len(notes) >= len(bare) + letters


def test_codes_stand_in_the_manifest_and_on_the_sheets(set_of):
    _, folder = set_of("quoit")
    manifest = json.loads((folder / "manifest.json").read_text("utf-8"))
    for entry in manifest["files"]:
        assert entry["code"] == code_of(entry["part"])
    sheets = " ".join(row["purpose"] for row in manifest["extras"])
    assert "SW sled-wedge" in sheets
    assert "EW end-wedge" in sheets


@pytest.mark.parametrize("process", ["print", "turn"])
def test_what_is_printed_or_turned_carries_its_code_too(process):
    for part in shop(CONFIGS / "tumbler.toml").of(process):
        assert carries_code(part, part.marks), part.name
