"""A stack that grew too high or too low, against points on the vessel."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.blanks.ring_stack import Ring, ring
from geometry.bodies.section import Section
from geometry.measuring.vessel import best_raise, least_left, square_left
from geometry.plane.edges import FloatArray, points_along
from tests.geometry.vessels import sections


def stack(body: Section, count: int, allowance: float) -> list[Ring]:
    height = body.height / count
    return [ring(body, k + 1, k * height, height, 12, allowance) for k in range(count)]


def by_points(body: Section, rings: list[Ring], tops: list[float]) -> float:
    """Outside and inside of the finished wall at many places, each in the ring that it lies in."""
    low = np.linspace(0.0, body.inner.bottom, 1600)[:-1]
    hollow = np.column_stack((np.where(low <= body.recess_depth, body.recess_radius, 0.0), low))
    r, z = along(body.outer.vertices).T
    left = np.array([one.outer for one in rings])[np.searchsorted(tops, z)] - r
    r, z = np.vstack((hollow, along(body.inner.vertices[1:]))).T  # less the floor's flat
    core = np.array([one.core / math.cos(one.mitre) for one in rings])[np.searchsorted(tops, z)]
    return float(min(left.min(), (r - core)[core > 0.0].min(initial=math.inf)))


def along(chain: FloatArray) -> FloatArray:
    """1600 points on each edge."""
    start, end = chain[:-1, None], chain[1:, None]
    turned, share = 4.0 * np.arctan(start[..., 2]), np.linspace(0.0, 1.0, 1600)
    return points_along(start[..., :2], end[..., :2], turned, share).reshape(-1, 2)


@given(sections(), st.integers(3, 9), st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_what_a_shifted_stack_still_holds(body: Section, count: int, low: float, high: float):
    """Injected: the lowest joint off by `low`, the one in the middle by `high`; held where rings reach."""
    rings = stack(body, count, 2.0)
    tops = [one.top for one in rings]
    tops[0] += low
    tops[count // 2] += high
    tops[-1] += 5.0  # enough above the rim
    left, at = least_left(body, rings, tops)
    points = by_points(body, rings, tops)
    assert left <= points + 1e-6
    assert left == pytest.approx(points, abs=0.15)  # between two points a steep wall goes on
    assert 1 <= at <= count


@settings(max_examples=10)
@given(sections(), st.integers(4, 9), st.floats(0.5, 2.0))
def test_raising_the_vessel_in_its_stack_never_leaves_less(body: Section, count: int, off: float):
    rings = stack(body, count, 2.0)
    tops = [one.top + off for one in rings]
    by, spare = best_raise(body, rings, tops, (-3.0, 3.0), enough=4.0)
    assert spare >= least_left(body, rings, tops, allowance=4.0)[0] - 1e-6
    assert least_left(body, rings, tops, by, 4.0)[0] == pytest.approx(spare, abs=1e-5)


def faces(radii: list[float], tops: list[float], low: float) -> list[tuple[float, float, float, float]]:
    """A blank's own surface, turned: upright in each ring, level where the next one steps in or out."""
    upright = [(r, a, r, b) for r, a, b in zip(radii, [low, *tops], tops, strict=False)]
    level = [(min(a, b), z, max(a, b), z) for a, b, z in zip(radii, radii[1:], tops, strict=False)]
    return upright + level


def nearest(points: np.ndarray, boxes: list[tuple[float, float, float, float]]) -> float:
    """From points to the nearest of faces that are upright or level."""
    return min(
        float(np.hypot(*(points - np.clip(points, (x0, y0), (x1, y1))).T).min()) for x0, y0, x1, y1 in boxes
    )


@settings(max_examples=8)
@given(sections(), st.integers(3, 7))
def test_wood_square_to_the_form_is_what_lies_between_its_surface_and_the_blank_s(body: Section, count: int):
    rings = stack(body, count, 2.5)
    tops = [one.top for one in rings]
    square, at = square_left(body, rings, tops)
    heights = np.linspace(0.01, body.height - 0.01, 3000)
    outer = np.array([(body.outer.radius_at(z), z) for z in heights.tolist()])
    found = nearest(outer, faces([one.outer for one in rings], tops, 0.0))
    open_ = [one for one in rings if one.core]
    if open_:
        own = [one.core / math.cos(one.mitre) for one in open_]
        inside = np.array(body.inner.points)
        more = [(body.inner.radius_at(z), z) for z in heights.tolist() if z > body.inner.bottom]
        foot = (0.0, open_[0].bottom, own[0], open_[0].bottom) if open_[0].number > 1 else None
        walls = [*faces(own, [one.top for one in open_], open_[0].bottom), *([foot] if foot else [])]
        found = min(found, nearest(np.vstack((inside[:, :2], more)), walls))
    assert square == pytest.approx(found, abs=0.06)
    assert square <= least_left(body, rings, tops)[0] + 0.01
    assert 1 <= at <= count
