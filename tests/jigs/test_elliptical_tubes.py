"""A torus whose tube is an ellipse, from the job file to the dry fit; the ellipse's own equations judge it."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from stl import mesh as stl_mesh

from jigs.asked.job import Form, TorusJob
from jigs.asked.jobfile import load, parse
from jigs.compare.torus import ranked
from jigs.compare.wish import Wish
from jigs.dryfit.torus import dry_fit
from jigs.forms.assemblies import assemblies
from jigs.forms.solve import shaped, solve
from jigs.forms.work import work
from jigs.looks.form import form_of
from jigs.page.drawing import handles_of
from jigs.plans.torus import TorusPlan
from jigs.sets.measured import measured
from jigs.sets.rack import draw, rack
from jigs.stages.gauging.solve.torus import solve_gauges
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import show_length
from tests.jigs.inspection import faults
from tests.jigs.random_jobs import job_texts
from tests.jigs.set_files import in_set
from tests.jigs.shops import CONFIGS
from tests.jigs.test_random_jobs import depth_in_ring, outcome, ring_corners, sanded, tries
from tests.unset import jigs_made

FLAT, TALL = 46.0, 58.0  # heights of the garland's tube, which is 54 wide


def oval(high: float, folder: Path, more: str = "") -> TorusJob:
    """The garland with a tube so high."""
    text = (
        (CONFIGS / "garland.toml")
        .read_text("utf-8")
        .replace("[form]", f"[form]\ntube_height = {high}\n{more}")
    )
    shed = (CONFIGS / "shed.toml").read_text("utf-8")
    (folder / "shed.toml").write_text(shed, "utf-8")
    (folder / "oval.toml").write_text(text, "utf-8")
    job = load(folder / "oval.toml")
    assert isinstance(job, TorusJob)
    return job


@pytest.fixture(scope="module", params=["flat"])
def made(request, tmp_path_factory, set_of):
    if request.param == "tall":
        return set_of("annulet")
    folder = tmp_path_factory.mktemp("oval")
    job = oval(FLAT, folder)
    return job, jigs_made(job, folder)


@pytest.fixture(scope="module")
def planned(tmp_path_factory) -> TorusPlan:
    plan = solve(oval(FLAT, tmp_path_factory.mktemp("oval")))
    assert isinstance(plan, TorusPlan)
    return plan


def on_tube(form: Form, off: float = 0.0) -> np.ndarray:
    """Places of the ellipse by its parameter, so far outside it along its normals."""
    a, b, t = form.tube_diameter / 2, (form.tube_height or 0) / 2, np.linspace(0, 2 * math.pi, 1441)
    normals = np.column_stack((b * np.cos(t), a * np.sin(t)))
    return np.column_stack((a * np.cos(t), b * np.sin(t))) + off * normals / np.hypot(*normals.T)[:, None]


def test_every_jig_of_it_fits_what_it_is_for(made):
    """Those of a tall one in tests/jigs/test_dry_fit_examples.py."""
    found = dry_fit(*made, sheets=False)
    assert not found.misfits + found.faults
    assert not found.notes


@pytest.mark.parametrize("made", ["flat", "tall"], indirect=True)
def test_the_dry_fit_tells_a_height_that_is_a_little_out(made):
    """A tenth of a millimetre more of the tube's height, half of it over and half under, is twice what it lets pass."""
    job, folder = made
    assert job.form.tube_height is not None
    off = replace(job, form=replace(job.form, tube_height=job.form.tube_height + 0.1))
    where = {check.where for check in dry_fit(off, folder, sheets=False).misfits}
    gauges = {
        f"{side}-gauge-{stage}" for side in ("outer", "hole") for stage in ("stage-1", "stage-2", "finished")
    }
    standing = {f"standing-gauge-{name}" for name in ("a-outer", "a-inner", "c-inner", "d-outer")}
    assert {*gauges, *standing, "channel"} <= where


def test_the_dry_fit_takes_no_round_gauge_for_an_ellipse(made):
    job, folder = made
    round_ = replace(job, form=replace(job.form, tube_height=None))
    where = {check.where for check in dry_fit(round_, folder, sheets=False).misfits}
    assert {"outer-gauge-finished", "hole-gauge-finished", "retainer", "channel"} <= where


