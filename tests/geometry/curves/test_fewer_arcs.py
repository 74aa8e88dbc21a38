"""Chains of very many edges as few arcs."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.curves.biarcs import biarcs
from geometry.curves.fewer_arcs import MANY, fewer_arcs
from geometry.curves.spline import through
from geometry.plane.contour import FloatArray
from geometry.plane.profile import Profile

WITHIN = 0.005


def apart(polyline: FloatArray, arcs: FloatArray) -> float:
    """How far apart a chain of straight edges and a chain of arcs are at most, looked at both ways."""
    on_arcs = [edge.point_at(k / 60) for edge in Profile(arcs).edges() for k in range(61)]
    there = shapely.distance(shapely.LineString(polyline[:, :2]), shapely.points(on_arcs)).max()
    back = shapely.distance(shapely.LineString(on_arcs), shapely.points(polyline[:, :2])).max()
    return float(max(there, back))


def dense_curve(count: int, bends: list[float]) -> FloatArray:
    stations = np.column_stack((50.0 + np.array(bends), np.linspace(0.0, 160.0, len(bends))))
    curve = through(stations)
    points = curve.at(np.linspace(0.0, curve.knots[-1], count))
    return np.column_stack((points, np.zeros(count)))


@settings(max_examples=6)
@given(st.integers(400, 3000), st.lists(st.floats(-20.0, 25.0), min_size=4, max_size=7))
def test_a_dense_polyline_becomes_few_arcs_that_keep_to_it_both_ways(count: int, bends: list[float]) -> None:
    rows = dense_curve(count, bends)
    found = fewer_arcs(rows, WITHIN)
    assert len(found) < len(rows) / 4
    assert apart(rows, found) < WITHIN + 1e-3  # chords of the brute force
    assert found[0, :2] == pytest.approx(rows[0, :2])
    assert found[-1, :2] == pytest.approx(rows[-1, :2])


def test_arcs_of_a_smooth_curve_stay_tangent() -> None:
    rows = biarcs(
        through(np.column_stack((60 + 20 * np.sin(np.linspace(0, 5, 300)), np.linspace(0, 150, 300))))
    )
    found = fewer_arcs(rows, WITHIN)
    edges = Profile(found).edges()
    turns = [math.remainder(b.heading(0.0) - a.heading(1.0), 2 * math.pi) for a, b in pairwise(edges)]
    assert len(found) < len(rows) / 4
    assert max(map(abs, turns)) < 1e-3


def test_a_corner_between_dense_curves_stays_sharp() -> None:
    up, down = np.linspace(0.0, 60.0, 300), np.linspace(60.0, 120.0, 300)[1:]
    rows = np.column_stack(
        (np.append(40 + up / 3, 60 - (down - 60) / 2), np.append(up, down), np.zeros(len(up) + len(down)))
    )
    found = fewer_arcs(rows, WITHIN)
    assert np.hypot(*(found[:, :2] - (60.0, 60.0)).T).min() < 0.3
    assert apart(rows, found) < WITHIN + 1e-3


def test_few_edges_and_rough_ones_are_left_as_they_are() -> None:
    few = dense_curve(MANY - 10, [0.0, 10.0, 5.0, 0.0])
    assert fewer_arcs(few) is few
    rough = dense_curve(600, [0.0, 10.0, 5.0, 0.0])
    rough[1::2, 0] += 0.1
    assert fewer_arcs(rough) is rough
