"""What small errors come to, in the plan: against the wedge ring as it is cut."""

from dataclasses import replace
from math import asin, cos, pi, sin, tan

import numpy as np
import pytest

from geometry.hardware.fittings import bolt_diameter
from jigs.remedies.torus import LEVERS
from jigs.stages.mountings.check import held_findings
from tests.jigs.wood.whole_jobs import plan_of

each = pytest.mark.parametrize("name", ["garland", "quoit", "millwheel"])


@each
def test_a_shim_that_turns_each_ring_opens_as_much_light_at_the_check_corners_rim(name: str) -> None:
    plan = plan_of(name)
    errors, blank = plan.errors, plan.blank
    face = (
        2 * blank.half_width / cos(blank.half_wedge)
    )  # pushed home, the rings touch with the face's other end
    assert errors.shim_closes == pytest.approx(plan.check.rings * face * tan(errors.shim_turns), rel=1e-5)


@each
def test_halves_that_err_more_cost_more_and_a_half_over_costs_no_allowance(name: str) -> None:
    halves = {half.error: half for half in plan_of(name).errors.halves}
    short = sorted(error for error in halves if error < 0)
    assert [halves[error].left for error in short] == sorted(halves[error].left for error in short)
    for error, half in halves.items():
        assert half.light == pytest.approx(halves[-error].light)
        if error > 0:
            assert half.lost == pytest.approx(0.0, abs=1e-9)


@each
def test_screws_never_come_through_their_board(name: str) -> None:
    plan = plan_of(name)
    assert plan.mountings.board_screws.depth < plan.holding.board_thickness
    assert plan.mountings.retainer_screws.depth < plan.holding.retainer.height
    channel, under, plug = plan.holding.channel, plan.mountings.channel_screws, plan.mountings.retainer_screws
    solid = plan.holding.board_thickness - channel.depth - channel.relief_depth
    assert under.beyond < solid, "the channel is turned with the screws in"
    inside = channel.major - channel.hollow.wide * sin(channel.contact)
    assert under.within / 2 + under.across / 2 < inside or under.depth == under.beyond
    assert plug.within / 2 + plug.across / 2 < plan.holding.retainer.neck_radius, "and so is the neck"


@each
def test_bolts_are_drawn_with_no_less_than_holds_and_the_torque_that_takes(name: str) -> None:
    mountings = plan_of(name).mountings
    least = {
        m.name: held.least_pull
        for m, held in zip(mountings.mountings, mountings.held, strict=True)
        if held.pull
    }
    assert {drawn.mounting for drawn in mountings.drawn} == set(least) == {"B", "C", "D"}
    for drawn in mountings.drawn:
        assert least[drawn.mounting] <= drawn.pull < least[drawn.mounting] + 10
        assert drawn.torque == pytest.approx(0.25 * drawn.pull * bolt_diameter(drawn.bolt) / 1000)


@each
def test_no_bolt_is_drawn_harder_than_the_joints_stand_with_a_waxed_thread(name: str) -> None:
    """The retainer's spread, without friction, over a section summed ring by ring: under 0.6 N/mm² at the hole."""
    plan = plan_of(name)
    plug, core = plan.holding.retainer, plan.blank.core_apothem / cos(plan.blank.mitre)
    tube = plug.tube.wide  # of a round one
    x = np.linspace(-tube, tube, 20001)
    high = 2 * np.sqrt(np.clip(tube**2 - x**2, 0, None)) - 2 * np.sqrt(np.clip(core**2 - x**2, 0, None))
    stands = 0.6 * np.trapezoid(high * (plug.major - tube) / (plug.major + x), x)
    for drawn in plan.mountings.drawn:
        across = bolt_diameter(drawn.bolt)
        assert drawn.most_torque * (1 - 0.06) >= drawn.torque * (1 + 0.06), "a wrench can be set between"
        assert drawn.most_torque == pytest.approx(0.15 * drawn.most_pull * across / 1000)
        if drawn.mounting != "C":
            spread = drawn.most_pull / tan(asin(plug.band_low / plug.hollow.wide))
            assert spread / (2 * pi) <= stands * 1.001


@pytest.mark.parametrize(("mounting", "code"), [("B", "bolt-opens-joints"), ("C", "brace-bends")])
def test_a_bolt_that_cannot_hold_and_spare_the_wood_is_refused(mounting: str, code: str) -> None:
    """The thread's doubt, 0.25 to 0.15, leaves a window of 8 %: less than a wrench's own 6 % either way."""
    plan = plan_of("garland")
    drawn = [
        replace(one, most_pull=1.8 * one.pull) if one.mounting == mounting else one
        for one in plan.mountings.drawn
    ]
    (finding,) = held_findings(plan.job, replace(plan.mountings, drawn=tuple(drawn)))
    assert finding.code == code
    assert code in LEVERS
