"""A vessel at the lathe: what its operations list is what the plan and the wood allow."""

from __future__ import annotations

import re
from dataclasses import replace
from math import cos, pi

import numpy as np
import pytest

from jigs.asked.jobfile import parse
from jigs.figures.every import figures_of
from jigs.figures.items import Callout
from jigs.forms.solve import solve
from jigs.parts.codes import code_of
from jigs.plans.vessel import VesselPlan
from jigs.render.lines import shown
from jigs.sets.rack import draw
from jigs.stages.inside import steps as inside
from jigs.stages.stack.plan import Layer
from jigs.work.lathe import clear_of_bed
from jigs.work.model import Operation, Rack
from jigs.work.shown import figure_of
from tests.jigs.vessel.jobs import planned
from tests.work.vessels import done, each, ids, job, operations


def test_a_goblets_cup_is_done_before_its_stem_is_slim() -> None:
    found = ids("stem")
    assert found.index("inside.sand") < found.index("stem.support") < found.index("stem.stage-1")
    assert "lathe.slim" in next(one for one in done("stem") if one.id == "stem.finished").cautions
    assert not [id for id in ids("vase") if id.startswith("stem.")]


@pytest.mark.parametrize(("name", "hold"), [("vase", "taper"), ("bowl", "inside")])
def test_a_plugs_lining_is_glued_on_and_dry_before_the_work_is_tried_on_it(name: str, hold: str) -> None:
    for lining in (0.0, 1.5):
        plan = planned(name, more=f'[reversing]\nhold = "{hold}"\nlining = {lining}\n')
        plug = next(o for o in operations(plan, tuple(draw(plan).parts)) if o.id == "reversing.plug")
        assert any("glue the lining" in step and "dry" in step for step in plug.how) == bool(lining)
        assert bool(plug.hours) == bool(lining)
        assert any("sand" in check.if_not for check in plug.checks) == bool(lining)


def test_an_open_vessel_is_sanded_with_the_lathe_stopped() -> None:
    sand = next(one for one in done("open") if one.id == "inside.sand")
    assert "Stop the lathe" in sand.how[0]
    assert "lathe.open" in next(one for one in done("open") if one.id == "outside.round").cautions


def test_a_bolt_has_its_torque_and_no_tailstock() -> None:
    held = next(one for one in done("bolted") if one.id == "reversing.held")
    plug = job("bolted")[0].reversing.plug
    assert plug is not None
    assert held.setting("torque.from").value == plug.torque > 0
    start = next(one for one in done("bolted") if one.id == "reversing.start")
    assert not [move for move in start.how if "tailstock" in move.lower()]


def test_a_push_beyond_most_scales_says_so() -> None:
    plan, parts = job("vase")
    plug = plan.reversing.plug
    assert plug is not None

    def told(push: float) -> bool:
        pressed = replace(plan, reversing=replace(plan.reversing, plug=replace(plug, least_push=push)))
        held = next(one for one in operations(pressed, parts) if one.id == "reversing.held")
        return any("reads so much" in move for move in held.how)

    assert told(1600.0)
    assert not told(300.0)


@each
def test_a_bolts_hole_is_closed_at_the_end(name: str) -> None:
    """Else a bowl held by a rod through its floor would stay one that leaks."""
    plug = job(name)[0].reversing.plug
    for one in (one for one in done(name) if one.id == "reversing.done"):
        closed = [move for move in one.how if "into the rod's hole" in move]
        assert bool(closed) == (plug is not None and plug.bolt is not None)
        assert [size.value for size in one.settings if size.id == "hole"] == [
            job(name)[0].job.reversing.base_hole for _ in closed
        ]


@each
def test_the_waste_block_is_bought_large_enough(name: str) -> None:
    plan, _ = job(name)
    blocks = [goods for one in done(name) for goods in one.uses_up if goods.id == "hardwood.waste-block"]
    wanted = [plan.waste, *((tier.waste for tier in plan.halves.tiers[1:]) if plan.halves else ())]
    for block, waste in zip(blocks, wanted, strict=True):
        sizes = {q.id: q.value for q in block.amount}
        assert sizes["thickness"] > waste.thickness == plan.job.rings.waste_block  # it is faced
        assert waste.least <= sizes["width"] == waste.most
        assert waste.screws.depth < waste.thickness


