"""What a make tells of settings and wood when the job has changed, and where that is kept."""

from __future__ import annotations

import shutil
from dataclasses import replace

import pytest

from jigs.jobfile import load
from jigs.make import Made, make
from jigs.solve import solve
from jigs.words.changes import MOST, changes_text
from jigs.words.wood.numbers import setting_value
from jigs.work_changes import SETTINGS, WorkChanges, work_changes
from tests.jigs.making.sets import ROOT, changed, contents

KEPT = "last-change.txt"
LOOP = """unit = "{unit}"
workshop_file = "shed"
[form]
outer_diameter = "249 mm"
tube_diameter = "54 mm"
wedge_rings = 18
segments = 10
core_opening = "20 mm"
"""
BEFORE = ("settings: as before", "cut list: as before", "boards: as before")


def settings_of(job):
    """Value of each setting by step and name, as in the table; steps are the same in jobs that differ in sizes."""
    return {
        (step.number, setting.label): setting_value(rounded(setting, job.unit), job.unit)
        for step in solve(job).wood.steps
        for setting in step.settings
    }


def rounded(setting, unit):
    """In inches to 0.001 mm, which is finer than they are told; in mm no coarser than they are told."""
    fine = unit == "in" and setting.kind in ("length", "rule", "calliper")
    return replace(setting, value=round(setting.value, 3)) if fine else setting


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_setting_that_one_would_set_otherwise_is_told_and_no_other(tmp_path, unit):
    shutil.copy(ROOT / "configs" / "shed.toml", tmp_path)
    file = tmp_path / "loop.toml"
    file.write_text(LOOP.format(unit=unit), "utf-8")
    old = settings_of(load(file))
    make(load(file), tmp_path / "out")
    changed(file, "54 mm", "55 mm")
    new = settings_of(load(file))
    assert old.keys() == new.keys()
    wanted = {f"step {key[0]}, {key[1]}: {old[key]} -> {new[key]}" for key in old if old[key] != new[key]}
    made = make(load(file), tmp_path / "out")
    assert 0 < len(wanted) < len(old)
    assert set(made.work.settings) == wanted
    assert made.work.summary[0] == f"settings: {len(wanted)} changed"
    assert made.work.summary[1] == "cut list: changed in 1 of 1 lot; see tables/cut-list.csv"


def test_a_change_that_leaves_the_work_alone_says_so(job_file, standing):
    made = make(load(changed(job_file, 'title = "Garland"', 'title = "Wreath"')), standing)
    assert made.near
    assert made.work == WorkChanges((), BEFORE)
    assert "as before" in (standing / "garland" / KEPT).read_text("utf-8")


def test_other_boards_are_told_from_the_same_ones_sawn_otherwise(job_file, standing):
    made = make(load(changed(job_file, new="tube_diameter = 57")), standing)
    assert made.work.summary[2] == "boards: others; see tables/stock.csv"
    made = make(load(changed(job_file, "core_opening = 20", "core_opening = 20.2")), standing)
    assert made.work.summary[2] == "boards: the same ones, sawn otherwise; see tables/stock.csv"


def test_a_table_that_was_changed_by_hand_is_not_compared(job_file, standing):
    (standing / "garland" / SETTINGS).write_text("step;setting\n1;thickness\n", "utf-8")
    made = make(load(changed(job_file)), standing)
    assert made.work.settings == ()
    assert made.work.summary[0].startswith("settings: not compared, ")
    assert made.work.summary[1].startswith("cut list: changed")


def test_a_table_that_is_gone_comes_back_and_is_no_change(job_file, standing):
    before = contents(standing / "garland")
    (standing / "garland" / SETTINGS).unlink()
    made = make(load(job_file), standing)
    assert not made.unchanged
    assert made.work.summary[0].startswith("settings: not compared, ")
    assert contents(standing / "garland") == before


