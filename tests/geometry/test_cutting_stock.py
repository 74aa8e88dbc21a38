"""Ripping plans: against brute force where it can be had, against their own bound where not."""

import itertools
import math
import random
import subprocess
import sys
from collections.abc import Sequence
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.cutting_patterns import best_pattern
from geometry.cutting_stock import NotEnough, Packing, Pattern, StockSize, first_fit, pack

Job = tuple[list[float], list[int], float, list[StockSize]]


def boards_like(size: float, *yields: int, count: int | None = None, cost: float = 1.0) -> StockSize:
    return StockSize(size, cost, count, yields)


def width_used(pieces: Sequence[int], sizes: Sequence[float], kerf: float) -> float:
    """Across a board: each strip and the cuts between them."""
    return sum(n * size for n, size in zip(pieces, sizes, strict=True)) + max(sum(pieces) - 1, 0) * kerf


def assert_sound(patterns: Sequence[Pattern], job: Job) -> None:
    """Each pattern fits its board, all pieces are there, no more boards are used than there are."""
    sizes, demand, kerf, stock = job
    got, used = np.zeros(len(sizes), dtype=int), np.zeros(len(stock), dtype=int)
    for pattern in patterns:
        board = stock[pattern.stock]
        assert width_used(pattern.pieces, sizes, kerf) <= board.size + 2e-6
        got += pattern.times * np.array(pattern.pieces) * board.yields
        used[pattern.stock] += pattern.times
    assert np.all(got >= demand)
    assert all(board.count is None or n <= board.count for n, board in zip(used, stock, strict=True))


def cost_of(patterns: Sequence[Pattern], stock: Sequence[StockSize]) -> float:
    return sum(pattern.times * stock[pattern.stock].cost for pattern in patterns)


def least_cost(job: Job) -> float:
    """By trying every board with everything that fits on it; infinite where the stock is not enough."""
    sizes, demand, kerf, stock = job
    ways = [fillings(sizes, kerf, board) for board in stock]

    @cache
    def least(left: tuple[int, ...], counts: tuple[int, ...]) -> float:
        if not any(left):
            return 0.0
        low = math.inf
        for number, there in enumerate(counts):
            rest = (*counts[:number], there - 1, *counts[number + 1 :])
            for after in {after_board(left, way) for way in ways[number] if there} - {left}:
                low = min(low, stock[number].cost + least(after, rest))
        return low

    return least(tuple(demand), tuple(sum(demand) if b.count is None else b.count for b in stock))


