"""Readings of the check corner, from the file to the wedge that is drawn, and back."""

import re
from math import cos, degrees, radians, sin, tan
from pathlib import Path

import pytest

from geometry.blanks.sawing import included_angle_error
from geometry.measuring.wedge_angle import face_length
from jigs.forms.solve import solve
from jigs.measured.planned import paper_length
from jigs.measured.wedge_angle import wedge_advice, wedge_found
from jigs.parts.sleds.wedge import sled_wedge
from jigs.plans.torus import TorusPlan
from tests.measured.garland import read


def plan_with(folder: Path, readings: str) -> TorusPlan:
    return solve(read(folder, readings))


def drawn_angle(plan: TorusPlan) -> float:
    return next(d.value for d in sled_wedge(plan).dimensions if d.name == "angle")


def by_id(plan: TorusPlan, id: str) -> dict[str, float]:
    advice = next(one for one in wedge_advice(plan) if one.id == id)
    return {quantity.id: quantity.value for quantity in advice.found}


def test_light_at_the_rim_makes_the_wedge_larger_by_a_ring_s_share(tmp_path: Path):
    plan = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.42")
    each = degrees(0.42 / face_length(plan.blank)) / plan.check.rings
    assert drawn_angle(plan) == pytest.approx(10 + each, abs=0.001)
    found = by_id(plan, "wedge-angle.wedge")
    length = paper_length(plan.job, plan.ring_cut, plan.blank)
    assert found["shim.thick-end"] == pytest.approx(length * sin(radians(each)), rel=0.01)
    assert found["shim.thin-end"] == found["shim.stop"] == 0


def test_light_at_the_hole_makes_it_smaller_and_the_stop_goes_out(tmp_path: Path):
    plan = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-hole = 0.42")
    assert drawn_angle(plan) < 10
    found = by_id(plan, "wedge-angle.wedge")
    assert found["shim.thick-end"] == -found["shim.thin-end"] < 0
    along = found["shim.thin-end"] / (2 * tan(plan.blank.half_wedge))
    # Garland's stop is a V: its edges lean by 18 degrees.
    assert found["shim.stop"] == pytest.approx(along * cos(radians(18)))


def test_nothing_smaller_than_the_readings_accuracy_is_corrected(tmp_path: Path):
    plan = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.03")
    assert drawn_angle(plan) == 10
    assert [one.verdict for one in wedge_advice(plan)] == ["right"]


def test_a_finer_instrument_corrects_what_a_coarse_one_leaves(tmp_path: Path):
    plan = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-rim = {reading = 0.03, accuracy = 0.005}")
    assert drawn_angle(plan) > 10


def test_the_wedge_that_was_used_and_its_paper_count(tmp_path: Path):
    """Rings that fill the corner prove the wedge that they were cut on, not the planned one."""
    plan = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0\nwedge-angle = 10.092")
    assert drawn_angle(plan) == pytest.approx(10.092)
    paper = plan_with(tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0\npaper = 0.12")
    length = paper_length(paper.job, paper.ring_cut, paper.blank)
    assert drawn_angle(paper) == pytest.approx(10 + degrees(0.12 / length), abs=0.001)


@pytest.mark.parametrize(
    ("light", "told"),
    [
        ("rim = 0.2", "put 0.06 mm more of paper"),
        ("hole = 0.2", "take 0.06 mm of the paper out"),
        ("hole = 0.8", "take the paper out, then plane 0.10 mm"),
    ],
)
def test_paper_that_lies_under_the_wedge_is_counted_in_what_to_do(tmp_path: Path, light: str, told: str):
    plan = plan_with(tmp_path, f"[wedge_rings.trial]\ngap-at-{light}\npaper = 0.12")
    (advice,) = wedge_advice(plan)
    assert told in " ".join(advice.says)


@pytest.mark.parametrize(("light", "paper"), [("rim", ""), ("hole", ""), ("hole", "\npaper = 0.12")])
def test_less_than_half_the_thinnest_paper_is_left(tmp_path: Path, light: str, paper: str):
    """The next wedge is drawn right all the same, and what stays at the last joint counts what is left."""
    read = f"[wedge_rings.trial]\ngap-at-{light} = {{{{reading = {{0}}, accuracy = 0.01}}}}{paper}"
    plan = plan_with(tmp_path, read.format(0.05))
    (advice,) = wedge_advice(plan)
    told = " ".join(advice.says)
    assert advice.verdict == "right"
    assert re.search(r"Leave the wedge( with its paper)? as it is: the thinnest paper", told)
    assert not re.search("put |plane |take [0-9t]", told.replace("give or take", ""))
    assert f"a new wedge of {degrees(plan.ring_cut.wedge_angle):.3f}°" in told
    assert (light == "rim") == (drawn_angle(plan) > drawn_angle(plan_with(tmp_path, read.format(0))))
    remains = 0.06 / face_length(plan.blank) / plan.check.rings
    assert by_id(plan, advice.id)["remains"] == pytest.approx(
        included_angle_error(plan.blank, remains), rel=0.01
    )
    (more,) = wedge_advice(plan_with(tmp_path, read.format(0.12)))
    assert more.verdict == "correct"


def test_good_rings_outdo_the_trials(tmp_path: Path):
    plan = plan_with(
        tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.4\n[wedge_rings.second]\ngap-at-hole = 0.3"
    )
    assert drawn_angle(plan) < 10
    assert [one.id for one in wedge_advice(plan)] == ["wedge-angle.wedge", "wedge-angle.cut-already"]


@pytest.mark.parametrize(
    "readings",
    [
        "gap-at-rim = 0.4\ngap-at-hole = 0.3",  # a face that is not flat
        "gap-at-rim = 0.42\nthick-edge = [45.88, 45.89]\nchord = 165",  # two ways that disagree
        "gap-at-rim = 8",  # more than any saw errs
    ],
)
def test_readings_that_contradict_are_pointed_out_and_correct_nothing(tmp_path: Path, readings: str):
    plan = plan_with(tmp_path, f"[wedge_rings.trial]\n{readings}")
    assert [one.verdict for one in wedge_advice(plan)] == ["unclear"]
    assert drawn_angle(plan) == 10


def test_a_chord_without_light_is_answered_with_what_is_missing(tmp_path: Path):
    plan = plan_with(tmp_path, "[wedge_rings.second]\nthick-edge = [45.88, 45.89]\nchord = 169.95")
    (told,) = wedge_advice(plan)
    assert (told.id, told.verdict) == ("wedge-angle.no-light", "unclear")
    assert "[wedge_rings.second]" in told.says[0]
    assert drawn_angle(plan) == 10


def test_a_chord_that_agrees_is_no_objection(tmp_path: Path):
    plan = plan_with(
        tmp_path, "[wedge_rings.trial]\ngap-at-rim = 0.42\nthick-edge = [45.88, 45.89]\nchord = 169.95"
    )
    found = wedge_found(plan.job, plan.blank, plan.ring_cut)
    assert found.by_chord is not None
    assert found.clear
