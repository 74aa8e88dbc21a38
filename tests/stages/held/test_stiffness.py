"""Sheets of sleds: against beams cut into slices, and the least that is stiff enough."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.stages.held.statics.stiffness import (
    ALLOWED,
    BEARS,
    LEANT_ON,
    OVERHANG,
    PLYWOOD,
    HoldFence,
    RingFence,
    SledSheet,
    least_sheet,
)

sheets = st.floats(3, 25)
sleds = st.builds(
    SledSheet, st.just("sled"), st.floats(200, 900), st.builds(HoldFence, st.floats(8, 60), st.floats(5, 60))
)


def sagged(moments: np.ndarray, width: float, thickness: float, length: float) -> float:
    """A cantilever's end, its curvature M / E I summed twice over slices."""
    step = length / len(moments)
    curved = moments / (PLYWOOD * width * thickness**3 / 12)
    slope = np.cumsum(curved) * step
    return float(np.sum(slope) * step)


@given(sleds, sheets)
def test_bases_and_fences_give_as_beams_in_slices_do(sled, thickness):
    x = (np.arange(4000) + 0.5) / 4000
    base = sagged(LEANT_ON * OVERHANG * (1 - x), sled.width, thickness, OVERHANG)
    assert sled.base_gives(thickness) == pytest.approx(base, rel=2e-3)
    out, wood = sled.fence.out, sled.fence.wood
    fence = sagged(np.full(4000, 420.0 * out), BEARS, thickness, wood + 43.0)
    assert sled.fence_gives(thickness) == pytest.approx(fence, rel=2e-3)


@given(st.lists(sleds, min_size=1, max_size=4))
def test_the_least_sheet_is_enough_for_all_and_half_a_millimetre_less_is_not(found):
    least = least_sheet(found)
    assert all(sled.gives(least) <= ALLOWED for sled in found)
    assert any(sled.gives(least - 0.5) > ALLOWED for sled in found)


@given(st.floats(10, 40), st.floats(60, 250), st.floats(60, 400), sheets)
def test_strips_that_cross_share_the_push_of_a_jaw_and_give_alike(out, tall, span, thickness):
    push = (
        1.5 * 300.0 * out / tall + 100 / 3
    )  # bends the upright strip as the screw's moment does, and the cut's
    x = (np.arange(4000) + 0.5) / 4000
    up = sagged(tall * (1 - x), BEARS, thickness, tall)
    half = sagged(
        span / 4 * (1 - x), min(BEARS, tall), thickness, span / 2
    )  # half a beam, from its middle on
    gives = RingFence(out, tall, span).gives(thickness)
    on_upright, on_level = gives / up, gives / half
    assert on_upright + on_level == pytest.approx(push, rel=3e-3)
