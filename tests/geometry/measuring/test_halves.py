"""Halves offered to each other: simulated as stiff bodies, sanded as told, and put together again."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from geometry.bodies.torus import Blank
from geometry.measuring.halves import halves_meet
from tests.geometry.tori_blanks import blanks

errors = st.floats(-0.02, 0.02).filter(lambda error: abs(error) > 2e-4)
lights = st.floats(-0.8, 0.8)


@given(blanks(), errors)
def test_halves_that_are_tapered_meet_and_the_oval_is_stated(blank: Blank, error: float):
    """Both halves alike, drawn as their end faces in place, cut down to one line."""
    assume(blank.inner_radius > 1)
    c = math.cos(blank.half_wedge)
    lean = -error / 4  # of each end face: each half is out by error/2
    hole, rim = (radius / c * math.sin(lean) for radius in (blank.inner_radius, blank.outer_radius))
    gap = 2 * (max(hole, rim) - min(hole, rim))
    sign = 1 if error < 0 else -1
    found = halves_meet(blank, sign * gap, sign * gap)
    assert found.error == pytest.approx(error, rel=1e-3)
    assert found.first.most == found.second.most == pytest.approx(abs(rim - hole))
    assert found.oval == pytest.approx(-2 * max(hole, rim), rel=1e-3)


@given(blanks(), lights, lights)
def test_halves_out_unlike_close_both_joints_when_sanded_as_told(blank: Blank, first: float, second: float):
    """One half moved as a stiff body, square to the joint and turned a little, meets the other at all four edges; no
    less can come off, by a linear program."""
    assume(blank.inner_radius > 1)
    c = math.cos(blank.half_wedge)
    h, r = blank.inner_radius / c, blank.outer_radius / c
    edges = np.array((h, r, -h, -r))  # joint 1, then joint 2
    gaps = np.array((max(-first, 0), max(first, 0), max(-second, 0), max(second, 0)))
    found = halves_meet(blank, first, second)
    off = 2 * np.array((found.first.hole, found.first.rim, found.second.hole, found.second.rim))
    assert (off >= 0).all()
    columns = np.column_stack([np.ones(4), edges])
    move, *_ = np.linalg.lstsq(columns, gaps + off, rcond=None)
    assert columns @ move == pytest.approx(gaps + off, abs=1e-9)
    least = linprog([1, 0], A_ub=-columns, b_ub=-gaps, bounds=[(None, None)] * 2)
    assert move[0] == pytest.approx(least.fun, abs=1e-7)


def test_one_joint_that_is_open_is_closed_with_a_share_of_the_other():
    """Hole and rim 50 and 100 mm from the axis: 0.4 mm of light at one rim. Taken off that joint alone, both halves'
    ends there come to lie 0.4 mm apart, and closing them would open the other."""
    blank = Blank(18, 8, 25, 10, 75 * math.cos(math.pi / 18))
    found = halves_meet(blank, 0.4, 0.0)
    h = blank.inner_radius / blank.outer_radius
    assert (found.first.hole, found.second.hole) == pytest.approx((0.1 * (1 + h), 0.1 * (1 - h)))
    assert found.first.rim == found.second.rim == 0
