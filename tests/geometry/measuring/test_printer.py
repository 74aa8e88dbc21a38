"""Machines that shrink, swell and lose widths: simulated, measured with noise, corrected, measured again."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.measuring.estimate import Estimate
from geometry.measuring.printer import MachineFit, fit_machine

LENGTHS = (10.0, 20.0, 40.0, 80.0)
NOISE = 0.03


def coupon(own: float, scale: float, noise: np.random.Generator | None = None) -> list[tuple[float, float]]:
    wobble = np.clip(noise.normal(0, NOISE / 2, 4), -NOISE, NOISE) if noise else np.zeros(4)
    return [(size, own + scale * size + off) for size, off in zip(LENGTHS, wobble, strict=True)]


def drawn(fit: MachineFit, own: Estimate, size: float) -> float:
    """What has to be drawn to come out at a size."""
    return (size - own.value) / (1 + fit.scale.value)


@given(
    st.floats(0.05, 0.4), st.floats(-0.4, -0.05), st.floats(0.99, 1.005).filter(lambda s: abs(s - 1) > 0.0015)
)
def test_an_exact_coupon_gives_the_machine_back(outside: float, inside: float, scale: float):
    found = fit_machine(coupon(outside, scale), coupon(inside, scale), 1e-3)
    assert found.alike
    assert (found.outside.value, found.inside.value) == pytest.approx((outside, inside))
    assert 1 + found.scale.value == pytest.approx(scale)
    for size in (5, 150):
        assert outside + scale * drawn(found, found.outside, size) == pytest.approx(size)
        assert inside + scale * drawn(found, found.inside, size) == pytest.approx(size)


@given(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3), st.floats(0.992, 1.004), st.integers(0, 2**32 - 1))
def test_corrected_prints_are_as_right_as_the_calliper(
    outside: float, inside: float, scale: float, seed: int
):
    noise = np.random.default_rng(seed)
    found = fit_machine(coupon(outside, scale, noise), coupon(inside, scale, noise), NOISE)
    for size in LENGTHS:
        before, after = (
            outside + (scale - 1) * size,
            outside + scale * drawn(found, found.outside, size) - size,
        )
        assert abs(after) < 3 * NOISE
        assert abs(after) < abs(before) + 3 * NOISE


@given(st.integers(0, 2**32 - 1))
def test_an_exact_machine_is_left_alone(seed: int):
    noise = np.random.default_rng(seed)
    found = fit_machine(coupon(0, 1, noise), coupon(0, 1, noise), NOISE)
    assert abs(found.size.made(80) - 80) <= 2.5 * NOISE


def test_outsides_and_insides_that_shrink_unalike_are_seen():
    assert not fit_machine(coupon(0, 1.01), coupon(0, 0.99), NOISE).alike
    with pytest.raises(ValueError, match="4 outsides"):
        fit_machine(coupon(0, 1)[:3], coupon(0, 1), NOISE)
