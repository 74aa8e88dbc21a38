"""A glued sled that does the same serves as it stands, in its own job and in others; it is tried before it is named."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import load
from jigs.files.manifest import read_manifest
from jigs.sets.make import make
from jigs.sets.sled_use import Does, Sled
from tests.jigs.making.sets import changed
from tests.jigs.set_files import in_set

SLEDS = True

RINGS = "sled for wedge rings"


@pytest.mark.parametrize(
    ("old", "serves"), [(10.0, True), (9.8, True), (9.7, False), (25.0, True), (26.1, False)]
)
def test_an_old_sled_may_do_so_much_less_or_more(old, serves):
    assert Does("strip", 10.0, 0.25, 16.0).serves(old) is serves


def test_a_sled_serves_only_with_the_same_parts_doing_the_same():
    sled = Sled("carrier", ("base", "fence"), (Does("tilt", 18.0, 0.01, 0.01),))
    assert sled.is_done_by(sled.row())
    assert not sled.is_done_by({**sled.row(), "parts": ["base"]})
    assert not sled.is_done_by({**sled.row(), "does": {"tilt": 18.1}})
    assert not sled.is_done_by({"name": "carrier"})


def test_a_change_that_the_sled_does_not_feel_leaves_it_right_as_a_whole(job_file, standing):
    made = make(load(changed(job_file, 'title = "Garland"', 'title = "Loop"')), standing)
    assert dict(made.sleds)[RINGS] == "garland"
    assert made.wrong == ()
    assert f"{RINGS}: keep the old one" in (standing / "garland" / "last-change.txt").read_text("utf-8")


def test_a_change_that_it_feels_does_not(job_file, standing):
    made = make(load(changed(job_file, "tube_diameter = 54", "tube_diameter = 53")), standing)
    assert RINGS not in dict(made.sleds)
    assert {"sled-base", "sled-fence"} <= {part for part, _ in made.wrong}


def test_a_sled_made_for_another_job_is_told_of_unless_its_drawings_were_changed_by_hand(job_file, standing):
    base = in_set(standing / "garland", "cut/segment-base.dxf")
    base.write_bytes(base.read_bytes() + b"\n")
    other = job_file.with_name("wreath.toml")
    other.write_text(job_file.read_text("utf-8").replace('"Garland"', '"Wreath"'), "utf-8")
    made = make(load(other), standing)
    assert dict(made.sleds) == {RINGS: "garland"}


def test_the_manifest_keeps_what_each_sled_does(standing):
    rows = {row["name"]: row for row in (read_manifest(standing / "garland") or {})["sleds"]}
    assert rows[RINGS]["does"]["fence to blade"] == 10.0
    assert "sled-base" in rows[RINGS]["parts"]
    assert "sled-wedge" not in rows[RINGS]["parts"]
