"""Any job is either refused with what would do, or comes out right: blank, sled and every part."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from math import pi, sin, tan

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from geometry.plane.edges import FloatArray
from jigs.asked.job import Form, Job
from jigs.asked.jobfile import parse
from jigs.files.dxf import read_dxf, write_dxf
from jigs.files.stl import read_stl, write_stl
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.parts.readback import measure
from jigs.plans.torus import TorusPlan
from jigs.sets.rack import rack
from jigs.stages.held.statics.rings import ring_holding
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import parse_length
from tests.jigs.bench_cut import cut_ring, sled_as_drawn
from tests.jigs.inspection import faults
from tests.jigs.random_jobs import jobs
from tests.jigs.test_blunt_edges import assert_no_corner_of_a_board_is_sharp
from tests.jigs.test_codes import assert_told_apart
from tests.jigs.test_mounting_parts import assert_mountings_right
from tests.metric import metric

MEASURED = 4  # of the random jobs that are made
slow = [HealthCheck.too_slow, HealthCheck.filter_too_much]


def tries(examples: int) -> settings:
    """A failing job is told as it was found: it is short, and making it smaller takes minutes."""
    phases = (Phase.explicit, Phase.reuse, Phase.generate)
    return settings(max_examples=examples, deadline=None, suppress_health_check=slow, phases=phases)


def outcome(job: Job) -> tuple[TorusPlan, list[Part]] | tuple[Finding, ...]:
    """TorusPlan and parts, or why not."""
    try:
        plan = solve(job)
        return plan, rack(plan)[0]
    except Refused as refused:
        return refused.findings


def codes(job: Job) -> set[str]:
    found = outcome(job)
    return {finding.code for finding in found if isinstance(finding, Finding)}


def test_a_job_is_refused_with_a_remedy_or_comes_out_right():
    """Its blank, its sled, what holds its rings, its mountings and boards, all its parts and their codes, of a few
    their files, and what a remedy's number does: each job is solved once for all of them."""
    made, refused = [], []

    @tries(30)
    @given(jobs())
    def one(job):
        found = outcome(job)
        if isinstance(found[0], Finding):
            refused.append(job)
            for finding in found:
                assert_helpful(finding)
                assert_remedied(job, finding)
        else:
            made.append(job)
            plan, parts = found
            assert [fault for part in parts for fault in faults(part)] == []
            assert_holds_the_torus(plan)
            assert_cuts_the_rings(plan, parts)
            assert_holds_the_rings(plan)
            assert_mountings_right(plan)
            assert_no_corner_of_a_board_is_sharp(plan)
            assert_told_apart(parts)
            if len(made) <= MEASURED:
                assert_files_measure(parts)

    one()
    assert min(len(made), len(refused)) >= 3, "the random jobs try one side only"


def assert_helpful(finding: Finding) -> None:
    assert finding.message
    assert finding.remedy
    assert finding.key
    for text in (finding.message, finding.remedy):
        assert not re.search(r"\bnan\b|\binf\b", text), text
        assert not re.search(r"(?<![\w.])-\d", text), text


def assert_holds_the_torus(plan: TorusPlan) -> None:
    """The blank holds the finished torus with its allowance, and the core leaves the wall."""
    form = plan.job.form
    corners = ring_corners(plan.segment.outer_edge - sanded(form), plan)
    places = torus_places(form, form.turning_allowance)
    assert depth_in_ring(places, corners).min() >= -1e-6
    if form.ring_across_flats is None:
        assert depth_in_ring(places, corners).min() < 0.02, "a smaller ring would hold it too"
    assert wall(plan) >= form.least_wall - 1e-6
    assert wall(plan) == pytest.approx(plan.wall, abs=1e-6)


def sanded(form: Form) -> float:
    """What sanding takes off a segment's outer edge."""
    return 2 * form.joint_sanding / np.cos(pi / form.segments)


def ring_corners(outer_edge: float, plan: TorusPlan) -> FloatArray:
    """A glued ring, (n, 2) in x and z: equal sides `outer_edge` long, one flat down, about the planned centre."""
    n = plan.job.form.segments
    steps = outer_edge * np.exp(2j * pi / n * np.arange(n))
    corners = np.cumsum(steps)
    corners = corners - corners.mean() + plan.blank.centre
    return np.column_stack([corners.real, corners.imag])


