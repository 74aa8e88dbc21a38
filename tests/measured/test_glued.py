"""Rings that are glued already stay as they were measured; the others are planned round them."""

import re
import shutil
from dataclasses import replace
from math import cos, degrees, radians, sin, tan
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.torus import dry_fit
from jigs.figures.svg import figure_svg
from jigs.forms.solve import solve
from jigs.forms.vessel.shaped import formed
from jigs.forms.work import work
from jigs.measured.glued import glued_advice
from jigs.measured.ring_sizes import rings_advice
from jigs.measured.vessel import vessel_advice
from jigs.paper.strips import strips_of
from jigs.paper.tape_labels import label_pages
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.remedies.offered import remedies
from jigs.sets.rack import draw
from jigs.stages.layup.solve.whole import vessel_layups
from jigs.stages.stack.solve.glued import as_glued
from jigs.stages.stack.solve.whole import solve_stack
from jigs.words.findings import Refused
from jigs.work.model import Operation
from tests.jigs.layup.layup_jobs import with_layup
from tests.jigs.shops import CONFIGS
from tests.measured.garland import with_readings
from tests.unset import jigs_made
from tests.work.reading import work_for

HALF = "[glued]\nrings = 9\nacross-flats = [61.3, 61.3]\nthick = [45.9, 45.88, 45.92]\ntogether = 180.6\n"
FOOT = "[glued]\nrings = 4\nheight = [21.0, 21.2, 20.9, 21.1]\nacross-flats = [84.5, 112.3, 139.8, 154.0]\n"
FOOT += 'opening = ["", 55.0, 76.5, 105.4]\n'


MADE = ("flat-segments", "flat_rings", "flattening", "ring_labels")


def torus(folder: Path, readings: str) -> TorusPlan:
    found = solve(load(with_readings(folder, readings)))
    assert isinstance(found, TorusPlan)
    return found


def vessel(folder: Path, readings: str) -> VesselPlan:
    found = solve(load(with_readings(folder, readings, "sorrel")))
    assert isinstance(found, VesselPlan)
    return found


def test_the_rings_of_a_half_beside_one_that_is_glued_are_those_of_a_plain_torus(tmp_path: Path):
    """Both halves are trued to the axis, so the new one is of 9 rings of 20 degrees, as far from the axis as the glued:
    by hand 45.9/(2 tan 10.033) - 30.65/cos 18; sanded 0.1 a face."""
    plan = torus(tmp_path, HALF)
    half_width = 30.65 / cos(radians(18))
    centre = 45.9 / (2 * tan(radians(180.6 / 18))) - half_width
    assert (plan.blank.apothem, plan.blank.centre) == (pytest.approx(30.65), pytest.approx(centre))
    outer = centre + half_width + 0.1 / sin(radians(10))
    assert plan.ring_cut.thick_edge == pytest.approx(2 * outer * tan(radians(10)))
    assert degrees(plan.ring_cut.wedge_angle) == pytest.approx(10)
    assert degrees(plan.check.angle) == pytest.approx(80)
    (told,) = glued_advice(plan)
    assert "Cut rings 1 to 9 to a thick edge of 45.9" in " ".join(told.says)


@pytest.mark.parametrize("together", [180.6, 179.6])
def test_a_glued_half_that_is_out_is_trued_and_what_that_takes_is_shown(tmp_path: Path, together: float):
    """The end faces turned by half the error about the axis: their edges, by rotation of the face's corners."""
    plan = torus(tmp_path, f"[glued]\nrings = 9\ntogether = {together}\n")
    told = operations(plan)["glue_up.true-halves"]
    off = {one.id: one.value for one in told.known if one.id.startswith("glued.")}
    lean = radians(together - 180) / 2
    corners = [r / cos(radians(10)) for r in (plan.blank.inner_radius, plan.blank.outer_radius)]
    depths = [(r * np.exp(1j * -lean)).imag for r in corners]  # of hole and rim, over the axis
    line = max(0.0, *depths)
    assert off == pytest.approx({"glued.hole": line - depths[0], "glued.rim": line - depths[1]})
    assert told.pieces == 2
    (advice,) = glued_advice(plan)
    assert "True the half with the glued rings as the new one" in " ".join(advice.says)


