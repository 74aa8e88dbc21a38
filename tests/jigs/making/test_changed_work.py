"""What a make tells of settings and wood when the job has changed, and where that is kept."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace

import pytest

from jigs.asked.jobfile import load
from jigs.files.manifest import sealed
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.render.lines import shown
from jigs.sets.changes_told import MOST, by_reason, change_lists, changes_text, setting_text
from jigs.sets.made import Made
from jigs.sets.make import make
from jigs.sets.rack import rack
from jigs.words.quantity import Quantity
from jigs.work.changes import ESTIMATED, SettingChange, WorkChanges
from jigs.work.model import Operation
from tests.jigs.making.sets import ROOT, changed, contents
from tests.jigs.set_files import in_set

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


def settings_of(told):
    """Each setting of each operation, by their ids."""
    return {(one.id, setting.id): setting for one in told.operations for setting in one.settings}


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_setting_that_one_would_set_otherwise_is_told_and_no_other(tmp_path, unit):
    shutil.copy(ROOT / "configs" / "shed.toml", tmp_path)
    file = tmp_path / "loop.toml"
    file.write_text(LOOP.format(unit=unit), "utf-8")
    plan = solve(load(file))
    old = settings_of(work(plan, rack(plan)[0]))
    make(load(file), tmp_path / "out")
    made = make(load(changed(file, "54 mm", "55 mm")), tmp_path / "out")
    new = settings_of(made.told)
    assert old.keys() == new.keys()
    found = {(one.operation, one.setting): (one.before.value, one.after.value) for one in made.work.settings}
    assert 0 < len(found) < len(old)
    for key, setting in old.items():
        was, now = setting.value, new[key].value
        if isinstance(was, str):
            assert (key in found) == (was != now)
        elif key in found or (abs(was - now) > 0.0051 and setting.kind not in ESTIMATED):
            assert found[key] == pytest.approx((was, now), abs=1e-6)
    told = changes_text(made).splitlines()
    seen = [key for key in found if shown(old[key], unit) != shown(new[key], unit)]  # to a tenth by a rule
    assert f"settings: {len(seen)} changed" in told
    assert "cut list: changed in 1 of 1 lot; see tables/loop_cut-list.csv" in told
    for operation, id in seen:
        step = made.told.number(operation)
        assert [line for line in told if line.startswith(f"  step {step}, {new[operation, id].label}: ")]


def test_a_change_that_leaves_the_work_alone_says_so(job_file, standing):
    made = make(load(changed(job_file, 'title = "Garland"', 'title = "Wreath"')), standing)
    assert made.near
    assert not made.work.changed
    assert made.work.boards == "as before"
    assert "as before" in (standing / "garland" / KEPT).read_text("utf-8")


def test_other_boards_are_told_from_the_same_ones_sawn_otherwise(job_file, standing):
    made = make(load(changed(job_file, new="tube_diameter = 57")), standing)
    assert made.work.boards == "others"
    made = make(load(changed(job_file, "core_opening = 20", "core_opening = 20.2")), standing)
    assert made.work.boards == "sawn otherwise"


def test_a_set_whose_manifest_keeps_no_record_is_not_compared(job_file, standing):
    file = standing / "garland" / "manifest.json"
    content = json.loads(file.read_text("utf-8"))
    del content["work"]
    file.write_text(sealed(content), "utf-8")
    made = make(load(changed(job_file)), standing)
    assert not made.work.compared
    assert "settings, cut list, boards: not compared" in changes_text(made)


def test_what_changed_is_kept_in_the_set_until_the_next_change(job_file, standing):
    folder = standing / "garland"
    assert not (folder / KEPT).exists()
    made = make(load(changed(job_file)), standing)
    kept = (folder / KEPT).read_text("utf-8")
    assert kept.startswith("Garland: ")
    for line in (
        *(setting_text(one, made.told) for one in made.work.settings),
        *made.remade,
        *made.right,
        *(why for _, why in made.wrong),
    ):
        assert line in kept
    assert make(load(job_file), standing).unchanged
    in_set(folder, "print/hole-gauge-finished.stl").unlink()
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
    one = Quantity("fence", "fence", 1.0)
    told = tuple(SettingChange(f"a.cut-{k}", "fence", one, Quantity("fence", "fence", 2.0)) for k in settings)
    steps = tuple(Operation(f"a.cut-{k}", "Cut.", "bench", settings=(one,)) for k in settings)
    plan = solve(load(ROOT / "configs" / "garland.toml"))
    whole = replace(work(plan, rack(plan)[0]), operations=steps)
    return Made(ROOT, (), False, near=near, work=WorkChanges(told), told=whole)


@pytest.mark.parametrize("count", [0, 1, MOST, MOST + 1, 40])
def test_so_many_settings_are_told_on_the_screen_and_how_many_more_there_are(count):
    made = made_of(range(count))
    lines = changes_text(made, MOST).splitlines()
    told = [line for line in lines if "fence" in line]
    assert len(told) == min(count, MOST)
    more = [f"  and {count - MOST} more, all of them in last-change.txt"] if count > MOST else []
    head = f"settings: {count} changed" if count else "settings: as before"
    assert lines == [head, *told, *more, "cut list: as before", "boards: as before"]
    assert told[:1] == ["  step 1, fence: 1.0 mm -> 2.0 mm"][:count]
    assert changes_text(made).count("fence") == count


def test_a_setting_that_reads_as_before_is_none_to_tell():
    made = made_of([0])
    (one,) = made.work.settings
    height = [Quantity("height", "Height", mm, "rule") for mm in (35.06, 35.08)]
    same = replace(made, work=replace(made.work, settings=(replace(one, before=height[0], after=height[1]),)))
    assert "settings: as before" in changes_text(same)
    assert "settings: 1 changed" in changes_text(made)


@pytest.mark.parametrize(
    ("unit", "kind", "before", "after", "told"),
    [
        ("mm", "rule", 35.04, 35.06, False),
        ("mm", "rule", 35.04, 35.10, True),
        ("in", "rule", 25.4 * 1.2344, 25.4 * 1.2346, False),
        ("in", "calliper", 25.4 * 1.2344, 25.4 * 1.2346, False),
        ("in", "calliper", 25.4 * 1.2344, 25.4 * 1.2352, True),
    ],
)
def test_a_last_digit_turned_over_by_rounding_alone_is_none_to_tell(unit, kind, before, after, told):
    made = made_of([0])
    (one,) = made.work.settings
    pair = [Quantity("height", "Height", mm, kind) for mm in (before, after)]
    assert shown(pair[0], unit) != shown(pair[1], unit)
    one = replace(one, before=pair[0], after=pair[1])
    assert bool(setting_text(one, replace(made.told, unit=unit))) == told


def test_jigs_within_their_tolerance_are_counted_and_named_by_their_codes():
    near = (("width-fork", "its outline differs by up to 0.01 mm"), ("sled-rail", "lettering only"))
    title, codes, *_ = lines = changes_text(made_of(near=near)).splitlines()
    assert "still good (changed by less than the tolerance" in title
    assert codes == "  2 jigs: WF, SRL"
    assert not any("0.01" in line for line in lines)
    assert "  1 jig: WF" in changes_text(made_of(near=near[:1])).splitlines()


def test_many_codes_are_one_line_under_their_heading_in_rows_of_a_terminal():
    """A page makes one bullet of a line."""
    made = made_of(near=tuple((f"sled-rail-{k}", "lettering only") for k in range(40)))
    line = next(lines for head, lines in change_lists(made) if "still good" in head)
    assert len(line) == 1
    rows = changes_text(made).splitlines()[1:]
    assert len(rows) > 2
    assert " ".join(row.strip() for row in rows[: len(line[0].splitlines())]) == " ".join(line[0].split())
    assert all(row.startswith("  ") and len(row) <= 90 for row in rows[: len(line[0].splitlines())])


def test_a_reason_that_many_jigs_share_is_written_once():
    cut = "it is drawn for a cut 0.40 mm narrower than yours is now"
    many = [("sled-rail", cut), ("width-fork", "out"), ("sheet-coupon", cut), ("sled-base", cut)]
    assert by_reason(many) == [f"{name}: {cut}" for name, why in many if why == cut] + ["width-fork: out"]
    first, other = by_reason([*many, ("sled-wedge", cut)])
    assert " ".join(first.split()) == f"4 jigs: SRL, SHC, SB, SW; each: {cut}"
    assert other == "width-fork: out"
