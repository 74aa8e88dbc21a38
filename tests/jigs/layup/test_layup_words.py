"""Layups in words: every number there, the steps in their order, cautions where the step is."""

import math
from collections.abc import Sequence

import pytest

from jigs.job import Job
from jigs.plan.layup.layup import LayupPlan
from jigs.solving.wood.steps import layup_steps, numbered, step
from jigs.words.layup.layup import layup_sections
from jigs.words.report import shown
from jigs.words.sections import Section
from tests.jigs.layup.layup_jobs import WISH, hoop, of_hoop, of_vessel, vessel, with_layup

ORDER = (
    "mark the sheets", "rip strips", "glue stacks", "set the sled", "test cut in scrap", "set the index pin",
    "saw slabs", "check", "trim square", "sand to the witness line", "turn over and glue", "glue to rails",
    "saw the mitres", "split off the rail",
)  # fmt: skip


def told_of(job: Job, layups: Sequence[LayupPlan]) -> list[Section]:
    """As beside the whole order of the work."""
    mitred = [step("mitre", "table saw", layup.rings, (), layup.blocks) for layup in layups]
    return layup_sections(job, layups, numbered([*layup_steps(layups), *mitred]))


def sections(**changes: object) -> list[Section]:
    plan = hoop()
    return told_of(with_layup(plan.job, **changes), [of_hoop(**changes)])


def rows(section: Section) -> dict[str, str]:
    return {row.name.split(". ")[-1]: shown(row, "mm") for row in section.rows}


def test_steps_come_in_the_order_of_the_work_with_their_cautions() -> None:
    steps = sections()[-1]
    assert tuple(rows(steps)) == ORDER
    assert [row.name.split(".")[0] for row in steps.rows] == list("22344444455677")
    told = " ".join(steps.cautions)
    for word in ("unplug", "300 mm", "mask", "Glue", "hold-down"):
        assert word in told


def test_steps_say_how_many_and_to_what_size() -> None:
    layup, steps = of_hoop(), rows(sections()[-1])
    assert steps["rip strips"].startswith(f"{layup.way.strips_in_all}, ")
    assert f"{layup.way.pitch:.1f} mm along the stack" in steps["set the index pin"]
    assert f"{math.degrees(layup.way.cut_angle):.2f}°" in steps["set the sled"]
    assert f"{layup.way.pieces + 1} cuts" in steps["saw slabs"]
    assert "698 pieces" in steps["trim square"]
    assert "2 of 4 turned over" in steps["turn over and glue"]
    assert "of 160 segments" in steps["saw the mitres"]


def test_a_whole_segment_is_not_glued_from_pieces() -> None:
    steps = rows(sections(mirrored="none")[-1])
    assert "turn over and glue" not in steps
    assert "72 of the 144 segments" in steps["glue to rails"]
    assert "every other segment of a ring and every other ring" in steps["glue rings"]


def test_every_way_is_told_and_the_chosen_one_first() -> None:
    ways = sections()[1]
    kinds = [row.name for row in ways.rows[:3]]
    assert kinds == ["chosen", "other way", "other way"]
    told = " ".join(str(row.value) for row in ways.rows[:3])
    for kind in ("staggered", "square", "one by one"):
        assert kind in told


def test_closings_are_told_with_the_radius() -> None:
    seams = sections()[2]
    closings = [str(row.value) for row in seams.rows if row.name.startswith("whole repeats by")]
    assert len(closings) == len(of_hoop().closings)
    assert "103.06 mm from the axis" in closings[0]


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_no_number_is_infinite(angle: float) -> None:
    for section in sections(angle=angle):
        for row in section.rows:
            assert "inf" not in shown(row, "mm").split()
            assert "nan" not in shown(row, "mm")
    assert rows(sections(angle=0.0)[2])["repeat along a"] == "none, the plies run along it"


def test_lengths_are_shown_in_the_jobs_unit() -> None:
    plan = hoop("in")
    told = told_of(with_layup(plan.job), [of_hoop(plan)])
    text = " ".join(shown(row, "in") for section in told for row in section.rows)
    assert " in " in text
    assert " mm" not in text
    assert " l " not in text


def test_marked_corners_of_turned_pieces_lie_at_the_mitres() -> None:
    assert "together in the middle" in rows(sections()[-1])["turn over and glue"]
    assert "at the mitres" in rows(sections(turned=True)[-1])["turn over and glue"]


def test_each_size_of_a_vessels_segments_has_its_sections() -> None:
    layups = of_vessel("vase")
    told = told_of(with_layup(vessel("vase").job), layups)
    bought, *told = told
    assert len(told) == 4 * len(layups)
    assert len({section.title for section in told}) == len(told)
    assert [bool(section.cautions) for section in told[3::4]] == [True] + [False] * (len(layups) - 1)
    assert told[0].title == f"Layup, ring {layups[0].rings[0]}"
    sheets = sum(layup.way.sheets for layup in layups)
    assert {row.name: str(row.value) for row in bought.rows} == {
        "maple 3.0 mm": f"{sheets} of 300.0 mm x 600.0 mm",
        "black 0.6 mm": f"{sheets} of 300.0 mm x 600.0 mm",
        "walnut 2.4 mm": f"{sheets} of 300.0 mm x 600.0 mm",
        "sheets to make": str(sheets),
    }


def test_a_job_without_a_layup_has_no_such_section() -> None:
    assert told_of(hoop().job, ()) == []
    assert WISH.mirrored == "both"
