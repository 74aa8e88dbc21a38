"""Check proves all that make will need: every part is measured as its file will have it."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest

from geometry.plane.contour import Contour, circle, outline, rectangle
from jigs.asked.jobfile import load, parse
from jigs.cli import main
from jigs.files.formats import FORMATS
from jigs.files.mesh import DEVIATION
from jigs.files.stl import read_stl, unwritten_stl, write_stl
from jigs.files.written import prove_files
from jigs.forms.solve import solve
from jigs.parts.places import hang_hole, lettered_titled, place
from jigs.parts.readback import measure
from jigs.sets.rack import prove, rack
from jigs.words.findings import Refused
from tests.examples import parts_of_example
from tests.geometry.validity import problems

LARGE = """
[form]
outer_diameter = {}
tube_diameter = {}
wedge_rings = 12
segments = 24
core_opening = {}
[saw]
blade_height = 1000
blade_diameter = 2000
throat = 5000
[bandsaw]
height = 1500
throat = 5000
[lathe]
swing_over_bed = 4900
[printer]
bed = [2000, 2000]
[boards]
sheet = 60
"""


@pytest.mark.parametrize(("outer", "tube"), [(1200, 500), (2000, 800)])
def test_gauges_of_very_large_tubes_do_not_cross_themselves(monkeypatch, outer, tube):
    monkeypatch.setattr("jigs.forms.torus.solve.held_findings", lambda *_: [])  # too heavy for a bolt
    plan = solve(parse(LARGE.format(outer, tube, round(0.1 * tube)), "hoop.toml"))
    parts, _ = rack(plan, lean=True)  # a sled of sheet so thick has no room for its holes
    gauges = [part for part in parts if part.family == "gauges"]
    assert gauges
    for part in gauges:
        outlines = [part.outline, *([part.bevel.top] if part.bevel else [])]
        assert [fault for outline in outlines for fault in problems(outline)] == [], part.name
    prove_files(gauges, plan.job)


@pytest.mark.parametrize("kerf", [0, 0.2])
def test_a_cut_part_that_measures_right_without_its_kerf_neither_is_no_matter_of_the_cut(kerf, tmp_path):
    text = Path("configs/garland.toml").read_text("utf-8").replace('workshop_file = "shed"', "")
    (tmp_path / "hoop.toml").write_text(f"{text}\n[cutter]\nkerf = {kerf}\n", "utf-8")
    crossed = outline((0.0, 0.0), (50.0, 50.0), (50.0, 0.0), (0.0, 50.0))
    part = replace(next(p for p in parts_of_example("garland") if p.process == "cut"), outline=crossed)
    with pytest.raises(Refused) as refused:
        prove_files([part], load(tmp_path / "hoop.toml"))
    assert [finding.code for finding in refused.value.findings] == ["does-not-measure"]


def test_a_part_that_cannot_be_written_refuses_the_check(tmp_path, monkeypatch, capsys):
    job = load("configs/garland.toml")
    crossed = outline((0.0, 0.0), (50.0, 50.0), (50.0, 0.0), (0.0, 50.0))
    part = replace(
        next(p for p in parts_of_example("garland") if p.process == "print"), outline=crossed, bevel=None
    )
    with pytest.raises(Refused) as refused:
        prove_files([part], job)
    assert [finding.code for finding in refused.value.findings] == ["does-not-measure"]
    monkeypatch.setattr("jigs.sets.rack.rack", lambda plan, lean: ([part], []))
    assert main(["check", "configs/garland.toml"]) == 1
    assert part.name in capsys.readouterr().err


@pytest.mark.parametrize("kerf", [3.175, 6])
@pytest.mark.parametrize("command", ["check", "make"])
def test_a_cut_too_wide_for_the_jigs_is_refused_once_with_what_would_do(command, kerf, tmp_path, capsys):
    """A router's bit is as wide; its own program offsets the path, and measures right with 0."""
    text = Path("configs/garland.toml").read_text().replace('workshop_file = "shed"', "")
    (tmp_path / "hoop.toml").write_text(f"{text}\n[cutter]\nkerf = {kerf}\n")
    into = ["--into", str(tmp_path)] if command == "make" else []
    assert main([command, str(tmp_path / "hoop.toml"), *into]) == 1
    told = capsys.readouterr().err
    assert told.count("cutter.kerf: a cut") == 1
    assert "set it to 0" in told.lower()
    assert "tool's fault" not in told
    assert "fault of the tool" not in told


