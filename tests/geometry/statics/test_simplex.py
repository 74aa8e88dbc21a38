"""Many small linear programs at once, against SciPy's solver, one by one."""

from __future__ import annotations

from itertools import product
from math import inf
from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.optimize import linprog

from geometry.plane.edges import FloatArray
from geometry.statics.simplex import Columns, balanced, most_of

numbers = st.integers(-3, 3).map(float)


STEEPEST = "geometry.statics.simplex._STEEPEST"  # turns for each row; from 0 on all are by Bland's rule


def plain(matrix: FloatArray) -> Columns:
    return Columns(matrix, np.empty((0, 1, len(matrix))))


@pytest.mark.parametrize("steepest", [10, 0])
@given(
    st.integers(1, 5),
    st.integers(1, 9),
    st.tuples(st.integers(0, 3), st.integers(1, 3)),
    st.integers(1, 4),
    st.data(),
)
def test_the_most_of_each_load_is_what_another_solver_finds(steepest, rows, firm, mixed, count, data):
    """SciPy gets every sum of one side of each as a column."""
    pushes = Columns(
        data.draw(arrays(float, (rows, firm), elements=numbers)),
        data.draw(arrays(float, (*mixed, rows), elements=numbers)),
    )
    sums = [np.sum(sides, axis=0) for sides in product(*pushes.mixed)] if mixed[0] else []
    matrix = np.column_stack([pushes.firm, *sums])
    columns = matrix.shape[1]
    right = data.draw(arrays(float, rows, elements=numbers))
    loads = data.draw(arrays(float, (count, rows), elements=numbers))
    with patch(STEEPEST, steepest):
        start = balanced(pushes, right)
    eye = np.eye(rows)
    least = linprog([0.0] * columns + [1.0] * (2 * rows), A_eq=np.hstack([matrix, eye, -eye]), b_eq=right)
    assert (start.lack < 1e-7) == (least.fun < 1e-7)
    if start.lack > 1e-7:
        return
    with patch(STEEPEST, steepest):
        found = [float(most_of(pushes, start, load[None], 1e4)[0]) for load in loads]
        together = most_of(pushes, start, loads, 1e4)
    for load, most in zip(loads, found, strict=True):
        cost = [0.0] * columns + [-1.0]
        bounds = [(0, None)] * columns + [(0, 1e4)]
        theirs = linprog(cost, A_eq=np.column_stack([matrix, load]), b_eq=right, bounds=bounds).x[-1]
        assert most == pytest.approx(inf if theirs > 9999 else theirs, abs=1e-6)
    assert min(together) == pytest.approx(min(found), abs=1e-6)
    assert found[int(np.argmin(together))] == pytest.approx(min(found), abs=1e-6)


@pytest.mark.parametrize("steepest", [10, 0])
def test_a_program_made_to_go_round_in_circles_ends(steepest):
    """Beale's example of circles, 1955 (from memory): its best is 1/20."""
    matrix = np.array(
        [[0.25, -60, -1 / 25, 9, 1, 0, 0], [0.5, -90, -1 / 50, 3, 0, 1, 0], [0, 0, 1, 0, 0, 0, 1]]
    )
    matrix = np.vstack(
        [matrix, [-0.75, 150, -1 / 50, 6, 0, 0, 0]]
    )  # its cost, here what the load is balanced by
    right = np.array([0.0, 0.0, 1.0, 0.0])
    with patch(STEEPEST, steepest):
        found = most_of(plain(matrix), balanced(plain(matrix), right), np.array([[0.0, 0.0, 0.0, 1.0]]), 1e4)
    assert found == pytest.approx([1 / 20])


def test_a_search_that_is_cut_short_never_finds_too_much():
    """What holds is what a job is judged by."""
    random, short = np.random.default_rng(5), 0
    for _ in range(100):
        matrix, load = random.normal(size=(3, 40)), random.normal(size=(1, 3))
        start = balanced(plain(matrix), matrix @ random.random(40))
        whole = most_of(plain(matrix), start, load, 1e4)
        with patch("geometry.statics.simplex._MOST_TURNS", 1):
            cut = most_of(plain(matrix), start, load, 1e4)
        assert (cut <= whole + 1e-9).all()
        short += int((cut < whole - 1e-6).any())
    assert short > 10


def test_a_balance_whose_search_is_cut_short_lacks_more_and_raises_nothing():
    """What lacks counts as a piece that the clamps move: such a job is refused, not one that is not held passed."""
    random, short = np.random.default_rng(6), 0
    for _ in range(50):
        matrix = random.normal(size=(6, 20))
        right = matrix @ random.random(20)
        with patch("geometry.statics.simplex._MOST_TURNS", 0):
            cut = balanced(plain(matrix), right)
        assert cut.lack >= balanced(plain(matrix), right).lack - 1e-9
        short += cut.lack > 0.1
    assert short > 10
