"""Roughing by flats, held against polygons whose corners are clipped by tangents."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.lathe.roughing import FlatsStep, flats_steps


def gon(n: int, apothem: float) -> shapely.Polygon:
    corners = 2 * math.pi / n * (np.arange(n) + 0.5)
    return shapely.Polygon(
        apothem / math.cos(math.pi / n) * np.column_stack((np.cos(corners), np.sin(corners)))
    )


@given(st.integers(3, 24).map(lambda half: 2 * half), st.floats(5.0, 80.0))
def test_a_step_cuts_each_corner_to_the_polygon_of_twice_the_sides(n: int, radius: float) -> None:
    step = FlatsStep(radius, n)
    before, after = gon(n, radius), gon(2 * n, radius)
    chips = before.difference(after.buffer(1e-9))
    assert len(chips.geoms) == n
    # The chip at the first corner: how far it runs along the sides, and how deep it is.
    corner = np.array(before.exterior.coords[0])
    marks = np.array(after.exterior.coords)
    near = np.sort(np.hypot(*(marks[:-1] - corner).T))[:2]
    assert near == pytest.approx([step.along] * 2)
    assert np.hypot(*corner) - radius == pytest.approx(step.depth)
    assert np.hypot(*(marks[1] - marks[0])) == pytest.approx(step.new_flat)
    assert np.hypot(*marks[0]) - radius == pytest.approx(step.left)


@given(st.integers(3, 48).map(lambda half: 2 * half), st.floats(5.0, 80.0), st.floats(0.05, 2.0))
def test_steps_go_on_until_little_is_left(n: int, radius: float, most: float) -> None:
    steps = flats_steps(radius, n, most)
    assert [step.sides for step in steps] == [n * 2**k for k in range(len(steps))]
    assert all(step.depth > most for step in steps)
    last = steps[-1].left if steps else radius * (1 / math.cos(math.pi / n) - 1)
    assert last <= most
