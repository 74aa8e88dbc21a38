"""Shop values that were never measured are named on top of a check and on the jigs that are cut to them."""

from __future__ import annotations

import json

import pytest

from jigs.asked.jobfile import load, parse
from jigs.cli import main
from jigs.forms.work import work
from jigs.render.listing import listing_text
from jigs.sets.rack import prove
from jigs.stages.shop.assumed import NOT_MEASURED
from tests.jigs.inspection import text_of

TORUS = (
    "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 8\ncore_opening = 20\n"
)
SAW = (
    "[saw]\nslot_width = 19.1\nslot_depth = 9.6\nslot_distance = 112\ntable_front = 310\nblade_height = 80\n"
    "tilts = 'left'\n"
)
BOARDS = "[boards]\nsheet = 11.9\nthickness = 18\n"
LATHE = "[lathe]\nswing_over_bed = 400\n"
OF_THE_VERDICT = {"lathe.swing_over_bed", "saw.blade_height", "boards.thickness"}
KEYS = OF_THE_VERDICT | {
    "saw.slot_width",
    "saw.slot_depth",
    "saw.slot_distance",
    "saw.table_front",
    "saw.tilts",
    "boards.sheet",
}


def never_measured(text: str) -> set[str]:
    return {note.key for note in prove(parse(text, "hoop.toml")).notes if note.code == NOT_MEASURED}


def test_every_value_that_the_file_does_not_state_is_named():
    assert never_measured(TORUS) == KEYS
    assert never_measured(TORUS + SAW) == {"boards.sheet", "boards.thickness", "lathe.swing_over_bed"}
    assert never_measured(TORUS + SAW + BOARDS + LATHE) == set()


BANDSAW = "[bandsaw]\nheight = 160\n[cutting]\nwedge_rings = 'bandsaw'\nsegments = 'bandsaw'\n"
BANDSAW_KEYS = {"bandsaw.drift", "bandsaw.table_left", "bandsaw.table_front"}


def test_a_sled_for_the_bandsaw_is_cut_to_the_bandsaw_and_to_no_mitre_slot():
    assert never_measured(TORUS + BANDSAW) == OF_THE_VERDICT | BANDSAW_KEYS | {"boards.sheet"}
    parts = {part.name: part for part in prove(parse(TORUS + BANDSAW, "hoop.toml")).parts}
    for name in ("sled-base", "sled-rail", "segment-base", "segment-rail"):
        assert "DRIFT" in text_of(parts[name]).partition("ASSUMED")[2], name
    assert "MITRE SLOT" not in text_of(parts["sled-base"])
    words = text_of(parts["sled-base"]).split()
    assert words.count(parts["sled-base"].code) == 1


def test_the_examples_assume_nothing():
    assert [note for note in prove(load("configs/garland.toml")).notes if note.code == NOT_MEASURED] == []


def test_a_listing_names_them_before_the_first_step():
    proof = prove(parse(TORUS, "hoop.toml"))
    told = work(proof.plan, proof.parts, proof.notes)
    assert {note.key for note in told.assumed} == KEYS
    head = listing_text(told).partition(told.stages[0].title.upper())[0]
    assert all(f"  {key}: " in head for key in KEYS)


@pytest.mark.parametrize(
    ("name", "says"), [("sled-runner", "19.0 mm mitre slot"), ("sled-base", "12.0 mm sheet")]
)
def test_the_jig_that_is_cut_to_one_says_so(name, says):
    part = next(part for part in prove(parse(TORUS, "hoop.toml")).parts if part.name == name)
    assert f"ASSUMED {says.upper()}" in " ".join(text_of(part).replace(",", " ").split())
    measured = next(p for p in prove(parse(TORUS + SAW + BOARDS, "hoop.toml")).parts if p.name == name)
    assert "ASSUMED" not in text_of(measured)


def test_a_refusal_names_what_it_was_judged_by(tmp_path, capsys):
    file = tmp_path / "hoop.toml"
    file.write_text(TORUS.replace("core_opening = 20", "core_opening = 45") + LATHE, "utf-8")
    assert main(["check", str(file)]) == 1
    said = capsys.readouterr().err.partition("What would do")[0]
    assert said.count("never measured") == 1
    assert "saw.blade_height" in said
    assert "boards.thickness" in said
    assert "lathe.swing_over_bed" not in said
    assert main(["check", "--json", str(file)]) == 1
    told = json.loads(capsys.readouterr().out)["assumed"]
    assert {one["key"] for one in told} == OF_THE_VERDICT - {"lathe.swing_over_bed"}
