"""A torus at the lathe: what its operations list is what the plan and the wood allow."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from geometry.bodies.torus import least_wood
from jigs.stages.blank.tables import facts
from jigs.stages.lathe.tables import of_torus
from jigs.stages.mountings.solve.holding import solve_holding
from jigs.words.quantity import Quantity
from tests.jigs.wood.whole_jobs import plan_of, torus
from tests.work.tori import done, each, job, one


@each
def test_speeds_are_those_of_the_widest_thing_that_spins(name: str) -> None:
    plan, held = job(name)[0], job(name)[0].holding
    (layer,) = (part for part in job(name)[1] if part.name == "support-board-layer")
    left, _, right, _ = layer.outline.bounds
    widest = {"reversed_mounting.retainer": held.retainer_blank}
    spun = [operation for operation in done(name) if any(q.id == "speed.to" for q in operation.settings)]
    starts = {f"{stage}_mounting.start" for stage in ("first", "reversed", "braced", "last")}
    turned = {"first_mounting.board", "reversed_mounting.retainer", "braced_mounting.channel"}
    assert {operation.id for operation in spun} == starts | turned
    for operation in spun:
        across = widest.get(operation.id, max(right - left, 2 * plan.blank.swing_radius))
        fast = next(q.value for q in operation.settings if q.id == "speed.to")
        assert isinstance(fast, int)
        rim = pi * across / 1000 * fast / 60  # m/s
        assert 11.8 < rim < 12.0 or (fast == 1500 and rim < 12.0)  # the most for what is not round yet
    slow = min(q.value for operation in spun for q in operation.settings if q.id == "speed.from")
    needed = {q.id: q.value for q in one(name, "shop.lathe").known}
    assert needed == {"slowest": slow, "swing": plan.least_swing}  # before anything is bought


@each
def test_a_lining_is_glued_on_and_dry_before_the_work_is_tried_on_it(name: str) -> None:
    lining = job(name)[0].job.form.lining
    for id in ("reversed_mounting.retainer", "braced_mounting.channel"):
        turned = one(name, id)
        assert any("glue the lining" in step and "dry" in step for step in turned.how) == bool(lining)
        assert bool(turned.hours) == bool(lining)
        assert [q.value for q in turned.settings if q.id == "lining"] == ([lining] if lining else [])


def test_pads_are_not_called_printed_for_they_may_be_planed_from_wood() -> None:
    assert not [step for step in one("garland", "braced_mounting.braces").how if "print" in step]


@each
def test_what_is_too_heavy_for_one_is_lifted_by_two(name: str) -> None:
    plan = job(name)[0]
    held = plan.holding
    board = 0.75e-3 * pi / 4 * held.board_diameter**2 * held.board_thickness  # g
    blank = plan.blank.volume * 0.9e-3  # of a wood that is known, at most
    told_where = ("first_mounting.glue", "reversed_mounting.reverse")
    own = plan.mountings.lifted - plan.mountings.weighs
    assert own == pytest.approx(board / 1000 * 9.81)  # the board is sawn off in mounting B
    for id in (*told_where, "reversed_mounting.saw", "braced_mounting.seat", "last_mounting.off"):
        step = one(name, id)
        assert any("wo lift" in line for line in step.how) == (name == "millwheel")
        if id not in told_where:
            continue
        told = [q.value for q in step.known if q.id == "lifted"]
        assert told == ([pytest.approx(board + blank)] if name == "millwheel" else [])


def test_a_heavy_side_pulls_as_it_spins_and_weighs_nothing_to_who_lifts_it() -> None:
    even, uneven = (
        torus(form=f"species = {woods}") for woods in (["maple"], ["white oak"] * 9 + ["basswood"] * 9)
    )
    assert uneven.rim_speed[1] < even.rim_speed[1]
    assert uneven.mountings.lifted == pytest.approx(even.mountings.lifted)


@each
def test_the_swing_told_is_the_least_that_turns_these_boards(name: str) -> None:
    plan = job(name)[0]
    (swing,) = (q.value for q in facts(plan) if q.id == "swing")
    lathe = [cell for table in of_torus(plan) if table.id == "lathe" for row in table.rows for cell in row]
    assert swing in [cell.value for cell in lathe if isinstance(cell, Quantity) and cell.id == "swing"]
    assert isinstance(swing, float)
    assert swing <= plan.job.workshop.lathe.swing_over_bed + 1e-9

    def board(over_bed: float) -> float:
        shop = plan.job.workshop
        lathe = replace(shop.lathe, swing_over_bed=over_bed)
        job = replace(plan.job, workshop=replace(shop, lathe=lathe))
        return solve_holding(job, job.form.outer_diameter).board_diameter

    assert board(swing) == pytest.approx(plan.holding.board_diameter)
    assert board(swing - 1) == pytest.approx(plan.holding.board_diameter - 1)


@each
def test_the_faceplate_lets_the_tool_past_the_retainers_rim_and_the_work_past_it(name: str) -> None:
    plan = job(name)[0]
    plate, rim = (one(name, f"reversed_mounting.{id}") for id in ("faceplate", "retainer"))
    across = plate.setting("faceplate").value
    turned = rim.setting("rim").value
    assert isinstance(across, float)
    assert isinstance(turned, float)
    assert (turned - across) / 2 >= plan.job.workshop.holding.tool_room - 1e-9
    assert across <= plan.holding.retainer.clears


def test_nothing_that_balances_stands_where_the_old_board_is_turned_or_sawn() -> None:
    """Turned round, the board's back looks at the turner: a block there stays inside the circle, and off the saw."""
    plan = plan_of("garland")
    step = {operation.id: operation for operation in done("garland")}
    inside = step["first_mounting.balance"].setting("within").value
    assert inside == step["reversed_mounting.turn-away"].setting("left").value
    assert "unscrew the block" in step["reversed_mounting.saw"].how[0]
    depth = step["braced_mounting.balance"].setting("screws.depth").value
    channel = plan.holding.channel
    assert isinstance(depth, float)
    assert depth < plan.holding.board_thickness - channel.depth - channel.relief_depth