def fillings(sizes: Sequence[float], kerf: float, board: StockSize) -> list[tuple[int, ...]]:
    """Pieces of each item from all ways to rip one board."""
    most = [int((board.size + kerf + 1e-6) // (size + kerf)) for size in sizes]
    strips = itertools.product(*(range(n + 1) for n in most))
    fit = [way for way in strips if width_used(way, sizes, kerf) <= board.size + 1e-6]
    return [tuple(n * y for n, y in zip(way, board.yields, strict=True)) for way in fit]


def after_board(left: tuple[int, ...], pieces: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(max(0, a - b) for a, b in zip(left, pieces, strict=True))


@st.composite
def tiny_jobs(draw: st.DrawFn) -> Job:
    items = draw(st.integers(1, 3))
    tenths = draw(st.lists(st.integers(180, 700), min_size=items, max_size=items))
    demand = draw(st.lists(st.integers(0, 5), min_size=items, max_size=items))
    stock = [
        StockSize(
            size := float(draw(st.integers(70, 180))),
            size * draw(st.sampled_from([800.0, 1000.0])),
            draw(st.none() | st.integers(0, 5)),
            tuple(draw(st.lists(st.integers(0, 3), min_size=items, max_size=items))),
        )
        for _ in range(draw(st.integers(1, 2)))
    ]
    return [tenth / 10 for tenth in tenths], demand, draw(st.sampled_from([0.0, 1.5, 3.2])), stock


def packed(job: Job) -> Packing | None:
    try:
        return pack(*job)
    except NotEnough:
        return None


@settings(max_examples=100, deadline=None)
@given(tiny_jobs())
def test_tiny_jobs_cost_what_brute_force_finds(job: Job) -> None:
    packing, least = packed(job), least_cost(job)
    assert (packing is None) == (least == math.inf)
    if packing is not None:
        assert_sound(packing.patterns, job)
        assert packing.bound <= least * (1 + 1e-9)
        assert packing.cost == pytest.approx(least, rel=1e-9)
        assert packing.cost == pytest.approx(cost_of(packing.patterns, job[3]), rel=1e-12)


def turners_job(seed: int) -> Job:
    """Widths of a turner's strips, boards on hand of a few sizes, one more that can be bought."""
    rng = random.Random(seed)
    items = rng.randint(3, 6)
    lengths = [rng.uniform(20.0, 120.0) for _ in range(items)]
    kerf = rng.choice([1.5, 2.0, 2.4, 3.2])
    stock = []
    for number in range(rng.randint(1, 4)):
        size, long = (
            rng.choice([100.0, 120.0, 150.0, 160.0, 200.0]),
            rng.choice([600.0, 1000.0, 1200.0, 2000.0]),
        )
        yields = tuple(int((long - 60.0) // (length + kerf)) for length in lengths)
        stock.append(StockSize(size, size * long, rng.randint(1, 8) if number else None, yields))
    demand = [rng.choice([8, 12, 16, 24, 36, 48, 72, 128, 200]) for _ in range(items)]
    return [round(rng.uniform(15.0, 80.0), 1) for _ in range(items)], demand, kerf, stock[::-1]


@pytest.mark.parametrize("seed", range(50))
def test_random_jobs_are_within_a_board_of_their_bound(seed: int) -> None:
    job = turners_job(seed)
    packing = pack(*job)
    assert_sound(packing.patterns, job)
    assert packing.bound <= packing.cost <= packing.bound + max(board.cost for board in job[3])
    assert packing.cost <= packing.first_fit
    greedy = first_fit(*job)
    if greedy is not None:
        assert_sound(greedy, job)
        assert packing.first_fit == pytest.approx(cost_of(greedy, job[3]))
    assert (greedy is None) == (packing.first_fit == math.inf)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_kerf_is_the_same_as_wider_board_and_wider_strips(seed: int) -> None:
    sizes, demand, kerf, stock = turners_job(seed)
    wider = [StockSize(b.size + kerf, b.cost, b.count, b.yields) for b in stock]
    assert pack(sizes, demand, kerf, stock) == pack([size + kerf for size in sizes], demand, 0.0, wider)


@pytest.mark.parametrize("kerf", [0.0, 0.1, 2.4])
def test_strips_that_fill_a_board_to_its_far_edge_fit(kerf: float) -> None:
    board = boards_like(3 * 33.3 + 2 * kerf, 1)
    assert pack([33.3], [6], kerf, [board]).patterns == (Pattern(0, (3,), 2),)
    short = boards_like(board.size - 1e-3, 1)
    assert pack([33.3], [6], kerf, [short]).patterns == (Pattern(0, (2,), 3),)


def test_first_fit_puts_the_widest_first_and_takes_boards_as_listed() -> None:
    stock = [boards_like(100.0, 1, 1, count=1), boards_like(60.0, 1, 1)]
    assert first_fit([40.0, 55.0], [2, 1], 0.0, stock) == (Pattern(0, (1, 1), 1), Pattern(1, (1, 0), 1))


def test_solver_finds_a_way_where_first_fit_runs_out_of_boards() -> None:
    job = ([40.0, 30.0, 60.0], [2, 4, 0], 0.0, [boards_like(100.0, 1, 1, 1, count=2)])
    assert first_fit(*job) is None
    packing = pack(*job)
    assert_sound(packing.patterns, job)
    assert (packing.cost, packing.first_fit, packing.by) == (2.0, math.inf, "integer program")


def test_item_that_fits_no_board_is_named_with_all_its_pieces() -> None:
    with pytest.raises(NotEnough) as caught:
        pack([40.0, 120.0, 30.0], [3, 7, 2], 2.0, [boards_like(100.0, 1, 1, 0)])
    assert caught.value.short == (0, 7, 2)


def test_too_few_boards_say_how_many_pieces_are_missing() -> None:
    with pytest.raises(NotEnough) as caught:
        pack([40.0], [9], 2.0, [boards_like(100.0, 2, count=2)])
    assert caught.value.short == (1,)


def test_nothing_wanted_takes_no_board() -> None:
    assert pack([40.0, 500.0], [0, 0], 2.0, [boards_like(100.0, 1, 1)]).patterns == ()
    assert pack([], [], 2.0, []).cost == 0.0


def test_sizes_and_costs_of_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="above nothing"):
        pack([0.0], [1], 2.0, [boards_like(100.0, 1)])
    with pytest.raises(ValueError, match="above nothing"):
        pack([10.0], [1], 2.0, [boards_like(100.0, 1, cost=0.0)])


def test_hundreds_of_pieces_of_thirty_widths_are_within_a_twentieth_of_their_bound() -> None:
    rng = random.Random(4)
    sizes = [rng.randint(40, 120) / 2 for _ in range(30)]
    job = sizes, [rng.randint(5, 15) for _ in sizes], 2.4, [boards_like(200.0, *[1] * 30)]
    packing = pack(*job)
    assert_sound(packing.patterns, job)
    assert packing.bound <= packing.cost <= min(packing.bound * 1.05, packing.first_fit)


def test_same_job_has_the_same_plan_every_time() -> None:
    assert pack(*turners_job(12)) == pack(*turners_job(12))


def test_no_strip_is_cut_that_nobody_wants() -> None:
    for seed in range(1, 6):
        sizes, demand, kerf, stock = turners_job(seed)
        packing = pack(sizes, demand, kerf, stock)
        got = sum(p.times * np.array(p.pieces) * stock[p.stock].yields for p in packing.patterns)
        for pattern in packing.patterns:
            each = np.array(stock[pattern.stock].yields)
            assert not np.any((np.array(pattern.pieces) > 0) & (got - each >= demand))


def test_solver_is_silent_and_not_loaded_where_first_fit_is_enough() -> None:
    code = """
import sys
from geometry.cutting_stock import StockSize, pack
assert pack([45.0], [4], 0.0, [StockSize(100.0, 1.0, None, (1,))]).by == "first fit"
assert "highspy" not in sys.modules
stock = StockSize(100.0, 1.0, None, (1, 1, 1, 1))
assert pack([45.0, 36.0, 31.0, 14.0], [97, 610, 395, 211], 0.0, [stock]).by == "integer program"
assert "highspy" in sys.modules
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(10.0, 60.0), st.floats(0.0, 5.0), st.integers(0, 4)), min_size=1, max_size=4
    ),
    st.floats(50.0, 200.0),
    st.floats(0.0, 12.0),
)
def test_best_pattern_is_the_best_of_all(
    items: list[tuple[float, float, int]], room: float, above: float
) -> None:
    widths, values, most = (np.array(column) for column in zip(*items, strict=True))
    ways = np.array(list(itertools.product(*(range(n + 1) for n in most))))
    best = float(np.max(ways[ways @ widths <= room] @ values))
    found = best_pattern(widths, values, most, room, above)
    if found is None:
        assert best <= above + 1e-9
    else:
        worth, strips = found
        assert worth == pytest.approx(best)
        assert worth > above
        assert np.array(strips) @ values == pytest.approx(worth)
        assert np.array(strips) @ widths <= room + 1e-9
