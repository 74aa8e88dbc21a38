"""A torus with strips between its segments: its plan, its work, its jigs, what it refuses."""

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from geometry.bodies.places import torus_places
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import load, parse
from jigs.compare.run import compare
from jigs.compare.wish import Options
from jigs.dryfit.torus import dry_fit
from jigs.figures.colours import colour_of
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.looks.mistakes import Mistakes
from jigs.looks.woods import torus_woods
from jigs.paper.strips import strips_of
from jigs.plans.torus import TorusPlan
from jigs.stages.blank.size import solve_blank
from jigs.words.findings import Refused
from jigs.work.model import Work
from tests.jigs.inspection import faults
from tests.jigs.wood.whole_jobs import prepared_of
from tests.unset import jigs_made

JOB = """\
title = "Ribbon"
[form]
outer_diameter = 200
tube_diameter = 50
wedge_rings = 14
segments = 8
core_opening = 16
"""
STRIPS = 'spacer = 1.5\nspacer_species = "Walnut"\n'


def job_of(text: str) -> TorusJob:
    job = parse(text, "ribbon.toml")
    assert isinstance(job, TorusJob)
    return job


@cache
def plan_of(text: str = JOB + STRIPS) -> TorusPlan:
    plan = solve(job_of(text))
    assert isinstance(plan, TorusPlan)
    return plan


@cache
def work_of(text: str = JOB + STRIPS) -> Work:
    plan = plan_of(text)
    return work(plan, parts_of(plan))


def test_segments_are_shorter_by_the_strips_and_the_ring_stays_as_it_is():
    plain, plan = plan_of(JOB), plan_of()
    mitre = math.pi / 8
    assert replace(plan.blank, spacer=0.0) == plain.blank
    assert plan.segment.tilt == plain.segment.tilt
    shorter = 1.5 / math.cos(mitre)
    assert plan.segment.outer_edge == pytest.approx(plain.segment.outer_edge - shorter)
    assert plan.segment.inner_edge == pytest.approx(plain.segment.inner_edge - shorter)
    assert plan.cutting.carrier.stop == pytest.approx(plain.cutting.carrier.stop - shorter)
    assert plan.ring_cut == plain.ring_cut
    for kept, own in zip(plain.wood.classes, plan.wood.classes, strict=False):
        assert kept.species == own.species == "maple"


def test_every_joint_has_its_strip_with_spares_and_enough_for_the_rings_of_scrap():
    plan = plan_of()
    (lot,) = [lot for lot in plan.wood.lots if lot.piece == "spacer"]
    assert (lot.species, lot.count, lot.thickness) == ("walnut", 14 * 8, 1.5)
    assert lot.width == plan.segment.length
    joint = (plan.blank.apothem - plan.blank.core_apothem) / math.cos(math.pi / 8)
    assert joint + 2 <= lot.longer <= joint + 4
    scrap = sum(scrap.count for scrap in plan.wood.scraps)
    assert lot.spares >= 8 * (1 + scrap)  # a whole ring to spare, and the rings of scrap
    own = [of for of in plan.wood.classes if of.species == "walnut"]
    assert [of.thickness for of in own] == [1.5]
    assert sum(board.count for board in own[0].taken) >= 1


def test_a_strip_meets_no_table_saw_and_is_planed_on_a_carrier_alone():
    plan = plan_of()
    (lot,) = [lot for lot in plan.wood.lots if lot.piece == "spacer"]
    made = [(kind, run) for kind, run in prepared_of(plan) if lot.number in run.lots]
    assert list(dict.fromkeys(kind for kind, _ in made)) == ["crosscut", "thin", "knife"]
    assert not [run for _, run in made if "saw" in run.place]
    told = {operation.id: operation for operation in work_of().operations}
    assert told["boards.thin"].cautions == ("planer.thin", "planer")
    assert "table-saw.thin" in told["boards.knife"].cautions
    assert "slip" in told["slips.length"].cautions
    assert told["slips.length"].place == "bench"
    assert "slip" in told["building.slip-box"].cautions


def test_each_strip_is_glued_on_both_faces_and_trimmed_before_the_ring_is_flattened():
    plain, plan = plan_of(JOB), plan_of()
    faces = {of.name: of for of in plan.wood.glue.faces}
    mitres = {of.name: of for of in plain.wood.glue.faces}["mitres"]
    assert "mitres" not in faces
    assert faces["strips"].count == 2 * mitres.count
    assert faces["strips"].area == pytest.approx(2 * mitres.area)
    ids = [operation.id for operation in work_of().operations]
    assert ids.index("slips.length") < ids.index("rings.lay-out")
    assert ids.index("rings.close") < ids.index("rings.trim") < ids.index("rings.flatten")
    assert not any(id.startswith(("slips", "rings.trim", "boards.thin")) for id in
                   [operation.id for operation in work_of(JOB).operations])  # fmt: skip


def test_wood_is_shared_out_between_segments_and_strips():
    plain, plan = plan_of(JOB), plan_of()
    whole = sum(of.finished for of in plain.wood.finish.weights)
    after = {of.species: of.finished for of in plan.wood.finish.weights}
    assert sum(after.values()) == pytest.approx(whole, rel=1e-6)
    depth = 25 - 8 / math.cos(math.pi / 8)  # of a strip in the finished tube, about
    assert after["walnut"] == pytest.approx(2 * math.pi * 75 * 8 * 1.5 * depth, rel=0.05)


