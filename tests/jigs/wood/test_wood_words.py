"""The wood in words: every piece and step is told, in the job's unit, with the cautions where they belong."""

import re
from dataclasses import replace

import pytest

from jigs.words.sections import Row, Section
from jigs.words.wood import wood_sections
from jigs.words.wood.boards import boards_section
from jigs.words.wood.numbers import ring_list, setting_text
from jigs.words.wood.work import CHECK, trial_of, what_of
from tests.jigs.wood.test_kept_long import sawn_up
from tests.jigs.wood.whole_jobs import ALL, LAYUPS, TORI, VESSELS, plan_of, torus, vessel

each = pytest.mark.parametrize("name", ALL)
ALWAYS = ["Scrap first", "Order of the work", "Grain", "Glue", "Finish and weight"]


def section(name: str, title: str, unit: str = "mm") -> Section:
    (found,) = [of for of in wood_sections(plan_of(name, unit)) if of.title == title]
    return found


def said(of: Section) -> str:
    return "\n".join([*(f"{row.name} {row.value}" for row in of.rows), *of.cautions])


@each
def test_sections_stand_in_the_order_of_the_work(name):
    titles = [of.title for of in wood_sections(plan_of(name))]
    assert [title for title in titles if title in ALWAYS] == ALWAYS
    sawn = bool(plan_of(name).wood.lots)
    assert ("Cut list" in titles) == ("Boards" in titles) == ("Offcuts" in titles) == sawn


@each
def test_every_section_has_rows_and_no_two_rows_have_one_name(name):
    for of in wood_sections(plan_of(name)):
        names = [row.name for row in of.rows]
        assert names
        assert len(set(names)) == len(names), of.title


@each
def test_every_lot_is_in_the_cut_list_with_its_count_and_its_spares(name):
    wood = plan_of(name).wood
    if wood.lots:
        rows = {row.name: str(row.value) for row in section(name, "Cut list").rows}
        for lot in wood.lots:
            assert f"{lot.count} and {lot.spares} to spare" in rows[f"lot {lot.number}"]
        assert rows["pieces in all"].startswith(f"{sum(lot.count for lot in wood.lots)} and ")


@each
def test_every_step_is_told_what_is_tried_first_and_how_it_is_checked(name):
    rows = {row.name: str(row.value) for row in section(name, "Order of the work").rows}
    for step in plan_of(name).wood.steps:
        assert rows[f"{step.number}. {step.machine}"].startswith(what_of(step))
        own = rows.get(f"{step.number}. check", "")
        like = re.search(r"as in step (\d+)", rows.get(f"{step.number}. set", "") + own)
        assert CHECK[step.work] in (rows[f"{like[1]}. check"] if like else own)
        for size in step.checks:
            assert setting_text(size, plan_of(name).job.unit) in own
        if step.tested:
            assert trial_of(step) in (
                rows.get(f"{step.number}. first in scrap"),
                rows.get(f"{like[1] if like else 0}. first in scrap"),
            )


@each
def test_saws_are_unplugged_and_short_pieces_are_not_held_by_hand(name):
    cautions = " ".join(section(name, "Order of the work").cautions)
    assert "unplug" in cautions
    assert "never held by hand" in cautions
    assert "extraction and mask" in cautions


@pytest.mark.parametrize("name", [*TORI, *VESSELS, *LAYUPS])
def test_a_job_in_inches_is_told_in_inches(name):
    for of in wood_sections(plan_of(name, "in")):
        for row in of.rows:
            assert not re.search(r"\d mm\b", f"{row.name} {row.value}"), (of.title, row)
        assert not [caution for caution in of.cautions if re.search(r"\d mm\b", caution)]


@pytest.mark.parametrize("name", ["garland", "sorrel", "tumbler"])
def test_boards_say_what_is_used_and_what_could_be_at_least(name):
    told = said(section(name, "Boards"))
    for of in plan_of(name).wood.classes:
        assert of.species in told
    classes = plan_of(name).wood.classes
    assert told.count("no plan takes less than") == len(classes)
    assert told.count("and no plan buys fewer") == sum(
        of.least == sum(b.count for b in of.taken if b.bought) > 0 for of in classes
    )
    (bought,) = [row.value for row in section(name, "Boards").rows if row.name == "boards to buy, in all"]
    assert bought == sum(b.count for of in plan_of(name).wood.classes for b in of.taken if b.bought)


