"""Plans for sawing boards: against brute force where it can be had, against a solver with every way, against bounds."""

import math
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from geometry.packing.boards import (
    Board,
    NotEnough,
    Strips,
    Task,
    area_taken,
    fewer,
    finished,
    least_by_area,
    least_by_room,
    short_ends,
)
from geometry.packing.columns import least_cost
from geometry.packing.fill import fill, side_by_side, worths
from geometry.packing.plan import planned, tried
from tests.geometry.cutting_jobs import assert_sound, fewest_bought, random_task, ways


def able(task):
    return all(
        any(board.fits[k] or board.as_strip == k for board in task.boards) for k in range(len(task.strips))
    )


def told(task, plan):
    """What it costs, boards but for those taken as the strips that they are or, where some cost anything, those at hand
    that stay whole, and ends too short to be held."""
    boards = [task.boards[one.board] for one in plan]
    cost = sum(board.cost for board in boards)
    as_they_are = [
        k
        for one, board in zip(plan, boards, strict=True)
        for k, _ in one.lengths[0].strips
        if not board.fits[k]
    ]
    count = -sum(not board.cost for board in boards) if cost else len(plan) - len(as_they_are)
    return cost, count, short_ends(task, plan)


BOARD_TOO_MANY = (198,)  # which all ways to saw a board, looked through, would save


@pytest.mark.parametrize("seed", [*range(40), 139, 198, 281])
def test_tiny_jobs_buy_no_more_than_brute_force_finds(seed):
    task = random_task(seed)
    least = fewest_bought(task, 4)
    if least < math.inf:
        plan = planned(task)
        assert_sound(task, plan.sawn)
        assert plan.bound <= least == plan.cost - (seed in BOARD_TOO_MANY)


@pytest.mark.parametrize("seed", range(200, 230))
def test_small_jobs_buy_no_more_than_a_solver_does_that_has_every_way_to_saw_a_board(seed):
    """Larger than brute force can have: the ways by hand, the boards by scipy's integer program."""
    task = random_task(seed, most=24, sorts=2)
    columns = [
        (board.cost, number, way) for number, board in enumerate(task.boards) for way in ways(task, board)
    ]
    cost = np.array([cost for cost, _, _ in columns])
    pieces = np.array([way for _, _, way in columns]).T
    used = np.array([[number == b for _, number, _ in columns] for b in range(len(task.boards))])
    there = [math.inf if board.count is None else board.count for board in task.boards]
    found = milp(
        cost,
        integrality=np.ones(len(columns)),
        constraints=[
            LinearConstraint(pieces, [sort.wanted for sort in task.strips], np.inf),
            LinearConstraint(used, -np.inf, there),
        ],
    )
    plan = planned(task)
    assert_sound(task, plan.sawn)
    assert plan.bound <= found.fun + 1e-6
    assert plan.cost == pytest.approx(found.fun)


@given(st.integers(0, 10**6))
def test_no_plan_is_below_a_bound(seed):
    task = random_task(seed, most=60, sorts=5)
    if not able(task):
        return
    costs = [board.cost for board in task.boards]
    bounds = [least_cost(task).cost, least_by_area(task, costs), least_by_room(task)]
    rooms = [board.room * board.length for board in task.boards]
    plans = [fill(task, worths(task), spare, range(len(task.boards))) for spare in (True, False)]
    for sawn in [finished(task, cuttings) for cuttings, left in plans if not any(left)]:
        assert_sound(task, sawn)
        cost = sum(task.boards[one.board].cost for one in sawn)
        assert max(bounds) <= cost + 1e-6
        assert least_by_area(task, rooms) <= area_taken(task, sawn) * (1 + 1e-6) + max(rooms) * 1e-6


def test_ends_of_strips_are_room_that_a_board_at_hand_lacks():
    """Along 1000 mm at most 700 in pieces of 70: two strips of 5, each behind an end of 150; 12 need 840."""
    strips = Strips(50.0, 150.0, 70.0, 5), Strips(50.0, 150.0, 70.0, 5), Strips(50.0, 150.0, 70.0, 2)
    board = Board(50.0, 1000.0, 0.0, 1, (True,) * 3)
    task = Task(strips, (board, Board(100.0, 2000.0, 1.0, None, (True,) * 3)), kerf=0.0)
    assert least_by_room(fewer(task, (5, 5, 0))) == 0.0 == planned(fewer(task, (5, 5, 0))).cost
    assert 0.0 < least_by_room(task) < 1.0 == planned(task).bound
    for none in (board, replace(board, fits=(False,) * 3)):
        assert least_by_room(replace(task, boards=(none,))) == math.inf