@pytest.mark.parametrize(("swing", "told"), [(328.0, True), (346.0, False)])
def test_what_is_sawn_to_eight_sides_before_it_is_round_clears_the_bed(swing: float, told: bool) -> None:
    """310 mm within eight sides swings 335.5, and 10 mm stay clear."""
    assert bool(clear_of_bed(310.0, swing)) == told
    plan, parts = job("vase")
    shop = replace(
        plan.job.workshop, lathe=replace(plan.job.workshop.lathe, swing_over_bed=plan.waste.most + 10.0)
    )
    tight = replace(plan, job=replace(plan.job, workshop=shop))
    assert any("clear the lathe's bed" in move for one in operations(tight, parts) for move in one.how)
    assert not any("clear the lathe's bed" in move for one in done("vase") for move in one.how)


@each
def test_a_parting_tool_stands_where_the_finished_side_leaves_it_room(name: str) -> None:
    """At a stick's line 3 mm of tool, half to either side of it, would cut into most slopes; beside it, into none."""
    plan, _ = job(name)
    told = [one for one in done(name) if any("Set outside callipers" in line for line in one.how)]
    assert all(any("side of the line that gets thinner" in line for line in one.how) for one in told)
    outer, top = plan.section.outer, plan.section.height
    for stick in plan.sizes.sticks:
        z, cut = stick.station.height, stick.sizes[-1].diameter / 2
        sides = [np.linspace(z, min(max(z + way, 0.0), top), 20).tolist() for way in (-3.0, 3.0)]
        spare = [cut - max(outer.radius_at(y) for y in side) for side in sides]
        assert max(spare) > 0.0


@each
def test_a_hollow_is_told_with_how_far_the_tool_reaches_past_its_rest(name: str) -> None:
    """A rest 10 mm, or 3/8 in, off the rim; what a tool may reach its maker says, by its shank."""
    for one in done(name):
        told = {q.id: q.value for q in one.settings}
        if one.stage.endswith("inside") and "depth" in told:
            assert 9.0 < told["reach"] - told["depth"] < 11.0


def test_a_rebate_is_listed_with_its_depth_and_what_stays_under_it() -> None:
    """Opened to the rebate's width all the way down, the mouth would have no ledge left for its lid."""
    shape = "edges = [[0, 70], [4, 78], [40, 96], [70, 90]]"
    own = f"[profile]\n{shape}\n[wall]\nthickness = 8\n[rebate]\nwidth = 2.5\ndepth = 5\n"
    plan = solve(parse(own + '[rings]\nheights = 14\nsegments = 12\nspecies = "cherry"\n', "pot.toml"))
    hollowed = [
        one for one in inside.operations(plan, Rack([])) if any(q.id == "rebate.deep" for q in one.settings)
    ]
    deep = [one.setting("rebate.deep").value for one in hollowed]
    assert deep == pytest.approx([2.0, 4.0, 4.75])  # 3, 1 and 0.25 are left on the ledge
    finished = 2 * plan.section.inner.radius_at(plan.section.height - 5.01)
    for one, left in zip(hollowed, (3.0, 1.0, 0.25), strict=True):
        assert any("rebate's depth" in line for line in one.how)
        under = one.setting("rebate.under").value
        assert finished - 2 * left - 0.5 < under < finished - 2 * left + 0.05
        assert one.setting("mouth").value > under + 3.0


@each
def test_what_goes_in_by_the_mouth_reaches_the_floor_from_outside(name: str) -> None:
    """Neither a tailstock nor a drill's chuck passes a slim mouth."""
    plan, _ = job(name)
    steps = {one.id: one for one in done(name)}
    if "reversing.bore" in steps:
        deep = (
            plan.section.height + plan.stack.allowance
        )  # to the waste block, which shows that it is through
        assert steps["reversing.bore"].setting("reach").value == pytest.approx(deep)
    if not plan.section.through and not plan.stack.floating:
        assert "stands out of the" in steps["reversing.off"].how[0]