def test_where_fewer_boards_are_not_excluded_it_is_said():
    plan = torus(more="[stock]\nbought_length = 900\n")
    (of,) = plan.wood.classes
    count = sum(board.count for board in of.taken if board.bought)
    assert count > 1
    unsure = replace(plan.wood, classes=(replace(of, least=count - 1),))
    rows = {row.name: str(row.value) for row in boards_section(plan.job, unsure).rows}
    (told,) = [value for name, value in rows.items() if name.endswith(": boards to buy")]
    assert told.startswith(f"{count}; {count - 1} might do")


def test_offcuts_too_short_to_hold_are_flagged_with_what_keeps_them_long():
    plan = sawn_up()
    (told,) = [of for of in wood_sections(plan) if of.title == "Offcuts"]
    rows = {row.name: str(row.value) for row in told.rows}
    assert [name for name in rows if name.endswith("TOO SHORT TO HOLD SAFELY")]
    (kept,) = plan.wood.kept_long
    (fewer,) = [value for name, value in rows.items() if name.endswith("to keep 2 strips long")]
    assert str(kept.fewer) in fewer
    assert kept.length >= 300
    assert "no piece is held by hand" in " ".join(told.cautions)


def test_mitres_are_said_to_be_nearly_end_grain_and_what_bridges_them():
    torus_told, vessel_told = said(section("garland", "Grain")), said(section("sorrel", "Grain"))
    assert "18.0° on both sides, nearly end grain to nearly end grain" in torus_told
    assert "stand in line" in torus_told
    assert "15.0° on both sides" in vessel_told
    assert "crosses them" in vessel_told


def test_the_glue_section_tells_batches_and_days():
    rows = {row.name: row.value for row in section("garland", "Glue").rows}
    assert rows["glue stays open"] == "8 minutes"
    assert rows["a joint takes"] == "0.5 minutes, and 4 for each square metre of it"
    assert rows["glue rings: halves, rings 1 to 18"] == "38, 4 joints in each, 3 at a time: 13 batches"
    assert rows["batches in all"] == 19
    assert rows["days at least"] == 4


def test_the_time_for_a_joints_area_is_told_by_the_jobs_own_unit_of_area():
    rows = {row.name: row.value for row in section("quoit", "Glue").rows}
    told = re.fullmatch(r"0\.5 minutes, and (\S+) for each 100 in² of it", str(rows["a joint takes"]))
    assert told
    assert float(told[1]) == pytest.approx(4 * 100 * 0.0254**2, abs=0.005)  # 4 for a square metre


def test_weights_of_unknown_woods_are_said_to_be_unknown_and_not_summed():
    plan = torus('species = "bog oak"')
    (finish,) = [of for of in wood_sections(plan) if of.title == "Finish and weight"]
    assert "weight not known" in said(finish)
    assert not [row for row in finish.rows if row.name.startswith("weight in all")]


def test_rings_are_listed_in_runs():
    assert ring_list((4,)) == "ring 4"
    assert ring_list(tuple(range(1, 17))) == "rings 1 to 16"
    assert ring_list((2, 4, 7, 8, 9)) == "rings 2, 4, 7 to 9"
    assert ring_list((1, 2)) == "rings 1, 2"


def test_the_bands_in_the_plan_are_those_of_the_clamping_section():
    from jigs.words.glue_up import glue_sections
    from jigs.words.vessel.saws import glue_up_section

    plan = torus()
    (clamping,) = [of for of in glue_sections(plan) if of.title == "Clamping"]
    assert Row("band for a ring, with its overlap", plan.wood.glue.band(1).length) in clamping.rows
    staved = vessel("staved")
    bands = [row.value for row in glue_up_section(staved).rows if row.name.endswith("clamp band")]
    assert bands == [band.length for band in staved.wood.glue.bands]