@pytest.mark.parametrize(("rings", "together", "out"), [(8, 160.5, 0.5), (4, 79.6, -0.4), (12, 240.8, 0.6)])
def test_beside_any_count_of_glued_rings_the_others_are_those_of_a_plain_torus(
    tmp_path: Path, rings: int, together: float, out: float
):
    """Both halves are trued to the axis. Of 12 rings 9 are in one half, which is out by three quarters of 0.8."""
    plan = torus(tmp_path, f"[glued]\nrings = {rings}\ntogether = {together}\n")
    assert degrees(plan.ring_cut.wedge_angle) == pytest.approx(10)
    assert degrees(plan.check.angle) == pytest.approx(80)
    told = operations(plan)
    apart = "apart at the joint of rings 9 and 10" in " ".join(told["glue_up.dry"].how)
    assert apart == (rings > 9)  # in one piece, they are no half
    off = {one.id: one.value for one in told["glue_up.true-halves"].known}
    face = (plan.blank.outer_radius - plan.blank.inner_radius) / cos(radians(10))
    over = off["glued.rim"] - off["glued.hole"]
    assert over == pytest.approx(face * np.sin(radians(out / 2)))
    assert min(off["glued.rim"], off["glued.hole"]) >= 0


def test_the_cut_list_leaves_glued_rings_out(tmp_path: Path):
    plan = torus(tmp_path, HALF)
    assert sum(lot.count for lot in plan.wood.lots) == 9 * plan.blank.segments
    told = {one.id: one for one in work_for(plan).operations}
    assert told["wedge_rings.first"].rings == tuple(range(1, 10))
    assert told["wedge_rings.first"].pieces == 9
    assert sorted((*told["wedge_rings.second"].rings, *told["wedge_rings.ends"].rings)) == list(range(1, 10))
    assert any("rings 10 to 18 are glued already" in note.message for note in plan.notes)


def operations(plan: TorusPlan) -> dict[str, Operation]:
    return {one.id: one for one in work(plan, draw(plan).parts).operations}


def test_the_work_round_a_glued_half_is_that_of_the_other_half_and_of_two_joints(tmp_path: Path):
    """9 rings of 10 segments and one to spare; of 18 joints between rings the glued half has 8."""
    plan = torus(tmp_path, HALF)
    told = operations(plan)
    own = {one.rings[-1] for one in told.values() if one.rings and not one.id.startswith("glue_up.")}
    assert own == {7 + 1, 9}
    pieces = {"rings.close": 10, "labels.stick": 9, "wedge_rings.first": 9, "wedge_rings.ends": 2}
    pieces |= {"glue_up.faces": 9, "glue_up.halves": 1, "glue_up.true-halves": 2, "glue_up.dry": 18}
    assert {id: told[id].pieces for id in pieces} == pieces
    ends = {one.id: one.value for one in told["wedge_rings.ends"].settings if one.id.startswith("face-")}
    assert ends == {"face-1": "ring 1", "face-2": "ring 9"}
    faces = {of.name: of.count for of in plan.wood.glue.faces}
    assert faces == {"mitres": 10 * 10, "wedge faces": 18 - 8}
    assert [strip.rings for strip in strips_of(plan)] == [tuple(range(1, 10))]
    (page,) = label_pages(plan)
    assert re.findall(r"(?:SPARE )?RING(?: \d+ of 18)?", figure_svg(page)) == [
        *(f"RING {k} of 18" for k in range(1, 10)),
        "SPARE RING",
    ]


def test_rings_glued_as_they_were_planned_need_no_sizes(tmp_path: Path):
    """Of a blank that holds just its allowance; fewer than a half are in one."""
    plan = torus(tmp_path, "[glued]\nrings = 4\n")
    assert plan.blank == torus(tmp_path, "").blank
    told = operations(plan)
    assert (told["glue_up.faces"].pieces, told["glue_up.halves"].pieces) == (14, 2)
    assert not [one.id for one in told["glue_up.true-halves"].known if one.id.startswith("glued.")]
    assert "Rings 15 to 18: there already" in " ".join(told["glue_up.halves"].how)


