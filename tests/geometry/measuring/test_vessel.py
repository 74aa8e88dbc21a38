"""A stack that grew too high or too low, against points on the vessel."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.blanks.ring_stack import Ring, ring
from geometry.bodies.section import Section
from geometry.measuring.vessel import best_raise, least_left
from tests.geometry.vessels import sections


def stack(body: Section, count: int, allowance: float) -> list[Ring]:
    height = body.height / count
    return [ring(body, k + 1, k * height, height, 12, allowance) for k in range(count)]


def by_points(body: Section, rings: list[Ring], tops: list[float], raised: float) -> float:
    """Outside and inside of the finished wall at many heights, each in the ring that it lies in."""
    left = []
    for z in np.linspace(0.01, body.height - 0.01, 4000):
        k = int(np.searchsorted(tops, z + raised))
        if k >= len(rings):
            return -math.inf
        inner, outer = body.wall_at(float(z))
        left.append(rings[k].outer - outer)
        if rings[k].core:
            left.append(inner - rings[k].core / math.cos(rings[k].mitre))
    return min(left)


@settings(max_examples=25)
@given(sections(), st.integers(3, 9), st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_what_a_shifted_stack_still_holds(body: Section, count: int, low: float, high: float):
    """Injected: the lowest joint off by `low`, the one in the middle by `high`; held where rings reach."""
    rings = stack(body, count, 2.0)
    tops = [one.top for one in rings]
    tops[0] += low
    tops[count // 2] += high
    tops[-1] += 5.0  # enough above the rim
    left, at = least_left(body, rings, tops)
    points = by_points(body, rings, tops, 0.0)
    assert left <= points + 1e-6
    assert left == pytest.approx(points, abs=0.15)  # between two points a steep wall goes on
    assert 1 <= at <= count


@settings(max_examples=10)
@given(sections(), st.integers(4, 9), st.floats(0.5, 2.0))
def test_raising_the_vessel_in_its_stack_never_leaves_less(body: Section, count: int, off: float):
    rings = stack(body, count, 2.0)
    tops = [one.top + off for one in rings]
    by, left = best_raise(body, rings, tops, (-3.0, 3.0), enough=10.0)
    assert left >= least_left(body, rings, tops)[0] - 1e-6
    assert least_left(body, rings, tops, by)[0] == pytest.approx(left, abs=1e-5)
