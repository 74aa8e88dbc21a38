import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.measuring.printer import fit_line

lengths = st.lists(st.floats(1, 300), min_size=2, max_size=9, unique=True).filter(
    lambda sizes: max(sizes) - min(sizes) > 1
)


@given(lengths, st.floats(-1, 1), st.floats(0.9, 1.1))
def test_a_line_without_errors_is_found_again(nominal, a, b):
    assert fit_line(nominal, [a + b * x for x in nominal]) == pytest.approx((a, b), abs=1e-6)


@given(lengths, st.integers(0, 2**32 - 1))
def test_the_line_agrees_with_numpys(nominal, seed):
    measured = np.array(nominal) + np.random.default_rng(seed).normal(0, 0.1, len(nominal))
    b, a = np.polyfit(nominal, measured, 1)
    assert fit_line(nominal, measured.tolist()) == pytest.approx((a, b), rel=1e-6, abs=1e-6)


def test_kerf_moves_outsides_and_insides_apart_and_shrinkage_both_together():
    nominal, kerf, scale = (10, 20, 40, 80), 0.2, 0.997
    outside = fit_line(nominal, [scale * x - kerf for x in nominal])
    inside = fit_line(nominal, [scale * x + kerf for x in nominal])
    assert (inside[0] - outside[0]) / 2 == pytest.approx(kerf)
    assert outside[1] == pytest.approx(scale)
    assert inside[1] == pytest.approx(scale)


@pytest.mark.parametrize(
    ("nominal", "measured"),
    [([10], [10]), ([10, 20], [10]), ([10, 10], [10, 11]), ([10, float("nan")], [10, 20]), ([], [])],
)
def test_what_makes_no_line_is_refused(nominal, measured):
    with pytest.raises(ValueError, match=r"line|finite"):
        fit_line(nominal, measured)