def torus_places(form: Form, allowance: float) -> FloatArray:
    """Places (m, 3) all over one wedge ring's share of the torus, grown by the allowance."""
    half = pi / form.wedge_rings
    phi, theta = np.meshgrid(np.linspace(-half, half, 41), np.linspace(0, 2 * pi, 721))
    reach = form.tube_radius + allowance
    out = form.major_radius + reach * np.cos(theta)
    return np.column_stack([a.ravel() for a in (out * np.cos(phi), out * np.sin(phi), reach * np.sin(theta))])


def depth_in_ring(places: FloatArray, corners: FloatArray) -> FloatArray:
    """How far (m,) places lie inside the ring's flats; it is a prism along y."""
    sides = np.roll(corners, -1, axis=0) - corners
    normals = np.column_stack([-sides[:, 1], sides[:, 0]]) / np.hypot(*sides.T)[:, None]
    inward = (places[:, None, [0, 2]] - corners) * normals
    return np.asarray(inward.sum(axis=2).min(axis=1))


def wall(plan: TorusPlan) -> float:
    """Least wood from the core to the finished surface, by trying all of the core's edges."""
    form, n = plan.job.form, plan.job.form.segments
    angles = -pi / 2 + 2 * pi / n * (np.arange(n) + 0.5)
    around = plan.blank.core_apothem / np.cos(pi / n) * np.column_stack([np.cos(angles), np.sin(angles)])
    share = np.linspace(0, 1, 21)[:, None, None]
    edges = (around + share * (np.roll(around, -1, axis=0) - around)).reshape(-1, 2)
    x, z = edges[:, 0] + plan.blank.centre, edges[:, 1]
    y = np.linspace(0, tan(pi / form.wedge_rings), 21)[:, None] * x
    return float((form.tube_radius - np.hypot(np.hypot(x, y) - form.major_radius, z)).min())


def assert_cuts_the_rings(plan: TorusPlan, parts: list[Part]) -> None:
    """The sled as drawn cuts the planned wedge rings, and they close."""
    cut, form, job = plan.ring_cut, plan.job.form, plan.job
    sled = sled_as_drawn({part.name: part for part in parts}, job.workshop.boards.sheet)
    ring = cut_ring(sled, cut.ring_thickness, 2 * plan.blank.half_width)
    assert ring.thick == pytest.approx(cut.thick_edge, abs=0.02)
    assert ring.thin == pytest.approx(cut.thin_edge, abs=0.02)
    assert ring.included == pytest.approx(360 / form.wedge_rings, abs=0.001)
    assert ring.skew < 0.001
    assert form.wedge_rings * ring.included == pytest.approx(360, abs=1e-6)
    half = pi / form.wedge_rings
    outer = ring.thick / 2 / tan(half) - form.face_sanding / sin(half)
    assert outer == pytest.approx(plan.blank.outer_radius, abs=0.01 / tan(half))


def assert_holds_the_rings(plan: TorusPlan) -> None:
    """Without friction; of 300 such jobs none was left unheld."""
    assert plan.sled.rod.fits
    for second, holding in enumerate(plan.rings_held):
        assert holding.held
        assert not ring_holding(plan.sled, bool(second), rod=False).held, (
            "apex away, no rod: it leaves the fence"
        )


def assert_files_measure(parts: list[Part]) -> None:
    for part in parts:
        measured = measure(part, readback(part))
        assert len(measured) >= len(part.dimensions) - 1, part.name


def readback(part: Part):
    """The part as a file, read again."""
    stream = io.BytesIO()
    write, read = (write_stl, read_stl) if part.process == "print" else (write_dxf, read_dxf)
    write(part, stream)
    stream.seek(0)
    return read(stream)


def with_form(job: Job, **values: float) -> Job:
    return replace(job, form=replace(job.form, **values))


def with_torus(job: Job, major: float, tube: float, **values: float | None) -> Job:
    """Another torus, by its two radii."""
    sizes = {
        "outer_diameter": 2 * (major + tube),
        "hole_diameter": 2 * (major - tube),
        "tube_diameter": 2 * tube,
    }
    return replace(job, form=replace(job.form, **sizes, **values))


def with_shop(job: Job, table: str, **values: float) -> Job:
    changed = replace(getattr(job.workshop, table), **values)
    return replace(job, workshop=replace(job.workshop, **{table: changed}))


def with_hole(job: Job, hole: float) -> Job:
    """The same tube round another hole."""
    return with_torus(job, hole / 2 + job.form.tube_radius, job.form.tube_radius)