@pytest.mark.parametrize(
    ("example", "readings"),
    [("gourd", "rings = 2"), ("garland", "rings = 18"), ("garland", "rings = 9\ntogether = 184")],
)
def test_no_other_job_is_offered_for_what_is_wrong_with_glued_wood(
    tmp_path: Path, example: str, readings: str
):
    """A bottle whose lower half is there is not built in one, nor is a torus of 20 rings."""
    file = with_readings(tmp_path, f"[glued]\n{readings}\n", example)
    assert remedies(toml_source.read(file), file) is None
    with pytest.raises(Refused):
        solve(load(file))


def test_a_layup_is_made_for_the_rings_that_are_not_glued(tmp_path: Path):
    for file in ("trellis", "shed"):
        shutil.copy(CONFIGS / f"{file}.toml", tmp_path)
    (tmp_path / "trellis.readings.toml").write_text("[glued]\nrings = 7\n", "utf-8")
    (none,), (some,) = (solve(load(of / "trellis.toml")).layups for of in (CONFIGS, tmp_path))
    assert (none.blocks, some.blocks) == (
        pytest.approx(14 * 6 * 1.2, rel=0.1),
        pytest.approx(7 * 6 * 1.2, rel=0.1),
    )


@pytest.mark.parametrize(("glued", "rings"), [(2, [(3,), (6,)]), (4, [(6,)]), (9, [])])
def test_a_layup_of_a_vessel_is_made_for_the_rings_that_are_not_glued(
    tmp_path: Path, glued: int, rings: list[tuple[int, ...]]
):
    """Rings 2, 3 and 6 have it, each of 12 segments of its own size and 4 to spare; both halves of all are glued."""
    job = load(with_readings(tmp_path, f"[glued]\nrings = {glued}\n", "sorrel"))
    assert isinstance(job, VesselJob)
    plan = solve(replace(with_layup(job, rings=(2, 3, 6)), reversing=replace(job.reversing, hold="none")))
    assert [layup.rings for layup in plan.layups] == rings
    told = {one.id: one.pieces for one in work(plan, draw(plan).parts).operations}
    assert sum(count for id, count in told.items() if id.startswith("layup.blocks")) == 16 * len(rings)
    sixth = plan.stack.layers[5].cut
    layers = tuple(replace(la, cut=la.cut and sixth) for la in plan.stack.layers)
    made = vessel_layups(plan.job, replace(plan.stack, layers=layers), {12: 70.0})
    assert [layup.segments for layup in made] == [12 * len(rings)] * bool(rings)  # all of one size
    with pytest.raises(Refused, match="there are no segments in ring 10 for a layup"):
        solve(with_layup(job, rings=(2, 10)))


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ("[glued]\nrings = 18", "the readings have 18 wedge rings glued, and 18 close the torus"),
        (
            "[glued]\nrings = 17\ntogether = 180",
            r"the 17 glued rings close 180\.00°: truing .* until they close 340°",
        ),
        (
            "[glued]\nrings = 8\ntogether = 163",
            r"163\.00°: .* off an end\. Measure .*saw their ends until they close 160°",
        ),
        (
            HALF.replace("180.6", "182"),
            r"182\.00°: truing .* takes 2\.28 mm off an end\. Measure .*saw their ends",
        ),
        (
            HALF.replace("180.6", "177"),
            r"177\.00°: .* and 3\.\d+ mm of the wood round the tube .*a thicker ring",
        ),
        (HALF.replace("[61.3, 61.3]", "59.0"), "of wood round the tube, and the allowance is"),
        ("[glued]\nrings = 10\nthick = 45.6", "planned one: across-flats was not read"),
    ],
)
def test_glued_wedge_rings_that_nothing_fits_are_refused_with_the_reason(
    tmp_path: Path, readings: str, told: str
):
    with pytest.raises(Refused, match=told):
        torus(tmp_path, readings)


def test_a_glued_half_read_as_the_book_shows_it_is_one_as_planned(tmp_path: Path):
    """To two decimals its rings lack 0.03 mm of the allowance, less than a calliper tells."""
    read = "[glued]\nrings = 9\nthick = 45.68\nacross-flats = 61\ntogether = 180"
    found, planned = torus(tmp_path, read), torus(tmp_path, "[glued]\nrings = 9")
    assert found.blank.centre == pytest.approx(planned.blank.centre)
    assert found.ring_cut.thick_edge == pytest.approx(planned.ring_cut.thick_edge)


def test_beside_glued_rings_no_order_of_all_is_asked_for(tmp_path: Path):
    read = f"[glued]\nrings = 9\n[glue_up.faces]\nthick = {[46.2, *[45.7] * 7, 46.2]}"
    assert list(rings_advice(torus(tmp_path, read))) == []


