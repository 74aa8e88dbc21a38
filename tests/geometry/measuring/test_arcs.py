"""Circles through points, against published fits and a reference library."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import least_squares

from geometry.measuring.arcs import _taubin, best_circle, radius_of_arc
from geometry.measuring.estimate import Estimate

# Gander, Golub, Strebel, BIT 34 (1994) 558-578; Taubin's values as in Chernov's test of it; the geometric by scipy.
POINTS = np.array(((1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)), dtype=float)


def test_the_published_points_have_their_published_circles():
    assert _taubin(POINTS) == pytest.approx((4.613933, 2.795209, 4.879213), abs=2e-6)
    found = best_circle(POINTS, 0.0)
    assert (*found.centre, found.radius.value) == pytest.approx((4.739782, 2.983533, 4.714226), abs=2e-6)


@given(st.floats(5, 300), st.floats(0.4, 2 * math.pi), st.integers(4, 40), st.integers(0, 2**32 - 1))
def test_it_is_the_least_squares_circle_and_its_accuracy_holds(
    radius: float, arc: float, count: int, seed: int
):
    assume(radius * arc**2 > 3)  # flatter ones tell nothing
    noise = np.random.default_rng(seed)
    turn = np.linspace(0, arc, count)
    points = radius * np.column_stack([np.cos(turn), np.sin(turn)]) + noise.normal(0, 0.025, (count, 2))
    found = best_circle(points, 0.05)
    other = least_squares(
        lambda p: np.hypot(*(points - p[:2]).T) - p[2], (0, 0, radius), xtol=1e-14, ftol=1e-14
    )
    assert found.radius.value == pytest.approx(other.x[2], rel=1e-5)
    assert abs(found.radius.value - radius) < 3 * found.radius.accuracy  # six standard deviations


@given(st.floats(5, 300), st.floats(0.2, 1.0))
def test_chord_and_height_give_the_radius(radius: float, share: float):
    chord = 2 * radius * share
    height = radius - math.sqrt(radius**2 - chord**2 / 4)
    assume(height > 0.2)
    assert radius_of_arc(Estimate(chord, 0.05), Estimate(height, 0.05)).value == pytest.approx(radius)


def test_what_has_no_circle_is_refused():
    with pytest.raises(ValueError, match="three points"):
        best_circle(POINTS[:2], 0.05)
    with pytest.raises(ValueError, match="line"):
        best_circle(np.array(((0, 0), (1, 1), (2, 2), (3, 3.0))), 0.05)
    with pytest.raises(ValueError, match="accuracy"):
        radius_of_arc(Estimate(50, 0.05), Estimate(0.04, 0.05))