def with_shorter_ring(job: Job, size: float) -> Job:
    """A turner's own ring made smaller where that is enough, else a thinner tube in the least ring."""
    own = job.form.ring_across_flats
    smaller = with_form(job, ring_across_flats=size)
    if own is not None and "tube-outside-ring" not in codes(smaller):
        return smaller
    return with_torus(job, job.form.major_radius, size / 2, ring_across_flats=None)


def with_board(job: Job, beyond: float) -> Job:
    """A larger first and second board, and the swing that turns them."""
    wider = with_shop(job, "holding", beyond_rim=beyond)
    return with_shop(wider, "lathe", swing_over_bed=job.form.outer_diameter + beyond + 10)


REMEDIES = {
    "hole-closed": with_hole,
    "stage-over-allowance": lambda job, v: replace(
        job, gauges=replace(job.gauges, stages=tuple(min(v, s) for s in job.gauges.stages))
    ),
    "tube-outside-ring": lambda job, v: with_form(job, ring_across_flats=v),
    "ring-too-small": lambda job, v: with_form(job, ring_across_flats=v),
    "short-segment": lambda job, v: with_form(job, segments=int(v)),
    "thin-edge": lambda job, v: with_form(job, wedge_rings=int(v)),
    "thin-wall": lambda job, v: with_form(job, core_opening=v),
    "ring-too-tall": lambda job, v: with_shorter_ring(job, v),
    "throat": lambda job, v: with_shop(job, "saw", throat=v),
    "core-too-small-to-hold": lambda job, v: with_form(job, core_opening=v),
    "core-too-large-to-hold": lambda job, v: with_form(job, core_opening=v),
    "ring-too-short-to-hold": lambda job, v: with_form(job, wedge_rings=int(v)),
    "short-jaw": lambda job, v: with_form(job, wedge_rings=int(v)),
    "wedge-not-pegged": lambda job, v: with_form(
        job, **({"clean_up": v} if v < 6 else {"wedge_rings": int(v)})
    ),
    "fence-near-blade": lambda job, v: with_shop(job, "sled", clear_of_blade=v),
    "blade-over-half": lambda job, v: with_shop(job, "saw", blade_height=v),
    "half-ends": lambda job, v: with_form(job, half_sanding=v),
    "flat-too-narrow": lambda job, v: with_shop(job, "holding", least_flat=v),
    "board-too-small": with_board,
    "no-room-for-blocks": with_board,
    "too-many-braces": lambda job, v: with_shop(job, "bolts", braces=int(v)),
    "swing": lambda job, v: (
        with_torus(job, v / 2 - job.form.tube_radius, job.form.tube_radius)
        if v < job.form.outer_diameter
        else with_shop(job, "lathe", swing_over_bed=v)
    ),
    "hole-too-small-to-hold": with_hole,
    "hole-too-small-for-gauge": with_hole,
    "tube-too-thin-to-hold": lambda job, v: with_torus(job, job.form.major_radius, v / 2),
    "lining-too-thick": lambda job, v: with_form(job, lining=v),
    "no-room": lambda job, v: with_form(job, clean_up=v),
}
NUMBER = re.compile(r"at (?:least|most) (\d[^,]*? (?:mm|in)\b|\d+ (?:wedge rings|segments|braces))")


def remedy_number(finding: Finding) -> float | None:
    """The number a remedy asks for, in mm or a count."""
    found = NUMBER.search(finding.remedy)
    return (
        None
        if found is None
        else parse_length(re.sub(r" (wedge rings|segments|braces)$", "", found[1]), "mm")
    )


def assert_remedied(job: Job, finding: Finding) -> None:
    """Where a number is named, the job passes with it; else nothing near works, and it says what else would do."""
    number = remedy_number(finding) if finding.code in REMEDIES else None
    if number is not None:
        assert finding.code not in codes(REMEDIES[finding.code](job, number)), str(finding)


