"""A layup's jigs as parts: whole jobs with several angles, planes and mirrorings, their files, their refusals."""

from __future__ import annotations

import io
import os
import re
import shutil
from contextlib import contextmanager
from functools import cache
from math import degrees, radians
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.files import Files
from jigs.dryfit.layup import endings, layup_checks
from jigs.dryfit.layup_sleds import Sides
from jigs.files.formats import FORMATS
from jigs.forms.solve import solve
from jigs.parts.coding import settled
from jigs.parts.places import SAW_CAUTION
from jigs.parts.probes import EdgeAngle, HoleDiameter
from jigs.parts.processes import as_made
from jigs.parts.readback import measure
from jigs.stages.layup.parts.whole import layup
from jigs.words.findings import Refused
from tests.jigs.inspection import faults, text_of
from tests.jigs.redrawn import redraw
from tests.jigs.set_files import in_set

CONFIGS = Path(__file__).parents[3] / "configs"
PLIES = '[["maple", "3 mm"], ["walnut", "1.5 mm"], ["black", "0.6 mm", "#202020"]]'
JOBS = {
    "diamonds": ("garland", "angle = 35"),
    "flat angle": ("garland", "angle = 20\nmirrored = 'none'"),
    "steep": ("garland", "angle = 78\nturned = true"),
    "plies along the flat": ("garland", "angle = 0\nmirrored = 'up and down'"),
    "plies across the flat": ("garland", "angle = 90\nmirrored = 'left and right'"),
    "ends": ("garland", "angle = 45\nplane = 'end'\nmirrored = 'up and down'"),
    "faces": ("garland", "angle = 60\nplane = 'face'\nmirrored = 'left and right'\nsanding = 0.5"),
    "inches": ("quoit", "angle = 50\nmirrored = 'up and down'"),
    "vessel": ("sorrel", "angle = 40\nrings = [4, 5]"),
    "vessel in inches": ("tumbler", "angle = 30\nmirrored = 'none'\nrings = [5]"),
}
each_job = pytest.mark.parametrize("name", JOBS)


@pytest.fixture(scope="session")
def shelf(tmp_path_factory):
    """A folder with what the jobs refer to."""
    folder = tmp_path_factory.mktemp("layup")
    for file in ("shed.toml", "tumbler.dxf"):
        shutil.copy(CONFIGS / file, folder / file)
    return folder


def written_job(folder, name, demo, lines, more="", edit=("\n", "\n")):
    text = (CONFIGS / f"{demo}.toml").read_text("utf-8").replace(*edit)
    file = folder / f"{name.replace(' ', '-')}.toml"
    file.write_text(f"{text}\n[layup]\nplies = {PLIES}\n{lines}\n{more}", "utf-8")
    return load(file)


@cache
def plan_of(shelf, name):
    return solve(written_job(shelf, name, *JOBS[name]))


@cache
def parts_of(shelf, name):
    return layup(plan_of(shelf, name))


@pytest.fixture(scope="module")
def good(shelf, tmp_path_factory):
    """The files of one job, one of which a test may change as long as it puts it back."""
    return written(parts_of(shelf, "diamonds"), tmp_path_factory.mktemp("good"))


@contextmanager
def changed(file):
    """Put a file back as it was, its time too, so that what was read of it is still known."""
    content, times = file.read_bytes(), file.stat()
    try:
        yield
    finally:
        file.write_bytes(content)
        os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))


def written(parts, folder):
    for part in parts:
        form = FORMATS[part.process]
        file = folder / form.file_name(part, folder.name)
        file.parent.mkdir(parents=True, exist_ok=True)
        form.write(part, file, 0.0)
    return folder


@each_job
def test_every_part_can_be_made_and_measures_back(shelf, name):
    parts = parts_of(shelf, name)
    assert len({part.name for part in parts}) == len(parts) >= 17
    assert {part.family for part in parts} == {"layup"}
    for part in parts:
        assert faults(part) == []
        assert part.purpose
        assert len({d.name for d in part.dimensions}) == len(part.dimensions)
        content = io.BytesIO()
        FORMATS["cut"].write(part, content, 0.0)
        content.seek(0)
        assert measure(part, FORMATS["cut"].read(content, 0.0))


def test_on_paper_they_measure_back_too(shelf):
    name = "faces"
    plan = plan_of(shelf, name)
    for part in parts_of(shelf, name):
        paper = as_made(part, "paper", plan.job.workshop)
        content = io.BytesIO()
        FORMATS["paper"].write(paper, content, 0.0)
        content.seek(0)
        assert measure(paper, FORMATS["paper"].read(content, 0.0))