@each
def test_what_is_left_for_the_saw_holds_the_vessel_round_a_hollow_too(name: str) -> None:
    plan, _ = job(name)
    off = next(one for one in done(name) if one.id == "reversing.off")
    neck, foot = off.setting("neck").value / 2, plan.section.foot_radius
    floats = plan.stack.floating
    hollow = floats.base.opening if floats else plan.section.inner.start[0] if plan.section.through else 0.0
    assert hollow < neck < foot
    assert neck - hollow >= min(foot - neck, foot / 3 - 1e-9)
    clear = [q.value for q in off.settings if q.id == "clear"]
    plug = plan.reversing.plug
    point = (
        plug is not None and plug.centre_recess > 0
    )  # in what stays under the foot, which a kerf leaves whole
    # A deep cut is widened, towards the screws.
    assert clear == [plan.waste.screws.depth + 2] * (foot - neck > 25 or point)
    assert all(size < off.setting("foot").value - 3 for size in clear)
    assert any("on the block's side of the cut" in line for line in off.how) == point
    if point:
        kerf = 1.5  # of a fine hand saw, and the hand's wandering
        assert off.setting("foot").value - clear[0] - kerf + plan.section.recess_depth > plug.centre_depth


@each
def test_a_ring_that_is_bored_on_paper_finds_its_circle_on_the_block(name: str) -> None:
    plan, _ = job(name)
    for one in (one for one in done(name) if one.id.startswith(("plugs.bore", "floating_ring.bore"))):
        circles = [q.value for q in one.settings if q.id.startswith("circle.")]
        corners = [2 * la.ring.outer / cos(pi / la.ring.segments) for la in _layers(plan, one)]
        assert circles == pytest.approx(corners)
        assert one.setting("block.across").value > max(circles)


def _layers(plan: VesselPlan, one: Operation) -> list[Layer]:
    return [la for la in plan.stack.layers if la.number in one.rings]


@pytest.mark.parametrize(
    ("light", "least"),
    [("vase", {"waste_block.ring-1", "reversing.off", "reversing.done"}), ("gourd", {"halves.glue"})],
)
def test_what_is_too_heavy_for_one_is_lifted_by_two(light: str, least: set[str]) -> None:
    plan, parts = job(light)
    layers = tuple(replace(one, wood=100 * one.wood) for one in plan.stack.layers)
    stack = replace(
        plan.stack, layers=layers, weights=tuple((name, 100 * mm3, g) for name, mm3, g in plan.stack.weights)
    )
    heavy = replace(plan, stack=stack)
    if heavy.halves:
        tiers = tuple(replace(tier, stack=stack) for tier in heavy.halves.tiers)
        heavy = replace(heavy, halves=replace(heavy.halves, tiers=tiers))
    by_two = {
        one.id: one
        for one in operations(heavy, parts)
        if any("wo lift" in line or "second pair" in line for line in one.how)
    }
    cures = [one for one in by_two if one.endswith(".cure")]
    assert cures
    for id in cures:
        (weighs,) = (q.value for q in by_two[id].known if q.id == "lifted")
        assert any("hoist" in line for line in by_two[id].how) == (weighs > 33_300)
    assert least <= by_two.keys()
    block = 0.9e-3 * pi / 4 * plan.waste.most**2 * plan.waste.thickness  # g
    wood = sum(one.wood for one in layers) * 0.9e-3  # of a wood that is known, at most
    assert wood + block in [
        pytest.approx(q.value) for id in cures for q in by_two[id].known if q.id == "lifted"
    ]
    assert not [
        one for one in done(light) if any("wo lift" in line or "second pair" in line for line in one.how)
    ]


def test_over_a_stem_a_step_shows_the_gauges_that_it_uses_and_no_other() -> None:
    plan, parts = job("stem")
    drawn = figures_of(plan, parts, lambda quantity: shown(quantity, "mm"))
    codes = {code_of(part.name) for part in parts if part.family in ("gauges", "sizes")}
    gauged = [one for one in done("stem") if re.match(r"(outside|stem)\.(stage-\d|finished)", one.id)]
    assert {figure_of(one.id) for one in gauged} <= set(drawn)
    for one in gauged:
        callouts = (item for item in drawn[one.id].items if isinstance(item, Callout))
        named = {code for item in callouts for code in item.text.split()} & codes
        assert named, one.id
        assert named <= {code_of(use.part) for use in one.jigs}, one.id