def test_a_gauge_that_is_out_in_one_place_does_not_fit(made):
    job, folder = made
    file = in_set(folder, "print/outer-gauge-finished.stl")
    good = file.read_bytes()
    space = stl_mesh.Mesh.from_file(str(file))
    middle = 0.74 * job.form.tube.wide, 0.68 * job.form.tube.high
    near = np.hypot(*(space.vectors[..., k] - at for k, at in enumerate(middle))) < 4.0
    assert near.any()
    space.vectors[near] += (0.1, 0.0, 0.0)
    space.save(str(file))
    try:
        found = dry_fit(job, folder, sheets=False)
        assert "outer-gauge-finished" in {check.where for check in found.misfits}
    finally:
        file.write_bytes(good)


def oval_texts() -> st.SearchStrategy[str]:
    """Job files whose tubes are flat or tall."""
    shares = st.sampled_from((0.67, 0.8, 0.95, 1.1, 1.25, 1.49))
    return st.tuples(job_texts(), shares).map(lambda drawn: higher(*drawn))


def higher(text: str, share: float) -> str:
    wide = re.search(r'tube_diameter = "?([\d.]+)', text)
    assert wide is not None
    high = max(5.0, share * float(wide[1]))
    return text.replace("[form]\n", f'[form]\ntube_height = "{high:.3f} mm"\n')


@tries(15)
@given(oval_texts())
def test_an_ellipse_is_refused_with_a_remedy_or_all_its_parts_can_be_made_and_its_blank_holds_it(text):
    job = parse(text, "oval.toml")
    found = outcome(job)
    if isinstance(found[0], Finding):
        assert all(finding.remedy for finding in found)
        return
    plan, parts = found
    assert [fault for part in parts for fault in faults(part)] == []
    corners = ring_corners(plan.segment.outer_edge - sanded(job.form), plan)
    half = math.pi / job.form.wedge_rings
    phi = np.linspace(-half, half, 41)[:, None]
    x, z = on_tube(job.form, job.form.turning_allowance).T
    out = (job.form.major_radius + x)[None, :] * np.cos(phi)
    places = np.stack((out, 0 * out, np.broadcast_to(z, out.shape)), axis=-1).reshape(-1, 3)
    spare = depth_in_ring(places, corners).min()
    assert spare >= -2e-3
    assert job.form.ring_across_flats is not None or spare < 0.02, "a smaller ring would hold it too"


def test_the_work_tells_width_and_height_and_roughs_by_the_gauges(planned):
    told = {op.id: op for op in work(planned, rack(planned)[0]).operations}
    assert not any("flats" in id for id in told)
    rough = told["roughing.ellipse-stage-1"]
    assert {use.part for use in rough.jigs} == {"outer-gauge-stage-1", "hole-gauge-stage-1"}
    values = {q.id: q.value for q in told["last_mounting.off"].checks[0].sizes}
    assert (values["tube"], values["tube-high"]) == pytest.approx((54.0, FLAT))
    face = next(q for q in told["roughing.sizes"].settings if q.id == "face")
    first = planned.mountings.first.centre_height
    assert face.value == pytest.approx(first + FLAT / 2 + planned.gauges.stages[0].offset)


@pytest.mark.parametrize("high", [FLAT, TALL])
def test_the_standing_gauges_are_shimmed_by_the_height_of_the_tube_not_its_width(high, tmp_path):
    """The middle, from what can be measured in the first mounting: the face over the board, and the tube's width."""
    plan = solve(oval(high, tmp_path))
    assert isinstance(plan, TorusPlan)
    told = {op.id: op for op in work(plan, rack(plan)[0]).operations}
    standing = {known.id: known.value for known in told["gauging.standing"].known}
    sizes = {one.id: float(one.value) for one in told["gauging.finished"].settings if one.kind == "calliper"}
    off = float(standing["out-of-round"]) * (1 if high > sizes["tube"] else -1)
    assert sizes["face"] - sizes["tube"] / 2 - off == pytest.approx(standing["centre"], abs=0.005)
    assert ("higher" if high > sizes["tube"] else "lower") in " ".join(told["gauging.standing"].how)


def test_the_parts_are_lettered_with_width_and_height(planned):
    parts = {part.name: part for part in rack(planned)[0]}
    assert "flats-gauge" not in parts
    letters = " ".join(mark.text for mark in parts["outer-gauge-finished"].marks if hasattr(mark, "text"))
    assert "54.7" in letters
    assert "46.7" in letters
    assert "HIGH" in letters