@pytest.mark.parametrize("count", [2.5, 0, -1])
def test_a_count_of_glued_rings_that_is_none_is_pointed_out(tmp_path: Path, count: float):
    """It is no size, and is not called one."""
    proof = draw(torus(tmp_path, f"[glued]\nrings = {count}"))
    with pytest.raises(Refused, match="is not a number of rings"):
        work(proof.plan, proof.parts)


def test_a_set_round_a_glued_half_fits(tmp_path: Path):
    """Its first side turned, too: the blank as it was asked for, the lathe's jigs as it was turned."""
    readings = HALF + "[sanding.first-side]\ntube = 53.6\nouter = 249.6\nhole = 142.4\n"
    job = load(with_readings(tmp_path, readings))
    found = dry_fit(job, jigs_made(job, tmp_path / "out"), sheets=False, turned=solve(job).job)
    assert [check for check in found.checks if not check.fits] == []
    assert dry_fit(load(with_readings(tmp_path, "")), tmp_path / "out" / "garland", sheets=False).misfits


def test_glued_rings_of_a_vessel_stand_at_their_sizes_and_the_rest_follows(tmp_path: Path):
    """By hand: they end at 84.2 over the stack's foot, 0.2 over the plan, so ring 5 is as much thinner."""
    stack = vessel(tmp_path, FOOT).stack
    assert stack.glued == stack.stated == 4
    own = stack.layers[:4]
    assert [layer.ring.top for layer in own] == pytest.approx([18.0, 39.2, 60.1, 81.2])
    assert [2 * layer.ring.outer for layer in own] == pytest.approx([84.5, 112.3, 139.8, 154.0])
    assert [2 * layer.ring.core for layer in own[1:]] == pytest.approx([55.0, 76.5, 105.4])
    assert [layer.ring.bottom for layer in stack.layers[4:]] == pytest.approx([81.2, 102, 123, 144, 165])
    assert stack.layers[4].ring.height == pytest.approx(20.8)


def test_other_counts_and_heights_above_leave_the_glued_rings_alone(tmp_path: Path):
    job = with_readings(tmp_path, FOOT, "sorrel")
    text = job.read_text("utf-8").replace("heights = 21", "heights = [21, 21, 21, 21, 25]")
    job.write_text(text.replace("segments = 12", "segments = [12, 12, 12, 12, 16]"), "utf-8")
    plan = solve(load(job))
    assert [layer.ring.segments for layer in plan.stack.layers] == [12] * 4 + [16] * 4
    assert [layer.ring.top for layer in plan.stack.layers[:4]] == pytest.approx([18.0, 39.2, 60.1, 81.2])
    assert {ring for lot in plan.wood.lots for ring in lot.rings} == {5, 6, 7, 8}
    told = " ".join(sentence for one in vessel_advice(plan) for sentence in one.says)
    assert "Rings 1 to 4 stay as they are, up to 84.2 mm" in told


@pytest.mark.parametrize("rings", [1, 4, 9])
def test_the_work_of_a_vessel_begins_with_the_first_ring_that_is_not_glued(tmp_path: Path, rings: int):
    plan = vessel(tmp_path, f"[glued]\nrings = {rings}\n")
    parts = draw(plan).parts
    told = work(plan, parts)
    assert not {one.stage for one in told.operations} & {"waste_block", "plugs"}
    made = {ring for one in told.operations if one.stage in MADE for ring in one.rings}
    assert made == set(range(rings + 1, 10))
    used = {use.part for operation in told.operations for use in operation.jigs}
    assert {part.name for part in parts} <= used


def test_a_spiral_on_glued_rings_with_a_narrowing_mouth_is_told_in_eight_lines(tmp_path: Path):
    """Every ring has its centring plate here; where one has none, that is a line more."""
    job = with_readings(tmp_path, FOOT, "sorrel")
    job.write_text(job.read_text("utf-8").replace("[rings]\n", "[rings]\nturn = 0.25\n"), "utf-8")
    plan = solve(load(job))
    (rings,) = [one for one in work(plan, draw(plan).parts).operations if one.id == "stack.rings"]
    assert len(rings.how) <= 7
    assert any("faceplate" in line for line in rings.how)
    assert any("hollow the lower part first" in line for line in rings.how)
    assert "turn" in {check.id for check in rings.checks}