def test_a_board_as_wide_as_a_strip_is_ripped_to_others_where_that_gives_all():
    """Kept for the one strip that it is, it would not give the narrow ones, and one more would be bought."""
    wide, narrow = Strips(60.0, 0.0, 100.0, 1), Strips(28.0, 0.0, 100.0, 18)
    board = Board(58.0, 1000.0, 0.0, 1, (False, True), as_strip=0)
    task = Task((wide, narrow), (board, Board(100.0, 200.0, 1.0, None, (True, True))), kerf=2.0)
    assert planned(task).cost == 1.0
    assert planned(fewer(task, (8, 0))).cost == 0.0


@given(st.integers(0, 10**6))
def test_of_the_ways_tried_the_one_with_the_fewest_ends_too_short_is_taken(seed):
    """Where it costs no more and is of no more boards."""
    task = random_task(seed, most=40, sorts=4)
    best = tried(task)
    for spare in (True, False):
        cuttings, left = fill(task, worths(task), spare, range(len(task.boards)))
        if not any(left):
            other = finished(task, cuttings)
            assert best is not None
            assert told(task, best) <= told(task, other)


def test_pieces_are_shared_out_so_that_no_strip_ends_too_short_to_hold():
    """Two strips of 1000 mm for 16 pieces: 9 and 7 would leave 100 mm of one; 8 and 8 leave 200 of each."""
    strips = Strips(width=50.0, start=0.0, each=100.0, wanted=16, spare=150.0)
    task = Task((strips,), (Board(100.0, 1000.0, 1.0, None, (True,)),), kerf=0.0)
    (one,) = planned(task).sawn
    (length,) = one.lengths
    assert length.strips == ((0, 8), (0, 8))
    assert length.length == pytest.approx(950.0)
    assert short_ends(task, (one,)) == 0


def test_two_lengths_of_one_board_may_be_unequal():
    """Crosscut in halves it would give the long strips or the short ones, not both."""
    long, short = Strips(50.0, 0.0, 700.0, 2), Strips(50.0, 0.0, 300.0, 2)
    task = Task((long, short), (Board(100.0, 1002.0, 1.0, None, (True, True)),), kerf=2.0)
    (one,) = planned(task).sawn
    assert sorted(length.length for length in one.lengths) == pytest.approx([300.0, 700.0])


def test_a_board_is_not_crosscut_shorter_than_its_strips_ask():
    strips = Strips(width=50.0, start=0.0, each=100.0, wanted=2, least=400.0)
    (one,) = planned(Task((strips,), (Board(50.0, 1000.0, 1.0, None, (True,)),), kerf=3.0, least=300.0)).sawn
    assert one.lengths[0].length == pytest.approx(400.0)
    assert one.rest == pytest.approx(597.0)


def test_a_rest_too_short_to_hold_stays_on_its_strips():
    strips = Strips(width=50.0, start=0.0, each=100.0, wanted=8)
    (one,) = planned(Task((strips,), (Board(50.0, 1000.0, 1.0, None, (True,)),), kerf=3.0, least=300.0)).sawn
    assert (one.lengths[0].length, one.rest) == (1000.0, 0.0)


@pytest.mark.parametrize("count", [1, 2])
def test_boards_that_are_too_few_are_refused(count):
    strips = Strips(width=50.0, start=0.0, each=100.0, wanted=30)
    task = Task((strips,), (Board(50.0, 1000.0, 0.0, count, (True,)),), kerf=3.0)
    with pytest.raises(NotEnough):
        planned(task)


@given(
    st.lists(st.tuples(st.floats(10, 70), st.floats(1, 50), st.integers(1, 4)), min_size=1, max_size=4),
    st.floats(60, 220),
)
def test_the_strips_worth_most_side_by_side_are_those_that_trying_all_finds(sorts, room):
    widths, tables = [wide for wide, _, _ in sorts], [np.arange(n + 1) * worth for _, worth, n in sorts]
    value, strips = side_by_side(widths, tables, room)
    grid = np.indices([len(table) for table in tables]).reshape(len(tables), -1).T
    fit = [row for row in grid if row @ np.array(widths) <= room]
    best = max(sum(table[n] for table, n in zip(tables, row, strict=True)) for row in fit)
    assert value == pytest.approx(best)
    assert sum(n * wide for n, wide in zip(strips, widths, strict=True)) <= room + 1e-9


def test_solver_is_silent_and_not_loaded_where_it_is_not_needed():
    code = """
import sys
from geometry.packing.boards import Board, Strips, Task
from geometry.packing.plan import planned
board = Board(100.0, 1000.0, 1.0, None, (True,))
plan = planned(Task((Strips(45.0, 0.0, 100.0, 20),), (board,), 3.0))
assert plan.cost == plan.bound
assert "highspy" not in sys.modules
board = Board(100.0, 1000.0, 1.0, None, (True, True))
many = Task((Strips(60.0, 0.0, 1000.0, 3), Strips(41.0, 0.0, 1000.0, 3)), (board,), 3.0)
assert planned(many).cost == 5.0
assert "highspy" in sys.modules
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("", "")
