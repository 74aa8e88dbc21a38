"""Strips between segments that are too thin for a machine: slit from outside, cut by hand in a box of their own."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from jigs.asked.jobfile import load, parse
from jigs.dryfit.files import Files
from jigs.dryfit.slip_box import slip_checks
from jigs.dryfit.vessel.rings import rings_of
from jigs.dryfit.vessel.work import work_of
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan import RIPPED
from jigs.stages.slips.layout import SLIT_FROM
from jigs.stages.slips.parts import slip_box, slip_lines
from jigs.work.model import Operation
from tests.jigs.inspection import faults, text_of
from tests.jigs.wood.whole_jobs import prepared_of
from tests.unset import jigs_made
from tests.work.reading import work_for

JOB = """\
title = "Vase"
[profile]
stations = [[0, 70], [60, 132], [110, 148], [180, 96]]
[wall]
thickness = 7
floor = 9
[rings]
heights = 20
segments = 12
species = "maple"
spacer = {thick}
spacer_species = "walnut"
"""


@cache
def plan_of(thick: float) -> VesselPlan:
    plan = solve(parse(JOB.format(thick=thick), "vase.toml"))
    assert isinstance(plan, VesselPlan)
    return plan


@cache
def told(thick: float) -> tuple[Operation, ...]:
    return work_for(plan_of(thick)).operations


def test_a_slip_is_neither_ripped_nor_crosscut_at_a_machine():
    plan = plan_of(2)
    slips = {lot.number for lot in plan.wood.lots if lot.piece == "spacer"}
    assert not {kind for kind, run in prepared_of(plan) if slips & set(run.lots)} & {"rip", "edges"}
    assert {"slips.slit", "slips.length"} <= {one.id for one in told(2)}
    others = sum(lot.wanted for lot in plan.wood.lots if lot.way == "square")
    assert sum(one.pieces for one in told(2) if one.id.startswith("pieces.")) == others
    assert not [one.id for one in told(12) if one.id.startswith("slips.")]


def test_a_ring_that_closes_over_the_middle_has_no_slips_and_the_dry_lay_out_names_it():
    plan = plan_of(2)
    rings = range(1, len(plan.stack.layers) + 1)
    cut = [ring for lot in plan.wood.lots if lot.piece == "spacer" for ring in lot.rings]
    assert sorted(cut) == [*rings[1:]]
    assert sum(lot.count for lot in plan.wood.lots if lot.piece == "spacer") == 12 * len(rings[1:])
    (laid,) = (one for one in told(2) if one.id == "flat_rings.lay-out")
    assert laid.rings == (*rings,)
    assert "Nothing goes between the segments of ring 1." in laid.how
    (laid,) = (one for one in told(0) if one.id == "flat_rings.lay-out")
    assert not [move for move in laid.how if "between the segments" in move]


def test_the_fence_moves_by_a_slip_and_a_cut_and_leaves_enough_beside_it():
    plan = plan_of(2)
    (slit,) = [one for one in told(2) if one.id == "slips.slit"]
    settings = {setting.id: setting.value for setting in slit.settings}
    assert slit.pieces == sum(
        board.count * cut.strips
        for of in plan.wood.classes
        for board in of.boards
        for cut in board.strips
        if plan.wood.lot(cut.lot).piece == "spacer"
    )
    assert settings["slip"] == pytest.approx(2.2)
    assert settings["rip-fence.step"] == pytest.approx(2.2 + 3.0)
    assert settings["least-between"] == SLIT_FROM


def test_the_wood_that_stays_beside_the_fence_is_counted():
    plan = plan_of(2)
    rests = [lot for lot in plan.wood.lots if lot.piece == "rest"]
    slips = [lot for lot in plan.wood.lots if lot.piece == "spacer"]
    assert {round(lot.thickness, 2) for lot in rests} == {round(lot.thickness, 2) for lot in slips}
    assert all(lot.width == SLIT_FROM and lot.species == "walnut" for lot in rests)
    sawn = {cut.lot for of in plan.wood.classes for board in of.boards for cut in board.strips}
    assert {lot.number for lot in rests} <= sawn


def test_the_box_has_a_line_for_each_length_and_says_that_it_is_for_a_hand_saw():
    plan = plan_of(2)
    assert plan.slip_box is not None
    parts = {part.name: part for part in slip_box(plan)}
    assert set(parts) == {"slip-box-base", "slip-box-fence", "slip-box-hold"}
    assert all(faults(part) == [] for part in parts.values())
    assert "HAND SAW" in text_of(parts["slip-box-base"])
    lines = [line.points[0][0] for line in slip_lines(plan, plan.slip_box)]
    assert lines == sorted({round(lot.longer, 2) for lot in plan.wood.lots if lot.piece == "spacer"})
    left, right = plan.slip_box.hold
    assert left < -20 < 0 < right <= min(lines)
    assert slip_box(plan_of(12)) == []


def test_the_box_is_checked_from_its_files_and_a_ring_that_it_has_no_line_for_is_told(tmp_path: Path):
    (tmp_path / "vase.toml").write_text(JOB.format(thick=2))
    job = load(tmp_path / "vase.toml")
    work, files = work_of(job), Files.of(job, jigs_made(job, tmp_path))
    rings = rings_of(work)
    assert [check.what for check in slip_checks(work, files, rings) if not check.fits] == []
    wider = [replace(ring, most=ring.most + 8) for ring in rings]
    assert any(not check.fits for check in slip_checks(work, files, wider))
    more = [replace(ring, number=ring.number + 50) for ring in rings]
    assert any(not check.fits for check in slip_checks(work, files, more))


def test_slips_of_a_ring_too_thin_to_be_ripped_are_slit_from_thicker_wood_and_planed_as_low_as_its_segments():
    """Under 4 mm wood slips under a rip fence: it is planed on a carrier and cut by hand, never ripped."""
    plan = solve(parse(JOB.replace("heights = 20", "heights = [20, 3, 21]").format(thick=2), "vase.toml"))
    slit = [lot for lot in plan.wood.lots if lot.way == "slit"]
    assert {2} in [set(lot.rings) for lot in slit]
    assert min(lot.thickness for lot in slit) == RIPPED
    thin = [lot for lot in plan.wood.lots if lot.thickness < RIPPED]
    assert {lot.piece for lot in thin} == {"segment"}
    assert min(scrap.thickness for scrap in plan.wood.scraps) >= RIPPED
    steps = {one.id: one for one in work_for(plan).operations}
    (tall,) = (size for size in steps["slips.slit"].settings if size.id.startswith("tall"))
    (segment,) = thin
    assert (tall.label, tall.value) == ("Plane those of ring 2 to height", segment.thickness)
    assert [move for move in steps["slips.slit"].how if "press" in move]
    lengths = {size.label: size.value for size in steps["boards.mill"].settings}
    assert lengths["Ring 2 (between), 1 length: thickness"] == RIPPED
    (usual,) = (one for one in told(2) if one.id == "slips.slit")
    assert not [size for size in usual.settings if size.id.startswith("tall")]