def test_no_stop_is_set_and_no_sled_built_for_glued_rings_alone(tmp_path: Path):
    """Ring 1 is the smallest of the sled: the trial in scrap, and what was read of it, is of its size."""
    plan = vessel(tmp_path, FOOT)
    names = {part.name for part in draw(plan).parts}
    assert {name for name in names if name.startswith("stop-stick")} == {
        f"stop-stick-ring-{ring}" for ring in (1, 5, 6, 7, 8, 9)
    }
    job = with_readings(tmp_path, FOOT, "sorrel")
    job.write_text(
        job.read_text("utf-8").replace("segments = 12", "segments = [12, 12, 12, 12, 16]"), "utf-8"
    )
    (sled,) = solve(load(job)).saws.sleds
    assert (sled.segments, sled.number) == (16, 2)  # its readings stay those of the second sled


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ("[glued]\nrings = 10", "the readings have 10 rings glued, and the job has only 9"),
        (FOOT.replace("154.0", "145.0"), r"ring 4, glued from 60\.1 mm to 81\.2 mm, lacks"),
        (FOOT.replace("105.4", "124.0"), "ring 4, glued from .* lacks"),
    ],
)
def test_glued_rings_that_hold_no_vessel_are_refused_with_the_reason(
    tmp_path: Path, readings: str, told: str
):
    with pytest.raises(Refused, match=told):
        vessel(tmp_path, readings)


def test_what_leaves_too_little_wood_round_a_half_is_offered_less_allowance_and_the_stages_it_holds(
    tmp_path: Path,
):
    job = with_readings(tmp_path, HALF.replace("61.3, 61.3", "60.2, 60.2"))
    offered = [
        {change.key: change.value for change in one.changes}
        for one in remedies(toml_source.read(job), job, 3) or ()
    ]
    assert {"form.turning_allowance": 2, "gauges.stages": [1, "finished"]} in offered


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.floats(-1.5, 1.5), min_size=4, max_size=4),
    st.lists(st.floats(-1.0, 3.0), min_size=4, max_size=4),
)
def test_whatever_stands_each_ring_holds_the_vessel_or_the_job_is_refused(
    tmp_path: Path, off: list[float], wider: list[float]
):
    """Injected: heights and outsides off by so much. Against points on the finished section."""
    planned = [84.528, 111.081, 138.762, 153.231]
    heights = ", ".join(f"{21 + mm:.3f}" for mm in off)
    across = ", ".join(f"{mm + more:.3f}" for mm, more in zip(planned, wider, strict=True))
    readings = f"[glued]\nrings = 4\nheight = [{heights}]\nacross-flats = [{across}]\n"
    job = load(with_readings(tmp_path, readings, "sorrel"))
    section, _, _ = formed(job)
    try:
        stack = as_glued(job, section, solve_stack(job, section))
    except Refused as refused:
        codes = {finding.code for finding in refused.findings}
    else:
        codes = set()
    assert codes <= {"glued-short", "too-many"}
    if codes:
        return
    assert [layer.ring.height for layer in stack.layers[:4]] == pytest.approx(
        [21 + mm for mm in off], abs=1e-3
    )
    for z in np.linspace(0.05, section.height - 0.05, 300):
        ring = next(layer.filled for layer in stack.layers if layer.ring.bottom <= z <= layer.ring.top)
        inner, outer = section.wall_at(float(z))
        least = job.gauges.sanding_allowance if ring.number <= 4 else job.rings.turning_allowance / 2
        assert ring.outer - outer >= least - 1e-6
        assert not ring.core or inner - ring.core / cos(ring.mitre) >= least - 1e-6


def test_a_reading_of_the_making_of_glued_rings_is_answered_by_taking_it_out(tmp_path: Path) -> None:
    made = "[flat-segments]\n[flat-segments.cut]\nouter-edge = 41.2\n"
    for readings, asked in ((FOOT + made, True), (made, False)):
        plan = vessel(tmp_path, readings)
        with pytest.raises(Refused) as refused:
            work(plan, draw(plan).parts)
        [fault] = refused.value.findings
        assert fault.code == "unknown-reading"
        assert ("the rings of [glued] were made" in fault.remedy) is asked