REFUSED = {
    "hole-closed": "outer_diameter = 120\ntube_diameter = 58\n@\nturning_allowance = 3\ncore_opening = 10",
    "stage-over-allowance": "outer_diameter = 250\ntube_diameter = 54\n@\nturning_allowance = 2\ncore_opening = 20",
    "tube-outside-ring": "outer_diameter = 250\ntube_diameter = 54\n@\nring_across_flats = 58\ncore_opening = 20",
    "ring-too-small": "outer_diameter = 250\ntube_diameter = 20\n@\ncore_opening = 2\nleast_wall = 1",
    "short-segment": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\nleast_segment = 30",
    "thin-edge": "outer_diameter = 250\ntube_diameter = 104\n@\ncore_opening = 20",
    "thin-wall": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 45",
    "ring-too-tall": "outer_diameter = 350\ntube_diameter = 90\n@\ncore_opening = 20",
    "throat": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 10\n[saw]\nthroat = 150",
    "swing": "outer_diameter = 420\ntube_diameter = 54\n@\ncore_opening = 10",
    "hole-too-small-to-hold": "outer_diameter = 130\ntube_diameter = 48\n@\ncore_opening = 10\nleast_wall = 4",
    "hole-too-small-for-gauge": "outer_diameter = 120\ntube_diameter = 48\n@\ncore_opening = 10\nleast_wall = 4",
    "tube-too-thin-to-hold": "outer_diameter = 250\ntube_diameter = 8\n@\ncore_opening = 1\nleast_wall = 1",
    "lining-too-thick": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\nlining = 10",
    "blade-over-half": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\n[saw]\nblade_height = 140",
    "fence-near-blade": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\n[sled]\nclear_of_blade = 60",
    "half-ends": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\nhalf_sanding = 4",
    "flat-too-narrow": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\n[holding]\nleast_flat = 40",
    "no-room-for-blocks": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\n[holding]\nbeyond_rim = 20",
    "too-many-braces": "outer_diameter = 250\ntube_diameter = 54\n@\ncore_opening = 20\n[bolts]\nbraces = 24",
}


@pytest.mark.parametrize("code", REFUSED)
def test_each_refusal_has_a_number_that_works(code):
    """In inches; the random jobs above are in either unit."""
    rows = REFUSED[code].replace("@", "wedge_rings = 18\nsegments = 8").split("\n")
    counts = ("wedge_rings", "segments", "braces")
    text = "".join(
        row if row.startswith(counts) else re.sub(r"= (.*)", r'= "\1 mm"', row) for row in _lines(rows)
    )
    job = parse(f'unit = "in"\n[form]\n{text}\n[gauges]\nstages = ["2.5 mm", "finished"]', "hoop.toml")
    findings = [finding for finding in outcome(job) if isinstance(finding, Finding) and finding.code == code]
    assert findings, codes(job)
    assert not metric([(one.message, one.remedy) for one in findings])
    number = remedy_number(findings[0])
    assert number is not None, str(findings[0])
    assert code not in codes(REMEDIES[code](job, number)), str(findings[0])


def test_a_very_thick_tubes_gauge_measures_back_although_its_tip_is_short():
    text = "outer_diameter = 500\ntube_diameter = 209\nwedge_rings = 14\nsegments = 12\ncore_opening = 45"
    saw = "[saw]\nblade_height = 800\nblade_diameter = 1800\nthroat = 3000\n"
    machines = saw + "[lathe]\nswing_over_bed = 1400\n[printer]\nbed = [900, 900]\n[boards]\nsheet = 22"
    found = outcome(parse(f"[form]\n{text}\n{machines}", "hoop.toml"))
    assert isinstance(found[0], TorusPlan), [str(finding) for finding in found]
    part = next(part for part in found[1] if part.name == "outer-gauge-finished")
    assert measure(part, readback(part))


def _lines(rows: list[str]) -> list[str]:
    return [f"{row}\n" for row in rows]


@pytest.mark.parametrize("code", ["thin-edge", "thin-wall", "ring-too-tall", "swing"])
def test_the_number_is_the_nearest_that_works(code):
    """A step beyond it the refusal is back."""
    text = REFUSED[code].replace("@", "wedge_rings = 18\nsegments = 8")
    job = parse(f"[form]\n{text}", "hoop.toml")
    finding = next(f for f in outcome(job) if isinstance(f, Finding) and f.code == code)
    step = {"thin-edge": 2.0, "swing": 1.5}.get(code, 0.25)
    number = remedy_number(finding)
    assert code in codes(REMEDIES[code](job, number + step)), str(finding)


@cache
def common_ring() -> TorusPlan:
    found = outcome(
        parse(
            "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 8\ncore_opening = 20",
            "hoop.toml",
        )
    )
    assert isinstance(found[0], TorusPlan), str(found[0])
    return found[0]


@given(st.lists(st.text("AMW1.", min_size=1, max_size=9), min_size=1, max_size=4).map(" ".join))
@example(" ".join(4 * ["MWMWMWMWM"]))  # the widest
@tries(4)
def test_a_title_of_several_words_finds_room_on_a_common_ring(title):
    plan = common_ring()
    parts, _ = rack(replace(plan, job=replace(plan.job, title=title)))
    assert [fault for part in parts for fault in faults(part)] == []