@pytest.mark.parametrize(("name", "reached"), [("garland", True), ("millwheel", False)])
def test_the_tailstock_is_drawn_back_where_a_gauge_meets_it_and_the_glue_alone_holds(
    name: str, reached: bool
) -> None:
    plan, _ = job(name)
    told = {operation.id: " ".join(operation.how) for operation in done(name)}
    assert "draw the tailstock back" in told["roughing.sizes"], "a stick reaches right across the hole"
    assert "draw the tailstock back" in told["gauging.finished"]
    assert ("draw the tailstock back" in told["gauging.standing"]) == reached
    glued, first = next(held for held in plan.mountings.held if held.mounting == "A"), plan.mountings.first
    assert glued.held, "against the tool's push too"
    assert glued.pull == 0, "of no tailstock"
    # At rest: the wood's weight bends the glue's thin ring, M / (pi R² t); under a tenth of what glue is allowed.
    newtons = plan.blank.volume * 1.2e-6 * 9.81  # of ebony
    ring = pi * plan.blank.centre**2 * plan.mountings.waste_flat
    assert newtons * first.centre_height / ring < 0.06


@pytest.mark.parametrize(("name", "widened"), [("garland", True), ("six sides", False)])
def test_the_flats_for_the_glue_are_sanded_until_one_thing_is_seen(name: str, widened: bool) -> None:
    """A flat that is too narrow as sawn is sanded past its pencil, to a width; any other is left by it."""
    flat = next(one for one in done(name) if one.id == "first_mounting.flat")
    told = " ".join(flat.how)
    assert ("until every flat is as wide as listed" in told) == widened
    assert ("when the pencil is gone" in told) != widened
    assert [one.value for one in flat.known] == [job(name)[0].mountings.sanded] * widened


@pytest.mark.parametrize("name", ["garland", "six sides"])
def test_the_blank_is_measured_before_the_sanding_that_its_planned_height_knows_nothing_of(name: str) -> None:
    flat = next(one for one in done(name) if one.id == "first_mounting.flat")
    planned = {one.id: one.planned for one in flat.readings}
    assert planned["height"] is not None
    assert planned["height"].value == 2 * job(name)[0].blank.apothem
    sanding = next(k for k, move in enumerate(flat.how) if "abrasive" in move)
    assert any("before you sand" in move for move in flat.how[:sanding])


@pytest.mark.parametrize("name", ["garland", "two woods"])
def test_what_trued_half_rings_lose_is_told_where_they_are_trued_and_measured_after(name: str) -> None:
    """Both halves sanded by 0.5 mm and closed; the wood round the form then, an outer flat where the stop had it."""
    plan, off = job(name)[0], 0.5
    blank = plan.blank
    normals = (np.arange(blank.segments // 2) + 0.5) * 2 * blank.mitre  # of the half over the joints' line
    halves = [blank.apothem - off * np.sin(normals)] * 2  # own move to that line
    narrower = 2 * blank.apothem - sum(halves)
    assert narrower.max() == pytest.approx(2 * off, rel=0.08), "midway between the joints: all of own halves"
    worst = replace(
        blank, apothem=blank.apothem - off, centre=blank.centre + off
    )  # its outer flat where it was
    form = plan.job.form
    lost = least_wood(blank, form.major_radius, form.tube) - least_wood(worst, form.major_radius, form.tube)
    assert off < lost == pytest.approx(2 * off, rel=0.08), "not half of what is measured"
    told = {one.id: one for one in done(name)}
    assert "the ring loses across the flats midway" in told["rings.true"].how[-1]
    across = next(check for check in told["rings.flatten"].checks if check.id == "across")
    assert "each pair" in across.how
    assert "less by as much" in across.if_not


@each
def test_flats_that_stand_high_once_all_are_touched_are_told(name: str) -> None:
    """By sampling the slices of every wedge ring: how far each flat that leans clears the first stage."""
    plan = job(name)[0]
    blank, form = plan.blank, plan.job.form
    if not form.tube.round:
        return
    tube, angles = (
        plan.sizes.stages[0].tube.wide,
        -pi / 2 + 2 * pi / blank.segments * np.arange(blank.segments),
    )
    out, up = np.cos(angles)[:, None], np.sin(angles)[:, None]
    slices = np.cos(np.linspace(0, blank.half_wedge, 400))
    reach = form.major_radius * slices * out + tube * np.hypot(slices * out, up)
    clear = (blank.apothem + blank.centre * out - reach).min(axis=1)[abs(out[:, 0]) > 1e-9]
    high = clear.max() - clear.min()
    how = one(name, "roughing.sizes").how
    assert [line for line in how if "stand high" in line] == (
        [f"Some of them still stand high then, up to {plan.job.at_least(high)}: leave that to the gauges."]
        if high > 0.05
        else []
    )