def strip(wide: float) -> Contour:
    return rectangle(0.0, 0.0, 40.0, wide)


@pytest.mark.parametrize(("wide", "radius"), [(12.0, 2.5), (8.0, 2.5), (6.0, 1.0), (5.0, 1.0)])
def test_a_narrow_plate_gets_a_smaller_hanging_hole_rather_than_none(wide, radius):
    hole = hang_hole(strip(wide), (), (20.0, 0.0))
    x0, y0, x1, y1 = hole.bounds
    assert (x1 - x0) / 2 == pytest.approx(radius)
    assert y0 > 0.7
    assert wide - y1 > 0.7
    assert x0 > 0


@pytest.mark.parametrize(
    ("wide", "row"), [(200, "A LONG TITLE OF A JOB, FENCE"), (60, "A LONG TITLE, FENCE"), (30, "FENCE")]
)
def test_a_plate_keeps_as_much_of_the_title_as_it_has_room_for(wide, row):
    (words,) = lettered_titled(rectangle(0, 0, wide, 8), (), "A LONG TITLE OF A JOB", ["FENCE"])
    assert [line.text for line in place(words)] == [row]


def test_a_torus_with_a_small_hole_is_not_refused_for_lettering():
    text = "outer_diameter = 160\ntube_diameter = 54\nwedge_rings = 8\nsegments = 8\ncore_opening = 10"
    proof = prove(parse(f'title = "A rather long title for it"\n[form]\n{text}', "hoop.toml"))
    assert proof.parts


def test_every_dimension_that_a_make_measures_is_proved(monkeypatch):
    job = load("configs/garland.toml")
    parts = parts_of_example("garland")
    measured = []
    monkeypatch.setattr(
        "jigs.parts.readback.measure", lambda part, readback: measured.append(part.dimensions) or ()
    )
    prove_files(parts, job)
    assert measured == [part.dimensions for part in parts]


@pytest.mark.parametrize("kerf", [0.0, 0.2])
@pytest.mark.parametrize("job", ["garland", "acorn"])
def test_what_is_measured_without_a_file_is_what_a_file_gives(job, kerf):
    for part in parts_of_example(job):
        form, file = FORMATS[part.process], BytesIO()
        if form is FORMATS["print"]:
            continue
        own = kerf if form.cut else 0.0
        form.write(part, file, own)
        file.seek(0)
        read, unwritten = form.read(file, own), form.unwritten(part, own)
        assert (unwritten.thickness, unwritten.tolerance) == (read.thickness, read.tolerance), part.name
        for mine, its in zip(unwritten.contours, read.contours, strict=True):
            assert (mine.vertices == its.vertices).all(), part.name


@pytest.mark.parametrize("job", ["garland", "acorn", "gourd", "tumbler"])
def test_a_print_measures_without_a_file_what_its_mesh_does_but_for_the_chords(job):
    """Each point of a mesh is off by a deviation at most, and most sizes have two ends."""
    for part in (part for part in parts_of_example(job) if part.process == "print"):
        bare, file = replace(part, marks=()), BytesIO()
        write_stl(bare, file)
        file.seek(0)
        read, unwritten = read_stl(file), unwritten_stl(bare)
        assert unwritten.tolerance + 2 * DEVIATION == pytest.approx(read.tolerance)
        for mine, its in zip(measure(bare, unwritten), measure(bare, read), strict=True):
            assert mine.measured == pytest.approx(its.measured, abs=2 * DEVIATION), (part.name, mine.name)


def test_a_cut_that_leaves_nothing_of_a_hole_refuses_the_check():
    job = load("configs/garland.toml")
    wide = replace(job, workshop=replace(job.workshop, cutter=replace(job.workshop.cutter, kerf=3.0)))
    part = next(part for part in parts_of_example("garland") if part.name == "sled-wedge")
    pierced = replace(part, holes=(circle(part.outline.centroid, 1.0).cw(),))
    prove_files([pierced], job)
    with pytest.raises(Refused, match=part.name):
        prove_files([pierced], wide)