def test_what_changed_is_kept_in_the_set_until_the_next_change(job_file, standing):
    folder = standing / "garland"
    assert not (folder / KEPT).exists()
    made = make(load(changed(job_file)), standing)
    kept = (folder / KEPT).read_text("utf-8")
    assert kept.startswith("Garland: ")
    for line in (
        *made.work.settings,
        *made.work.summary,
        *made.remade,
        *made.right,
        *(why for _, why in made.wrong),
    ):
        assert line in kept
    assert make(load(job_file), standing).unchanged
    (folder / "print" / "hole-gauge-finished.stl").unlink()
    make(load(job_file), standing)
    assert (folder / KEPT).read_text("utf-8") == kept
    make(load(changed(job_file, "tube_diameter = 55", "tube_diameter = 56")), standing)
    assert (folder / KEPT).read_text("utf-8") != kept


def test_beside_what_is_kept_a_changed_set_has_the_bytes_of_one_made_fresh(job_file, standing, tmp_path):
    make(load(changed(job_file)), standing)
    make(load(job_file), tmp_path / "elsewhere")
    found = contents(standing / "garland")
    assert found.pop(KEPT)
    assert found == contents(tmp_path / "elsewhere" / "garland")


def made_of(settings=(), near=()):
    told = tuple(f"step {k}, fence: 1 mm -> 2 mm" for k in settings)
    return Made(
        ROOT, (), False, near=near, work=WorkChanges(told, ("settings: some", "cut list: some"), True)
    )


@pytest.mark.parametrize("count", [0, 1, MOST, MOST + 1, 40])
def test_so_many_settings_are_told_on_the_screen_and_how_many_more_there_are(count):
    made = made_of(range(count))
    lines = changes_text(made, MOST).splitlines()
    told = [line for line in lines if "fence" in line]
    assert len(told) == min(count, MOST)
    more = [f"  and {count - MOST} more, all of them in last-change.txt"] if count > MOST else []
    assert lines == ["settings: some", *told, *more, "cut list: some"]
    assert changes_text(made).count("fence") == count


def test_jigs_within_their_tolerance_are_counted_and_named_by_their_codes():
    near = (("width-fork", "its outline differs by up to 0.01 mm"), ("sled-rail", "lettering only"))
    title, codes, *_ = lines = changes_text(made_of(near=near)).splitlines()
    assert "still good (changed by less than the tolerance" in title
    assert codes == "  2 jigs: WF, SRL"
    assert not any("0.01" in line for line in lines)
    assert "  1 jig: WF" in changes_text(made_of(near=near[:1])).splitlines()


HEAD = "step,work,rings,setting,value_mm,value_in,value_deg,value\n"


def compared(old, new, unit="mm"):
    """The settings that are told; the other tables are empty."""
    tables = ({SETTINGS: HEAD + text} for text in (old, new))
    was, now = (lambda file, table=table: table.get(file, "") for table in tables)
    return work_changes(was, now, unit).settings


def test_settings_of_the_same_rings_are_compared_wherever_their_step_stands_now():
    old = "1,mitre,1 2,stop,10.000,,,\n2,mitre,3,stop,12.000,,,\n"
    new = "1,mitre,3,stop,12.000,,,\n2,mitre,1 2,stop,11.000,,,\n"
    assert compared(old, new) == ("step 2, stop: 10.0 mm -> 11.0 mm",)


def test_settings_of_other_rings_are_compared_in_their_order_and_what_is_over_is_new_or_gone():
    old = "1,mitre,1 2,stop,10.000,,,\n2,mitre,3 4,stop,12.000,,,\n"
    new = "3,mitre,1 2 3,stop,10.500,,,\n"
    assert compared(old, new) == ("step 3, stop: 10.0 mm -> 10.5 mm", "no longer: stop 12.0 mm")
    assert compared(new, old) == ("step 1, stop: 10.5 mm -> 10.0 mm", "step 2, stop: new -> 12.0 mm")


def test_angles_and_counts_are_told_too_and_steps_without_a_setting_are_not():
    old = "1,mitre,1,blade tilt,,,15.000,\n1,mitre,1,turns,,,,2\n2,close,1,,,,,\n"
    new = "1,mitre,1,blade tilt,,,22.500,\n1,mitre,1,turns,,,,3\n"
    assert compared(old, new) == ("step 1, blade tilt: 15.000° -> 22.500°", "step 1, turns: 2 -> 3")


def test_a_job_that_is_now_in_inches_has_the_same_settings():
    assert compared("1,mitre,1,stop,25.400,,,\n", "1,mitre,1,stop,25.400,1.0000,,\n", "in") == ()