def test_the_work_put_together_with_its_boards_is_turned_to_the_ellipse(planned):
    last = next(one for one in assemblies(planned, rack(planned)[0]) if one.name == "mounting-d")
    ring = next(part for part, _ in last.members if part.name == "wedge-ring")
    assert ring.turned is not None
    arcs = [edge for edge in ring.turned.edges() if edge.is_arc]
    x, y = np.array([edge.point_at(t) for edge in arcs for t in (0.0, 0.3, 0.7)]).T
    level = np.hypot((x - planned.job.form.major_radius) / 27, y / (FLAT / 2))
    assert level == pytest.approx(1.0, abs=2e-4)
    assert len(arcs) > 20


def test_its_wood_and_its_surface_are_the_ellipses(planned):
    major = planned.job.form.major_radius
    ring = shapely.Polygon(on_tube(planned.job.form))
    assert planned.torus_volume == pytest.approx(2 * math.pi * major * ring.area, rel=1e-4)
    assert planned.torus_surface == pytest.approx(2 * math.pi * major * ring.length, rel=1e-4)


def test_pictures_show_the_ellipse(planned):
    meridian = form_of(planned).meridian
    points = meridian.at(meridian.chords(0.01)).points - (planned.job.form.major_radius, 0.0)
    level = np.hypot(points[:, 0] / 27, points[:, 1] / (FLAT / 2))
    assert level == pytest.approx(1.0, abs=2e-4)
    assert meridian.length == pytest.approx(shapely.LineString(on_tube(planned.job.form)).length, rel=1e-4)


def test_other_counts_are_estimated_as_they_are_planned(planned):
    form = planned.job.form
    wish = Wish((16, 18), (8, 10), (), ("",), "wood", 3, math.radians(0.05))
    found = ranked(planned.job, wish).found
    k = next(i for i in range(len(found)) if (found.wedge_rings[i], found.segments[i]) == (18, 10))
    assert found.apothem[k] == pytest.approx(planned.blank.apothem)
    assert found.centre[k] == pytest.approx(planned.blank.centre)
    assert found.wall[k] == pytest.approx(planned.wall)
    assert form.wedge_rings == 18


@pytest.mark.parametrize(
    ("unit", "tube", "high", "nearest"),
    [
        ("mm", 54, 30, "36.0 mm"),
        ("mm", 54, 100, "81.0 mm"),
        ("in", 1.5, 3, "2 1/4 in"),  # three halves of it, which binary fractions of mm fall just short of
        ("in", 3.375, 2, "2 1/4 in"),
        ("in", 2.0, 1, "1 11/32 in"),
    ],
)
def test_a_tube_too_far_from_round_is_refused_with_what_would_do(unit, tube, high, nearest):
    head = f'unit = "{unit}"\n[form]\nouter_diameter = "250 mm"\ntube_diameter = {tube}\n'
    head += 'wedge_rings = 18\nsegments = 10\ncore_opening = "10 mm"\n'
    with pytest.raises(Refused) as refused:
        parse(f"{head}tube_height = {high}", "oval.toml")
    (finding,) = refused.value.findings
    assert (finding.code, finding.key) == ("tube-out-of-round", "form.tube_height")
    assert nearest in finding.remedy
    within = parse(f'{head}tube_height = "{nearest}"', "oval.toml").form
    assert show_length(within.tube_height, unit) == nearest


def test_a_gauge_too_loose_for_a_slim_ellipse_is_refused(planned):
    """Its channel's curve is 2.65 squared over 3.7 at its tightest, 1.9 mm."""
    form = replace(planned.job.form, tube_diameter=7.4, tube_height=5.3)
    job = replace(planned.job, form=form, gauges=replace(planned.job.gauges, fit=1.9))
    channel = replace(planned.holding.channel, tube=form.tube, lining=0.0)
    with pytest.raises(Refused, match=r"curves by 1\.9 mm\. Use a fit of at most 0\.9 mm"):
        solve_gauges(job, replace(planned.holding, channel=channel))


def test_a_height_as_large_as_the_width_is_the_round_tube():
    head = "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 10\ncore_opening = 10\n"
    plain, same = (parse(head + more, "oval.toml") for more in ("", "tube_height = 54\n"))
    assert plain.form.tube == same.form.tube
    assert plain.form.tube.round


