"""The two tiers of a vessel against the whole: every height, and all of the wood."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.section import Section, inner_from_wall
from geometry.bodies.tiers import LEFT, lower_tier, upper_tier
from geometry.plane.profile import profile

OUTER = profile((30, 0, 0.2), (58, 40, 0.25), (40, 95, -0.2), (27, 120, 0), (28, 150, 0))
WHOLE = Section(OUTER, inner_from_wall(OUTER, 7.0, 9.0, 4.0))
JOINTS = st.floats(15, 145)


@given(JOINTS, st.floats(1, 12), st.floats(0.01, 0.99))
def test_each_height_has_the_radii_of_the_whole_there(joint, waste, share):
    lower, upper = lower_tier(WHOLE, joint), upper_tier(WHOLE, joint, waste)
    low, high = share * joint, joint + share * (WHOLE.height - joint)
    foot = WHOLE.height + waste
    assert lower.wall_at(low) == pytest.approx(WHOLE.wall_at(low), abs=1e-6)
    assert upper.wall_at(foot - high) == pytest.approx(WHOLE.wall_at(high), abs=1e-6)
    assert (lower.height, upper.height) == pytest.approx((joint, foot - joint))


@given(JOINTS, st.floats(1, 12))
def test_both_hold_the_wood_of_the_whole_and_the_upper_one_its_waste(joint, waste):
    lower, upper = lower_tier(WHOLE, joint), upper_tier(WHOLE, joint, waste)
    rim = WHOLE.rim_radius, WHOLE.mouth_radius
    over = np.pi * (rim[0] ** 2 * waste - rim[1] ** 2 * LEFT)
    assert lower.volume + upper.volume - over == pytest.approx(WHOLE.volume, rel=1e-6)


@pytest.mark.parametrize("joint", [0.0, 8.0, 150.0, 170.0])
def test_a_joint_that_is_not_in_the_hollow_is_refused(joint):
    for tier in (lambda: lower_tier(WHOLE, joint), lambda: upper_tier(WHOLE, joint, 2.0)):
        with pytest.raises(ValueError, match="not in the hollow"):
            tier()