def test_the_tape_leaves_room_for_each_strip():
    (strip, *_) = strips_of(plan_of())
    assert strip.between == 1.5
    assert strip.strip == "walnut"


def test_the_finished_ring_shows_them():
    """Of the tube's own section eight strips, 1.5 mm each, are walnut: so much of its girth."""
    plan = plan_of()
    theta = np.linspace(-math.pi, math.pi, 20_000, endpoint=False)
    points = np.column_stack((75 + 25 * np.cos(theta), 0 * theta, 25 * np.sin(theta)))
    woods = torus_woods(plan, False, Mistakes())
    shown = woods.palette[woods.at(torus_places(points, plan.blank))]
    share = (shown == np.array(colour_of("walnut"))).all(axis=1).mean()
    assert share == pytest.approx(8 * 1.5 / (2 * math.pi * 25), rel=0.05)


def test_strips_without_a_wood_of_their_own_follow_the_segment_before():
    text = JOB + 'spacer = 2\nspecies = [["maple", "cherry"]]\n'
    lots = {lot.species: lot.count for lot in plan_of(text).wood.lots if lot.piece == "spacer"}
    assert lots == {"maple": 56, "cherry": 56}


def test_every_part_can_be_made():
    assert not [fault for part in parts_of(plan_of()) for fault in faults(part)]


def refusal(text: str) -> Refused:
    with pytest.raises(Refused) as caught:
        solve(job_of(text))
    return caught.value


def test_strips_that_leave_no_inner_edge_are_refused_with_what_does():
    text = JOB.replace("opening = 16", "opening = 10") + "spacer = 3.5\n"
    (finding,) = [one for one in refusal(text).findings if one.code == "strips-fill-core"]
    assert (finding.code, finding.key) == ("strips-fill-core", "form.spacer")
    for key, value in finding.wants.items():
        line = {"form.spacer": ("spacer = 3.5", f"spacer = {value - 0.01}"),
                "form.core_opening": ("core_opening = 10", f"core_opening = {value + 0.01}")}[key]  # fmt: skip
        assert solve_blank(job_of(text.replace(*line))).inner_edge >= 1.0
    trace = text.replace("spacer = 3.5", f"spacer = {finding.wants['form.spacer'] + 0.01:.4f}")
    (near,) = [one for one in refusal(trace).findings if one.code == "strips-fill-core"]
    assert "leave 0.9 mm" in near.message, "1.0 mm is the least"


def test_a_layup_has_no_strips_in_its_mitres():
    layup = '[layup]\nplies = [["maple", 3.0], ["walnut", 2.6]]\nangle = 35\n'
    with pytest.raises(Refused) as caught:
        parse(JOB + STRIPS + layup, "ribbon.toml")
    (finding,) = caught.value.findings
    assert (finding.code, finding.key) == ("too-many", "form.spacer")
    parse(JOB + layup, "ribbon.toml")


def test_other_counts_keep_the_strips(tmp_path: Path):
    file = tmp_path / "ribbon.toml"
    file.write_text(JOB + STRIPS, "utf-8")
    found = compare(file, Options(rings="12-16", segments="8-10", by="time", best=2), True)
    assert found.files
    for path in found.files:
        job = load(path)
        assert isinstance(job, TorusJob)
        assert (job.form.spacer, job.form.spacer_species) == (1.5, "walnut")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("ribbon")
    (folder / "ribbon.toml").write_text(JOB + STRIPS, "utf-8")
    return jigs_made(load(folder / "ribbon.toml"), folder)


def test_its_files_fit_and_those_of_a_ring_without_strips_do_not(made: Path):
    found = dry_fit(job_of(JOB + STRIPS), made, sheets=False)
    assert not found.misfits + found.faults
    assert {check.where for check in found.checks} >= {"slip-box-base", "slip-box-base, ring 14"}
    wrong = dry_fit(job_of(JOB), made, sheets=False)
    assert "segments close to a ring of apothem" in {check.what for check in wrong.misfits}
    thicker = dry_fit(job_of(JOB + STRIPS.replace("1.5", "1.7")), made, sheets=False)
    assert "segments close to a ring of apothem" in {check.what for check in thicker.misfits}


def test_the_first_trial_ring_gets_its_slips_before_it_is_sawn_on_its_rod():
    """Closed without them its core is smaller than that of the rings for which the rod's plug is made."""
    told = {operation.id: operation for operation in work_of().operations}
    plain = {operation.id: operation for operation in work_of(JOB).operations}
    assert any("Put its slips in" in line for line in told["segments.trial"].how)
    assert not any("slips" in line for line in plain["segments.trial"].how)


def test_both_ends_of_a_half_ring_have_a_slip_or_neither_has_so_that_they_lie_in_one_plane():
    for one in work_of().operations:
        if one.id == "rings.halves":
            assert any("both slips to the same half" in line for line in one.how), one.how
            return
    pytest.fail("no half rings are glued")