def read_with(folder: Path, readings: str) -> TorusPlan:
    """The flat one's plan with these readings beside its job file."""
    oval(FLAT, folder)
    (folder / "oval.readings.toml").write_text(readings, "utf-8")
    plan = solve(load(folder / "oval.toml"))
    assert isinstance(plan, TorusPlan)
    return plan


def test_a_first_side_turned_too_wide_is_taken_to_be_as_much_too_high(tmp_path):
    plan = read_with(tmp_path, "[sanding.first-side]\ntube = 54.3\nouter = 250.3\nhole = 141.7")
    assert plan.job.form.tube_height == pytest.approx(FLAT + 0.3)
    assert plan.holding.channel.hollow.high == pytest.approx(FLAT / 2 + 0.15, abs=1e-6)
    (found,) = measured(plan, draw(plan).parts, tmp_path / "out").advice
    assert any("height" in line for line in found.says)


def test_its_height_follows_from_its_face_and_its_middle_over_the_board(tmp_path):
    """A face 54.1 over the board and a middle 31.0 over it are a tube 46.2 high; the width is as planned."""
    side = "[sanding.first-side]\ntube = 54.0\nouter = 250.0\nhole = 142.0\nface = [54.1, 54.1]\n"
    plan = read_with(tmp_path, f"[first_mounting.glue]\ncentre = 31.0\n{side}")
    assert plan.job.form.tube_height == pytest.approx(46.2)
    assert plan.job.form.tube_diameter == 54.0
    assert plan.holding.channel.hollow.high == pytest.approx(23.1, abs=1e-6)
    (found,) = measured(plan, draw(plan).parts, tmp_path / "out").advice
    assert any("46.20 mm high, planned 46.00 mm" in line for line in found.says)
    plan = read_with(tmp_path, side)
    assert plan.job.form.tube_height == FLAT
    (found,) = measured(plan, draw(plan).parts, tmp_path / "out").advice
    assert "read its face, and centre in [first_mounting.glue]:" in found.says[-1]
    assert (found.verdict, len(found.says)) == ("unclear", 2), "not: make nothing anew"


def test_a_face_turned_too_low_counts_in_the_wall_before_sanding(tmp_path):
    """A round core's wall above it is the least of a flat tube's."""
    side = "[gauging.finished]\ntube = 54.5\nouter = 250.5\nhole = 141.5\nface = 53.75\n"
    walls = []
    for middle in (30.5, 31.5):
        plan = read_with(tmp_path, f"[first_mounting.glue]\ncentre = {middle}\n{side}")
        (found,) = measured(plan, draw(plan).parts, tmp_path / "out").advice
        walls.append(next(one.value for one in found.found if one.id == "wall"))
    assert found.verdict == "correct"
    assert any("Its face is 1.00 mm under the finished gauges" in line for line in found.says)
    assert 0.8 < walls[0] - walls[1] <= 1.0


def test_a_blank_too_small_names_a_smaller_ellipse_that_passes(tmp_path):
    """Its rim is 7 mm smaller than planned."""
    plan = read_with(tmp_path, "[first_mounting.flat]\nacross = 251.3\nhole = 133.5\nheight = 60.3")
    (found,) = measured(plan, draw(plan).parts, tmp_path / "out").advice
    offered = dict(re.findall(r'(\w+) = "([0-9.]+) mm"', " ".join(found.says)))
    assert offered.keys() == {"outer_diameter", "tube_diameter", "tube_height", "ring_across_flats"}
    assert float(offered["tube_diameter"]) - float(offered["tube_height"]) == pytest.approx(54 - FLAT)
    text = (tmp_path / "oval.toml").read_text("utf-8")
    for name, mm in offered.items():
        text, done = re.subn(rf"(?m)^{name} = .*$", f"{name} = {mm}", text)
        text = text if done else text.replace("[form]", f"[form]\n{name} = {mm}")
    (tmp_path / "oval.toml").write_text(text, "utf-8")
    assert solve(load(tmp_path / "oval.toml")).blank.apothem == pytest.approx(plan.blank.apothem, abs=0.01)


def test_its_height_can_be_dragged_on_the_page(planned):
    shape = shaped(planned.job)
    handle = next(one for one in handles_of(shape) if one.id == "tube-height")
    assert [way.key for way in handle.ways] == ["form.tube_height"]
    assert handle.y == pytest.approx(FLAT / 2)
