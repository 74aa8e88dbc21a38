"""Sheets of sleds: against beams cut into slices, and the least that is stiff enough."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.stiffness import (
    ALLOWED,
    BEARS,
    LEANT_ON,
    OVERHANG,
    PLYWOOD,
    SledSheet,
    least_sheet,
)

sheets = st.floats(3, 25)
sleds = st.builds(
    SledSheet, st.just("sled"), st.floats(200, 900), st.tuples(st.floats(8, 60), st.floats(5, 60))
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
    out, wood = sled.hold
    fence = sagged(np.full(4000, 300.0 * out), BEARS, thickness, wood + 43.0)
    assert sled.fence_gives(thickness) == pytest.approx(fence, rel=2e-3)


@given(st.lists(sleds, min_size=1, max_size=4))
def test_the_least_sheet_is_enough_for_all_and_half_a_millimetre_less_is_not(found):
    least = least_sheet(found)
    assert all(sled.gives(least) <= ALLOWED for sled in found)
    assert any(sled.gives(least - 0.5) > ALLOWED for sled in found)
