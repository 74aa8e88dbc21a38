"""What small errors come to, in the plan: against the wedge ring as it is cut."""

from math import cos, tan

import pytest

from geometry.hardware.fasteners import bolt_diameter
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
