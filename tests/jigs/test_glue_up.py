"""Truing and clamping jigs: sound, measured back, and what they say of the wood they need."""

from math import cos
from pathlib import Path

import numpy as np
import pytest

from geometry.blanks.truing import end_wedge
from jigs.asked.jobfile import parse
from jigs.figures.every import figures_of
from jigs.figures.items import Callout
from jigs.files.dxf import read_dxf, write_dxf
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.parts.part import Part
from jigs.parts.readback import measure
from jigs.plans.torus import TorusPlan
from jigs.sets.rack import draw
from jigs.stages.glue_up.parts import clamping, truing
from jigs.stages.wedge_rings.steps.cuts import end_cut
from jigs.words.findings import Refused
from tests.examples import plan_of_example
from tests.jigs.inspection import faults, text_of
from tests.work.reading import operation, rows, table, work_for

CONFIGS = Path(__file__).parents[2] / "configs"
JOBS = ("garland", "millwheel", "quoit")
each_job = pytest.mark.parametrize("name", JOBS)

JOB = """\
title = "Hoop"
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = {rings}
segments = {segments}
core_opening = 16
"""


def plan_of(extra: str = "", segments: int = 8, rings: int = 18) -> TorusPlan:
    return solve(parse(JOB.format(segments=segments, rings=rings) + extra, "hoop.toml"))


def named(parts: list[Part]) -> dict[str, Part]:
    return {part.name: part for part in parts}


@each_job
def test_every_part_is_sound_and_measures_back(name: str, tmp_path: Path) -> None:
    plan = plan_of_example(name)
    parts = [*truing(plan), *clamping(plan)]
    assert {"truing-carrier", "half-check", "end-wedge", "clamp-block-flat"} <= set(named(parts))
    for part in parts:
        assert faults(part) == []
        file = tmp_path / f"{part.name}.dxf"
        write_dxf(part, file)
        assert measure(part, read_dxf(file))


@each_job
def test_the_carriers_feet_stop_the_half_where_the_abrasive_reaches_the_planned_line(name: str) -> None:
    plan = plan_of_example(name)
    carrier = named(truing(plan))["truing-carrier"].outline
    abrasive, swing = plan.truing.abrasive, plan.blank.swing_radius
    assert carrier.bounds[1] == pytest.approx(-abrasive)
    x = np.linspace(-swing, swing, 50)
    assert not carrier.contains(
        np.column_stack((x, np.full_like(x, 1.0)))
    ).any()  # nothing but the half there
    feet = np.array([(side * (swing + 20), -abrasive / 2) for side in (-1, 1)])
    assert carrier.contains(feet).all()


@each_job
def test_every_cheek_bears_on_the_outer_flat_of_its_ring(name: str) -> None:
    plan = plan_of_example(name)
    carrier, layout = named(truing(plan))["truing-carrier"], plan.truing
    tab = layout.blank.outer_radius + plan.sled.cheek_tab
    for cheek, slot in zip(layout.cheeks, carrier.holes, strict=False):
        assert abs(cheek.offset) + layout.sheet / 2 <= layout.blank.thick_edge / 2
        direction = np.array((np.cos(cheek.angle), np.sin(cheek.angle)))
        reach = slot.points @ direction
        assert reach.max() == pytest.approx(tab + 30)  # the wall that takes the thrust
        assert (cheek.angle / layout.blank.half_wedge) % 2 == pytest.approx(1)  # a ring's middle


def test_the_check_plate_bears_on_the_ends_and_is_clear_of_the_hole() -> None:
    plan = plan_of()
    plate, c = named(truing(plan))["half-check"].outline, cos(plan.blank.half_wedge)
    low = {x for x, y in plate.points.tolist() if y == 0}
    assert min(abs(x) for x in low) < plan.blank.inner_radius / c
    assert max(low) > plan.blank.outer_radius / c


def test_the_end_wedge_is_thinner_by_what_a_halfs_ends_lose_more_than_glue_faces() -> None:
    plan = plan_of("half_sanding = 0.8\n")
    part = named(truing(plan))["end-wedge"]
    thickness = next(d.value for d in part.dimensions if d.name == "thickness at the stop")
    cut = plan.ring_cut
    assert thickness == pytest.approx(end_wedge(cut.wedge_at_stop, cut.half_wedge, 0.8 - 0.1))
    assert "HALF ENDS" in text_of(part)
    assert "rings 1, 9, 10, 18" in part.purpose
    assert "end-wedge" not in named(truing(plan_of("half_sanding = 0\n")))