@each_job
def test_the_sleds_say_their_angle_pitch_and_cautions(shelf, name):
    plan = plan_of(shelf, name)
    for own, jigs in zip(plan.layups, plan.layup_jigs, strict=True):
        parts = {part.name: part for part in parts_of(shelf, name)}
        base, trim = parts[f"layup-base{jigs.suffix}"], parts[f"layup-trim-base{jigs.suffix}"]
        angle = next(d for d in base.dimensions if isinstance(d.probe, EdgeAngle))
        assert angle.value == pytest.approx(degrees(own.way.cut_angle))
        assert jigs.sled.pitch == pytest.approx(own.way.pitch)
        assert any(isinstance(d.probe, HoleDiameter) and "pin" in d.name for d in base.dimensions)
        for part in (base, trim):
            assert " ".join(SAW_CAUTION) in text_of(part).replace(",", "")
        assert "PIN OUT BEFORE THE CUT" in text_of(base).replace(",", "")
        assert "WASTE SIDE STAYS FREE" in text_of(trim)


def test_only_sides_that_are_glued_to_their_mirror_image_have_a_holder(shelf):
    def holders(name):
        return {part.name[-1] for part in parts_of(shelf, name) if "sanding-pocket" in part.name}

    assert holders("diamonds") == {"a", "b"}
    assert holders("flat angle") == set()
    assert holders("ends") == {"b"}
    assert holders("faces") == {"a"}


def test_jigs_of_a_second_size_end_in_its_number(shelf):
    plan = plan_of(shelf, "vessel")
    assert [jigs.suffix for jigs in plan.layup_jigs] == ["", "-2"]
    names = [part.name for part in parts_of(shelf, "vessel")]
    assert {"layup-base", "layup-base-2", "layup-sanding-pocket-a-2", "layup-tray-fence-b-2"} <= set(names)


def test_square_ends_need_no_slanted_stop(shelf):
    for name, wanted in (("plies along the flat", False), ("diamonds", True)):
        assert ("layup-slanted-stop" in {p.name for p in parts_of(shelf, name)}) == wanted


def refusal(shelf, name, demo, lines, more="", edit=("\n", "\n")):
    with pytest.raises(Refused) as caught:
        solve(written_job(shelf, name, demo, lines, more, edit))
    return {finding.code: finding for finding in caught.value.findings}


def test_pieces_too_short_to_hold_are_refused_with_a_mirroring_that_works(shelf):
    lines = "angle = 30\nrings = [5]\n"
    found = refusal(shelf, "short", "tumbler", lines)["layup-piece-short"]
    assert found.key == "layup.mirrored"
    works = re.match(r'mirrored = "([a-z ]+)" would do', found.remedy)
    solve(written_job(shelf, "long", "tumbler", f"{lines}mirrored = '{works[1]}'"))


def test_a_cut_too_slanted_for_a_sled_is_refused_with_the_nearest_angles(shelf):
    """Pieces more than four times as long as high, which are sawn along their long side."""
    lines, wide = (
        "mirrored = 'up and down'\nstacking = 'square'\nrings = [5]\n",
        ("segments = 12", "segments = 8"),
    )
    found = refusal(shelf, "slanted", "sorrel", f"{lines}angle = 13", edit=wide)["layup-angle"]
    assert found.key == "layup.angle"
    assert "0 or 15 degrees" in found.remedy
    for angle in (0, 15):
        solve(written_job(shelf, f"less-{angle}", "sorrel", f"{lines}angle = {angle}", edit=wide))


def test_a_stack_that_only_the_bandsaw_reaches_through_is_refused(shelf):
    """A layup's sleds run in a table saw's slot."""
    saws = "[saw]\nblade_height = 30\n[bandsaw]\nheight = 200\n[cutting]\nsegments = 'bandsaw'\n"
    saws += "wedge_rings = 'bandsaw'\n"
    found = refusal(shelf, "deep", "garland", "angle = 35", saws)["stack-too-tall"]
    assert found.key == "saw.blade_height"
    assert "a table saw whose blade_height is at least" in found.remedy


def test_a_sled_wider_than_the_throat_is_refused(shelf):
    found = refusal(shelf, "throat", "garland", "angle = 35", "[saw]\nthroat = 320\n")
    assert found["throat"].key == "saw.throat"


def wanted(plan):
    """The pieces as the plan has them."""
    return [
        Sides(one.layup.a, one.layup.b, jigs.tray.columns, jigs.tray.rows, one.sanding, one.layup.depth)
        for one, jigs in zip(plan.layups, plan.layup_jigs, strict=True)
    ]


