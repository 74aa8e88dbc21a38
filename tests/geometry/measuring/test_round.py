"""Readings round the work: harmonics against published figures and an FFT, planes levelled, wobbles told apart."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.measuring.harmonics import at, harmonic, levelled, shim, without, wobble

seeds = st.integers(0, 2**32 - 1)
angles = st.floats(-math.pi, math.pi)


def test_an_eccentric_circle_has_its_published_harmonics():
    """R 50, e 0.5 at 30 degrees, 36 readings: recomputed beside NIST/SEMATECH e-Handbook 2.3.4.4."""
    turn = np.arange(36) * 2 * math.pi / 36 - math.radians(30)
    read = 0.5 * np.cos(turn) + np.sqrt(2500 - 0.25 * np.sin(turn) ** 2)
    first = harmonic(read, 1)
    assert (first.cosine, first.sine) == pytest.approx((0.4330127, 0.25), abs=1e-6)
    assert read.mean() == pytest.approx(49.99875, abs=1e-6)
    assert harmonic(read, 2).amplitude == pytest.approx(0.00125, abs=1e-6)
    assert np.ptp(read) == pytest.approx(1.0, abs=1e-6)


@given(st.integers(8, 40), seeds)
def test_harmonics_are_those_of_a_fourier_transform(count: int, seed: int):
    read = np.random.default_rng(seed).normal(0, 1, count)
    spectrum = np.fft.rfft(read)
    for order in range(1, (count - 1) // 2 + 1):
        found = harmonic(read, order)
        assert complex(found.cosine, -found.sine) == pytest.approx(2 / count * spectrum[order], abs=1e-9)
        assert at(found, found.angle) == pytest.approx(found.amplitude)
    assert np.fft.rfft(without(read, 0, 1))[:2] == pytest.approx([0, 0], abs=1e-9)
    with pytest.raises(ValueError, match="do not show"):
        harmonic(read, (count + 1) // 2)


def tilted(heights: np.ndarray, raised: np.ndarray, at: tuple[int, int, int]) -> np.ndarray:
    """The heights of a stiff body once three of them are where they are raised to."""
    turn = np.arange(len(heights)) * 2 * math.pi / len(heights)
    columns = np.column_stack([np.ones_like(turn), np.cos(turn), np.sin(turn)])
    return heights + columns @ np.linalg.solve(columns[list(at)], (raised - heights)[list(at)])


@given(st.integers(8, 18), st.floats(0.1, 2), angles, st.floats(0, 0.5), seeds)
def test_three_raised_lines_level_a_body_whose_flats_scatter(
    count: int, tilt: float, way: float, scatter: float, seed: int
):
    """Whatever it rested on: nothing of it is lowered, and its plane is level to the readings' accuracy."""
    noise = np.random.default_rng(seed)
    turn = np.arange(count) * 2 * math.pi / count
    true = 40 + tilt * np.cos(turn - way) + noise.normal(0, scatter, count)
    read = true + np.clip(noise.normal(0, 0.025, count), -0.05, 0.05)
    found = levelled(read, 0.05)
    after = tilted(read, found.lifted, found.supports)
    assert after == pytest.approx(found.lifted, abs=1e-9), "three of them say how all of it lies"
    assert (after > read - 1e-9).all()
    assert harmonic(after, 1).amplitude == pytest.approx(0, abs=1e-9)
    left = 2 * harmonic(tilted(true, true + found.lifted - read, found.supports), 1).amplitude
    assert left < 3 * found.accuracy


def test_fewer_than_eight_heights_are_refused():
    with pytest.raises(ValueError, match="8 heights"):
        levelled(np.zeros(7), 0.05)


@given(st.floats(0, 0.6), angles, st.floats(0, 0.6), angles, seeds)
def test_half_a_turn_on_the_board_tells_whose_error_it_is(
    a: float, at_a: float, b: float, at_b: float, seed: int
):
    """Simulated: an eccentric seat and an eccentric torus in it, a dial with noise, then the torus turned round."""
    noise = np.random.default_rng(seed)
    turn = np.arange(8) * math.pi / 4

    def dial(torus_turned: float) -> np.ndarray:
        reads = a * np.cos(turn - at_a) + b * np.cos(turn - at_b - torus_turned) + 0.3
        return reads + np.clip(noise.normal(0, 0.01, 8), -0.02, 0.02)

    found = wobble(dial(0), dial(math.pi), None, 0.02)
    board, torus = (complex(h.cosine, h.sine) for h in (found.board, found.torus))
    assert abs(board - a * complex(math.cos(at_a), math.sin(at_a))) < 0.03
    assert abs(torus - b * complex(math.cos(at_b), math.sin(at_b))) < 0.03


def test_a_board_that_runs_out_carries_the_work_out_with_it_and_roundness_is_what_is_left():
    """What the board's own rim shows is no excuse: the tool sees the work from the spindle."""
    turn = np.arange(8) * math.pi / 4
    own, oval = 0.35 * np.cos(turn), 0.05 * np.cos(2 * turn)
    found = wobble(own + oval, None, own, 0.02)
    assert found.whole.amplitude == found.board.amplitude == pytest.approx(0.35)
    assert found.torus.amplitude == pytest.approx(0, abs=1e-12)
    assert found.roundness == pytest.approx(0.1)
    turned = wobble(own + oval, own + oval, own, 0.02)
    assert (turned.whole.amplitude, turned.board.amplitude) == pytest.approx((0.35, 0.35))
    with pytest.raises(ValueError, match="different counts"):
        wobble(own, own[:4], None, 0.02)


@given(st.floats(0.05, 1), angles, st.floats(20, 100))
def test_a_shim_opposite_the_high_place_takes_the_rise_away(rise: float, way: float, read_at: float):
    turn = np.arange(8) * math.pi / 4
    found = wobble(rise * np.cos(turn - way), None, None, 0.0)
    support = read_at / 2
    lift = shim(found.whole) * support / read_at
    tilt = lift / (2 * support)  # the seat turns about the support at the high place
    assert tilt * read_at == pytest.approx(rise)