@pytest.mark.parametrize("spare", [0.05, 0.1, 0.5, 0.8])
def test_an_end_ring_sanded_on_one_face_and_trued_on_the_other_is_as_thick_as_all(spare: float) -> None:
    plan = plan_of(f"half_sanding = {spare}\nface_sanding = 0.1\n")
    cut = end_cut(plan)
    assert cut is not None
    sawn = next(check.value for check in cut.checks if check.id == "thick-edge")
    assert sawn - (0.1 + spare) / cos(plan.blank.half_wedge) == pytest.approx(plan.blank.thick_edge)


def test_more_to_sand_than_the_clean_up_leaves_is_refused_with_what_would_do() -> None:
    with pytest.raises(Refused) as caught:
        plan_of("half_sanding = 4\n")
    (found,) = caught.value.findings
    assert (found.code, found.key, found.line) == ("half-ends", "form.half_sanding", 8)
    most = float(found.remedy.split("at most ")[1].split(" mm")[0])
    assert plan_of(f"half_sanding = {most - 0.01}\n")


def test_blocks_too_near_the_finished_form_are_warned_of() -> None:
    def codes(plan: TorusPlan) -> list[str]:
        return [note.code for note in plan.notes]

    assert "blocks-near-form" not in codes(plan_of())
    assert "blocks-near-form" in codes(plan_of("[clamping]\nclear_of_form = 5\n"))


def test_rings_with_an_arris_out_get_no_rim_block() -> None:
    assert "clamp-block-rim" in named(clamping(plan_of()))
    assert "clamp-block-rim" not in named(clamping(plan_of(segments=10)))


@pytest.mark.parametrize(("rings", "joints"), [(18, 2), (16, 4)])  # quarters are glued only of four alike
def test_there_is_a_block_above_and_below_on_either_side_of_each_joint(rings: int, joints: int) -> None:
    plan = plan_of("turning_allowance = 3\n[clamping]\nheight = 20\n", rings=rings)
    assert named(clamping(plan))["clamp-block-flat"].quantity == 4 * joints * 2
    assert named(clamping(plan))["clamp-block-flat"].thickness * 2 >= 20


def test_where_no_blocks_are_made_every_joint_is_closed_in_the_band() -> None:
    """Flats too narrow for blocks: no step and no picture speaks of clamps or blocks."""
    plan = plan_of(segments=14, rings=16)
    assert "narrow-blocks" in [note.code for note in plan.notes]
    assert clamping(plan) == []
    proof = draw(plan)
    told, shown = (
        work(proof.plan, proof.parts, proof.notes),
        figures_of(plan, proof.parts, lambda quantity: ""),
    )
    for id in ("glue_up.halves", "glue_up.blank"):
        step = operation(told, id)
        assert step.settings[0].id == "band"
        assert not any("clamp" in line or "block" in line for line in step.how)
        words = [item.text for item in shown[id].items if isinstance(item, Callout)]
        assert "band" in words
        assert not any("block" in word or word == "clamp" for word in words)
        assert ("waxed paper" in words) == (id == "glue_up.halves")


def test_the_tables_tell_what_an_error_costs_and_how_long_a_band_is() -> None:
    plan = plan_of()
    told = work_for(plan)
    lost = {row["half"]: row["allowance"] for row in rows(table(told, "half-errors"))}
    assert lost["0.5° too little"] > lost["0.2° too little"] == 0
    assert lost["0.5° too much"] == 0
    assert len(table(told, "half-errors").title) < 60
    sanded = next(one for one in told.operations if one.id.endswith(".true-halves"))
    assert any("only where the half does not reach that line" in line for line in sanded.how)
    ring, blank = rows(table(told, "glue-bands"))
    assert ring["length"] == pytest.approx(ring["around"] + 200)
    assert blank["around"] == pytest.approx(plan.blank.wedge_rings * plan.blank.thick_edge)


def test_halves_with_nothing_left_to_sand_are_trued_only_where_light_shows() -> None:
    bare, spared = (
        operation(work_for(plan_of(f"half_sanding = {spare}")), "glue_up.true-halves") for spare in (0, 0.5)
    )
    assert (bare.settings, [one.id for one in spared.settings]) == ((), ["spare"])
    assert ("only if" in bare.does, "only if" in spared.does) == (True, False)
