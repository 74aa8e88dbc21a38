"""What each grit takes off: all of the allowance, and at least the scratches of the one before."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.lathe.abrasives import GRAIN, GRITS, SCRATCH, removed


@given(st.floats(0.0, 2.0))
def test_grits_take_off_the_whole_allowance_and_end_at_the_finest(allowance: float) -> None:
    found = removed(allowance)
    assert list(found)[-1] == GRITS[-1]
    assert sum(found.values()) == pytest.approx(allowance, abs=1e-9)
    assert min(found.values()) >= 0


@given(st.floats(0.05, 2.0))
def test_each_grit_takes_off_the_scratches_of_the_one_before(allowance: float) -> None:
    found = removed(allowance)
    for before, grit in pairwise(found):
        assert found[grit] >= SCRATCH * GRAIN[before] - 1e-12


def test_no_grit_is_skipped_by_more_than_1_6() -> None:
    for coarse, fine in pairwise(GRITS):
        assert fine / coarse <= 1.6
