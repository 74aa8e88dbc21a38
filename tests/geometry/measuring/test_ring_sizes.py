"""Rings that are not alike: laid round as polygons, in the best order, sanded."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.measuring.ring_sizes import best_order, centre_radii, closure, sorts_of, to_sand

seeds = st.integers(0, 2**32 - 1)
counts = st.integers(3, 30).map(lambda half: 2 * half)


def rings(count: int, seed: int, spread: float = 0.4) -> np.ndarray:
    return 40 + np.random.default_rng(seed).normal(0, spread, count)


def ends_miss(thick: np.ndarray) -> float:
    """Walked round: from the last outer corner back to the first."""
    place = np.zeros(2)
    for k, side in enumerate(thick):
        turn = 2 * math.pi * k / len(thick)
        place = place + side * np.array((math.cos(turn), math.sin(turn)))
    return float(np.hypot(*place))


@given(counts, seeds)
def test_the_closure_vector_is_the_gap_that_is_walked(count: int, seed: int):
    thick = rings(count, seed)
    assert abs(closure(thick)) == pytest.approx(ends_miss(thick), abs=1e-9)


@given(seeds)
def test_few_rings_get_the_best_of_all_orders(seed: int):
    thick = rings(6, seed)
    least = min(ends_miss(thick[[0, *rest]]) for rest in itertools.permutations(range(1, 6)))
    found = best_order(thick, np.zeros(6, dtype=int))
    assert found.miss == found.bound == pytest.approx(least)
    assert sorted(found.rings) == list(range(6))


@settings(max_examples=10)
@given(st.sampled_from((16, 18, 24)), seeds)
def test_many_rings_close_to_less_than_a_calliper_shows(count: int, seed: int):
    thick = rings(count, seed)
    found = best_order(thick, np.zeros(count, dtype=int))
    assert found.miss == pytest.approx(ends_miss(thick[list(found.rings)]), abs=1e-9)
    assert found.miss < 0.05 <= 0.05 + abs(closure(thick))


@settings(max_examples=10)
@given(seeds)
def test_rings_of_unlike_woods_and_ends_of_halves_keep_their_sort(seed: int):
    woods = [("maple",) if k % 2 else ("walnut",) for k in range(12)]
    sorts = sorts_of(woods, ends=True)
    found = best_order(rings(12, seed), sorts)
    assert all(woods[ring] == woods[place] for place, ring in enumerate(found.rings))
    assert all(found.rings[end - 1] == end - 1 for end in (1, 6, 7, 12))
    assert found.miss <= abs(closure(rings(12, seed))) + 1e-9


@given(counts, seeds)
def test_sanding_closes_what_no_order_closed(count: int, seed: int):
    thick = np.sort(rings(count, seed, 1.0))  # the worst order
    off = to_sand(thick)
    assert off.min() >= 0
    assert ends_miss(thick - off) < 0.02 * count
    assert off.max() <= 4 * abs(closure(thick)) / count * 1.5


@given(seeds)
def test_ordering_by_readings_with_noise_beats_leaving_them(seed: int):
    noise = np.random.default_rng(seed)
    thick = rings(18, seed, 0.3)
    read = thick + np.clip(noise.normal(0, 0.025, 18), -0.05, 0.05)
    order = list(best_order(read, np.zeros(18, dtype=int)).rings)
    assert ends_miss(thick[order]) < 0.05 * 18**0.5 * 1.5 < 0.5


def test_radii():
    assert centre_radii(np.full(16, 60.0), np.full(16, 37.5))[0] == pytest.approx(
        30 / math.tan(math.pi / 16) - 37.5
    )
