"""Figures that every shop knows: common practice, no source."""

import math

import pytest

from geometry.lathe.turning import rim_speed_limits
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.torus import TorusPlan

# The counts that most rings of this kind have: common practice, no source. They are no demo's.
USUAL_COUNTS = """
[form]
outer_diameter = 240
tube_diameter = 52
wedge_rings = 16
segments = 8
core_opening = 20
"""


@pytest.fixture(scope="module")
def plan() -> TorusPlan:
    plan = solve(parse(USUAL_COUNTS, "usual.toml"))
    assert isinstance(plan, TorusPlan)
    return plan


def test_eight_segments_are_cut_at_22_and_a_half_degrees(plan: TorusPlan) -> None:
    assert math.degrees(plan.segment.tilt) == pytest.approx(22.5)


def test_sixteen_wedge_rings_have_faces_of_11_and_a_quarter_degrees(plan: TorusPlan) -> None:
    assert math.degrees(plan.ring_cut.half_wedge) == pytest.approx(11.25)


def test_four_of_sixteen_wedge_rings_make_a_right_angle(plan: TorusPlan) -> None:
    assert plan.check.rings == 4
    assert math.degrees(plan.check.angle) == pytest.approx(90.0)


def test_sixteen_rings_of_eight_are_128_segments(plan: TorusPlan) -> None:
    assert plan.segments_total == 128


@pytest.mark.parametrize("inches", [4.0, 10.0, 12.0, 18.5])
def test_diameter_times_speed_is_6000_to_9000(inches: float) -> None:
    # The rule of thumb for turning: inches times rpm from 6000 to 9000; at the rim 7.98 to 11.97 m/s.
    slow, fast = rim_speed_limits(25.4 * inches)
    assert inches * slow == pytest.approx(6000, abs=inches)
    assert inches * fast == pytest.approx(9000, abs=inches)
    rim = [math.pi * 25.4 * inches * rpm / 60_000 for rpm in (slow, fast)]
    assert rim == pytest.approx([7.98, 11.97], rel=0.003)
    assert rim[1] < 11.97