@pytest.mark.parametrize("name", ["diamonds", "plies along the flat", "ends", "faces", "inches", "vessel"])
def test_written_files_fit_the_job(shelf, name, tmp_path):
    plan = plan_of(shelf, name)
    files = Files.of(plan.job, written(parts_of(shelf, name), tmp_path))
    found = layup_checks(plan.job, files, wanted(plan))
    assert len(endings(files)) == len(plan.layups)
    assert len(found) > 60
    assert [check for check in found if not check.fits] == []


def edited(change):
    def edit(file):
        redraw(file, change)

    return edit


def moved_drill(dx):
    def change(space):
        pin = min(space.query("CIRCLE"), key=lambda c: abs(c.dxf.radius - 3.0))
        pin.dxf.center = (pin.dxf.center.x + dx, pin.dxf.center.y, 0)

    return edited(change)


def turned(pick, angle):
    def change(space):
        for line in pick([e for e in space.query("LWPOLYLINE") if e.closed]):
            line.rotate_z(radians(angle))

    return edited(change)


def stretched(factor):
    def change(space):
        for line in space.query("LWPOLYLINE"):
            if line.closed:
                points = [(x * factor, y, b) for x, y, b in line.get_points("xyb")]
                line.set_points(points, format="xyb")

    return edited(change)


def named(name, dx):
    def change(space):
        for line in space.query("LWPOLYLINE"):
            if line.has_xdata("JIGS") and line.get_xdata("JIGS")[0].value == name:
                line.translate(dx, 0, 0)

    return edited(change)


SPOILT = {
    "the pin 0.2 mm off": ("layup-base", moved_drill(0.2)),
    "the fence 0.05 degrees off": ("layup-base", turned(lambda all_: all_[1:], 0.05)),
    "a stop 0.4 mm off": ("layup-square-stop-a", moved_drill(0.4)),
    "a stop longer": ("layup-square-stop-b", stretched(0.995)),
    "the slanted edge off": ("layup-slanted-stop", stretched(0.995)),
    "the trim fence off square": ("layup-trim-base", turned(lambda all_: all_[1:], 0.05)),
    "a seam off the middle": ("layup-tray", named("seam", 0.2)),
    "the outline too far": ("layup-tray", named("outline as glued", 0.2)),
    "the strips' joints off": ("layup-tray", named("strips meet", 0.2)),
    "a pocket too deep": ("layup-sanding-pocket-a", edited(lambda space: _deeper(space))),
    "notches too wide": ("layup-left-gauge-b", stretched(1.01)),
    "a fence too long for its slots": ("layup-fence", stretched(1.01)),
}


def _deeper(space):
    outline = max((e for e in space.query("LWPOLYLINE") if e.closed), key=lambda e: len(e))
    points = [(x, y + 0.2 if y > 5 else y, b) for x, y, b in outline.get_points("xyb")]
    outline.set_points(points, format="xyb")


@pytest.mark.parametrize("fault", SPOILT)
def test_a_file_that_is_slightly_wrong_does_not_fit(shelf, good, fault):
    plan = plan_of(shelf, "diamonds")
    name, spoil = SPOILT[fault]
    file = in_set(good, f"cut/{name}.dxf")
    with changed(file):
        spoil(file)
        found = layup_checks(plan.job, Files.of(plan.job, good), wanted(plan))
    assert [check for check in found if not check.fits]


def test_files_for_other_pieces_do_not_fit(shelf, good):
    plan = plan_of(shelf, "diamonds")
    (one,) = wanted(plan)
    other = Sides(one.a + 0.2, one.b, one.columns, one.rows, one.sanding, one.height)
    found = layup_checks(plan.job, Files.of(plan.job, good), [other])
    assert any(not check.fits for check in found)


@pytest.mark.parametrize(("name", "says"), [("diamonds", "FACE 1 ↓"), ("vessel", "UP ↑"), ("faces", None)])
def test_the_tray_says_which_way_a_block_is_up_and_says_it_upright(shelf, name, says):
    for part in parts_of(shelf, name):
        if part.name.startswith("layup-tray") and "fence" not in part.name:
            told = [mark for mark in settled(part, "").marks if hasattr(mark, "text")]
            marked = [mark for mark in told if "FACE 1 ↓" in mark.text or "UP ↑" in mark.text]
            assert bool(marked) == bool(says)
            assert all(says in mark.text and mark.angle == 0 for mark in marked)
