"""A torus's candidates side by side: estimated at once, tried, ordered by what matters, written as jobs that pass."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.asked.starter import starter
from jigs.cli import main
from jigs.compare.run import Comparison, compare
from jigs.compare.torus import cuts, ranked, typed
from jigs.compare.tried import job_text
from jigs.compare.wish import BY, By, Options, wish
from jigs.forms.solve import solve
from jigs.sets.rack import prove
from jigs.words.findings import Refused
from tests.measured.garland import with_readings
from tests.work.reading import work_for


def asked(folder: Path, by: By = "time", best: int = 2, write: bool = False, **ways: str) -> Comparison:
    job = with_readings(folder, "")
    return compare(job, Options(**ways, by=by, best=best), write)


def figures(found: Comparison) -> list[dict[str, float]]:
    return [{figure.id: figure.value for figure in one.figures} for one in found.best]


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Comparison:
    return asked(
        tmp_path_factory.mktemp("compare"), "gap", 3, True, rings="16-22", segments="8-12", boards="18.5"
    )


def test_the_best_come_first_beside_the_job_itself(found: Comparison):
    gaps = [one["gap"] for one in figures(found)]
    assert len(gaps) == 3
    assert gaps == sorted(gaps)
    assert {figure.id for figure in found.own.figures} == set(figures(found)[0])


def test_the_blade_heights_are_those_that_the_book_sets(found: Comparison):
    told = {one.id: one for one in work_for(solve(found.job)).operations}
    own = {figure.id: figure.value for figure in found.own.figures}
    assert (
        own["segment-height"]
        == told["segments.tilt"].setting("blade-height").value
        == pytest.approx(37.1, abs=0.05)
    )
    assert (
        own["ring-height"]
        == told["wedge_rings.set"].setting("blade-height").value
        == pytest.approx(75.9, abs=0.15)
    )


def test_each_is_written_and_can_be_made(found: Comparison):
    assert len(found.files) == 3
    for file, one in zip(found.files, figures(found), strict=True):
        plan = prove(load(file)).plan
        assert (plan.blank.wedge_rings, plan.blank.segments) == (one["wedge-rings"], one["segments"])
        assert plan.job.name == file.stem
        assert file.read_text("utf-8").startswith("#:schema")  # the turner's own words stay


def test_a_board_is_as_thick_as_it_was_said_or_the_core_stays(found: Comparison):
    for one in figures(found):
        assert one["core"] == 20 or one["board"] == pytest.approx(18.5, abs=0.006)


def test_what_is_there_is_not_overwritten(found: Comparison):
    with pytest.raises(Refused, match="is there already"):
        compare(found.job.source, Options("16-22", "8-12", "18.5", by="gap", best=3), True)


def test_estimates_agree_with_plans_where_they_are_counted(tmp_path: Path):
    job = load(with_readings(tmp_path, ""))
    many = ranked(job, wish(job, Options("18", "10", by="cuts")))
    plan = solve(job)
    k = int(np.flatnonzero(np.abs(many.found.core - plan.blank.core_apothem) < 1e-9)[0])
    assert many.found.apothem[k] == pytest.approx(plan.blank.apothem)
    assert many.found.wall[k] == pytest.approx(plan.wall)
    assert cuts(many.found, 1)[k] == plan.segments_total + 2 * 18


@pytest.mark.parametrize("by", [one for one in BY if one != "cost"])
def test_a_thousand_are_ordered_by_each_thing_that_may_matter(tmp_path: Path, by: By):
    job = load(with_readings(tmp_path, ""))
    many = ranked(job, wish(job, Options("6-48", "6-24", "17,18,19,20", by=by)))
    assert many.tried >= 1000
    assert len(many.found) == len(many.mirrored) > 100
    assert (many.found.wall >= job.form.least_wall).all()


@pytest.mark.parametrize(
    ("ways", "code"),
    [
        ({"rings": "7"}, "wrong-option"),
        ({"rings": "x"}, "wrong-option"),
        ({"segments": "3"}, "wrong-option"),
        ({"boards": "thick"}, "wrong-option"),
        ({"boards": "0"}, "wrong-option"),
    ],
)
def test_a_wrong_option_is_refused(tmp_path: Path, ways: dict[str, str], code: str):
    with pytest.raises(Refused) as refused:
        asked(tmp_path, **ways)
    assert [finding.code for finding in refused.value.findings] == [code]


@pytest.mark.parametrize("best", [0, -1, 13])
def test_a_count_that_cannot_be_named_is_refused(tmp_path: Path, best: int):
    with pytest.raises(Refused, match="not from 1 to 12"):
        asked(tmp_path, best=best)


def test_a_saw_error_and_a_layup_are_checked_too(tmp_path: Path):
    job = load(with_readings(tmp_path, "", "trellis"))
    with pytest.raises(Refused, match="saw-error"):
        wish(job, Options(saw_error="x"))
    with pytest.raises(Refused, match="layups"):
        wish(job, Options(layups="sideways"))
    assert wish(job, Options(layups="any")).layups == ("none", "left and right", "up and down", "both")
    assert wish(job, Options()).layups == (job.layup.mirrored,)


def test_a_blank_needs_the_lathes_swing_and_its_clearance(tmp_path: Path):
    """What the checks refuse for want of 10 mm all over is not tried."""
    job = load(with_readings(tmp_path, ""))
    wanted = wish(job, Options("16-20", "8-10"))
    widest = 2 * float(ranked(job, wanted).found.swing_radius.max())
    lathe = replace(job.workshop.lathe, swing_over_bed=widest + 9.9)
    tight = replace(job, workshop=replace(job.workshop, lathe=lathe))
    assert 2 * ranked(tight, wanted).found.swing_radius.max() < widest


def test_the_command_tells_both_ways(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    job = str(with_readings(tmp_path, ""))
    ways = ["--rings", "16", "--segments", "8", "--best", "1"]
    assert main(["compare", job, *ways]) == 0
    assert "garland-16x8" in capsys.readouterr().out
    assert main(["compare", job, *ways, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["best"][0]["changes"] == {"form.wedge_rings": 16, "form.segments": 8}


def test_a_job_as_new_writes_it_with_its_empty_sections_is_changed_line_by_line(tmp_path: Path):
    job = tmp_path / "my hoop.toml"
    sizes = {
        "form.outer_diameter": 250,
        "form.tube_diameter": 54,
        "form.wedge_rings": 18,
        "form.segments": 10,
    }
    job.write_text(starter({"name": "my-hoop", **sizes}), "utf-8")
    text = job_text(toml_source.read(job), job, {"form.segments": 8}, "my hoop-18x8")
    assert text.replace("segments = 8 ", "segments = 10 ").replace(
        "my-hoop-18x8", "my-hoop"
    ) == job.read_text("utf-8")


def test_a_core_of_a_job_in_inches_is_typed_in_inches_and_no_smaller():
    assert typed(22.0, "in") == "0.867 in"
    assert typed(22.001, "mm") == 22.01


def test_keys_are_changed_wherever_they_stand_and_a_default_is_written_in_its_section(tmp_path: Path):
    job = tmp_path / "hoop.toml"
    before = """form.outer_diameter = 250
form.tube_diameter = 54
form.wedge_rings = 18  # of pear
form."segments" = 10
form.core_opening = 20

[layup]
plies = [
    ["maple", 3],  # light
    ["walnut", 2],
]

# as it came
[saw]
kerf = 2.5
"""
    job.write_text(before, "utf-8")
    changes = {"form.segments": 12, "form.core_opening": 22.5, "layup.mirrored": "none", "saw.kerf": 3}
    text = job_text(toml_source.read(job), job, changes, "hoop-18x12")
    after = before.replace("= 10", "= 12").replace("= 20", "= 22.5").replace("kerf = 2.5", "kerf = 3")
    assert text == after.replace("[layup]", '[layup]\nmirrored = "none"')
