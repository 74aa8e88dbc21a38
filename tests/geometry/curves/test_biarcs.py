import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from geometry.curves.biarcs import Curve, biarcs, deviation
from geometry.curves.spline import through
from geometry.plane.contour import FloatArray
from geometry.plane.edges import Edge
from geometry.plane.profile import Profile
from tests.geometry.curves.test_spline import stations

VASE = [(40, 0), (42, 5), (60, 20), (80, 45), (85, 70), (75, 100), (50, 130), (35, 150), (36, 165), (45, 180)]


class Polynomial:
    """A curve of two polynomials, their coefficients from the highest power down."""

    def __init__(self, x: list[float], y: list[float], start: float = 0.0) -> None:
        self.x, self.y = np.poly1d(x), np.poly1d(y)
        self.knots = np.array((start, 1.0))

    def at(self, t: FloatArray) -> FloatArray:
        return np.column_stack((self.x(t), self.y(t)))

    def derivative(self, t: FloatArray) -> FloatArray:
        return np.column_stack((self.x.deriv()(t), self.y.deriv()(t)))


class Turn:
    """A circle's arc, in one span."""

    def __init__(self, radius: float, angle: float) -> None:
        self.radius, self.knots = radius, np.array((0.0, angle))

    def at(self, t: FloatArray) -> FloatArray:
        return self.radius * np.column_stack((np.cos(t), np.sin(t)))

    def derivative(self, t: FloatArray) -> FloatArray:
        return self.radius * np.column_stack((-np.sin(t), np.cos(t)))


class Bent:
    """Two straight lines with a kink at the knot between them."""

    knots = np.array((0.0, 1.0, 2.0))

    def at(self, t: FloatArray) -> FloatArray:
        return np.column_stack((20.0 * np.minimum(t, 1.0), 20.0 * np.maximum(t - 1.0, 0.0)))

    def derivative(self, t: FloatArray) -> FloatArray:
        return np.where(np.asarray(t)[:, None] < 1.0, (20.0, 0.0), (0.0, 20.0))


def edges_of(rows: FloatArray) -> tuple[Edge, ...]:
    return Profile(rows).edges()


def kinks(rows: FloatArray) -> FloatArray:
    """The angle, without sign, between neighbouring edges."""
    edges = edges_of(rows)
    turns = [b.heading(0.0) - a.heading(1.0) for a, b in pairwise(edges)]
    return np.abs((np.array(turns) + math.pi) % (2.0 * math.pi) - math.pi)


def apart(curve: Curve, rows: FloatArray) -> float:
    """The farthest that either is from the other, by the dense polylines of both (within some 1e-4 mm)."""
    spans = [np.linspace(a, b, 1600) for a, b in pairwise(curve.knots)]
    on_curve = curve.at(np.concatenate(spans))
    on_chain = np.array([edge.point_at(t) for edge in edges_of(rows) for t in np.linspace(0.0, 1.0, 80)])
    return max(farthest(on_curve, on_chain), farthest(on_chain, on_curve))


def farthest(points: FloatArray, line: FloatArray) -> float:
    """The farthest that any of the points is from a polyline."""
    tree = shapely.STRtree(shapely.linestrings(np.stack((line[:-1], line[1:]), axis=1)))
    _, found = tree.query_nearest(shapely.points(points), all_matches=False, return_distance=True)
    return float(found.max())


@given(stations(), st.sampled_from((0.05, 0.005)))
def test_the_arcs_and_the_curve_are_no_farther_apart_than_the_tolerance(
    points: FloatArray, tolerance: float
) -> None:
    curve = through(points)
    assert apart(curve, biarcs(curve, tolerance)) <= tolerance


@given(stations())
def test_the_arcs_are_tangent_and_start_and_end_with_the_curve(points: FloatArray) -> None:
    curve = through(points)
    speeds = np.hypot(*curve.derivative(np.linspace(curve.knots[0], curve.knots[-1], 20_001)).T)
    assume(speeds.min() > speeds.max() / 1000)  # else it almost stops: a cusp
    rows = biarcs(curve)
    assert kinks(rows).max(initial=0.0) < 1e-5
    assert rows[0, :2].tolist() == curve.at(curve.knots[:1])[0].tolist()
    assert rows[-1].tolist() == [*curve.at(curve.knots[-1:])[0].tolist(), 0.0]
    first, *_, last = headings = [edge.heading(t) for edge in edges_of(rows) for t in (0.0, 1.0)]
    ends = curve.derivative(curve.knots[[0, -1]])
    assert len(headings) == 2 * (len(rows) - 1)
    for heading, (dx, dy) in zip((first, last), ends, strict=True):
        assert abs(math.remainder(heading - math.atan2(dy, dx), 2.0 * math.pi)) < 1e-5


@settings(max_examples=10)
@given(stations())
def test_the_deviation_is_what_dense_lines_say(points: FloatArray) -> None:
    curve = through(points)
    rows = biarcs(curve, 0.05)
    assert deviation(curve, rows) == pytest.approx(apart(curve, rows), abs=1e-3)


def test_the_deviation_sees_a_chain_that_goes_astray() -> None:
    curve = through([(0.0, 0.0), (10.0, 0.0)])
    there_and_out = np.array(
        ((0.0, 0.0, 0.0), (5.0, 0.0, 0.0), (5.0, 3.0, 0.0), (5.0, 0.0, 0.0), (10.0, 0.0, 0.0))
    )
    assert deviation(curve, there_and_out) == pytest.approx(3.0)
    assert deviation(curve, np.array(((0.0, 0.0, 0.0), (6.0, 0.0, 0.0)))) == pytest.approx(4.0)


def test_a_finer_tolerance_takes_more_arcs_but_not_many() -> None:
    curve = through(VASE)
    counts = [len(biarcs(curve, tolerance)) - 1 for tolerance in (0.5, 0.05, 0.005, 0.0005)]
    assert counts == sorted(counts)
    # A biarc's deviation goes with the cube of its length: a tenth takes 2.15 times as many.
    assert counts[2] <= 60
    assert counts[3] <= 3.0 * counts[2]


def test_a_profile_is_fitted_in_few_looks_at_its_curve() -> None:
    class Counted(Polynomial):
        looks = 0

        def at(self, t: FloatArray) -> FloatArray:
            self.looks += 1
            return super().at(t)

    curve = Counted([60.0, -90.0, 30.0, 40.0], [80.0, 0.0])
    assert len(biarcs(curve, 1e-4)) > 30
    assert curve.looks <= 8  # one for all stretches of a halving, and one for the end


@pytest.mark.parametrize("angle", [1.0, 2.0, math.pi, 5.0, 2.0 * math.pi])
def test_a_turn_in_one_span_is_its_circle_again(angle: float) -> None:
    rows = biarcs(Turn(40.0, angle))
    assert [edge.radius for edge in edges_of(rows)] == pytest.approx([40.0] * (len(rows) - 1))
    assert sum(edge.angle for edge in edges_of(rows)) == pytest.approx(angle)


def test_an_inflection_within_a_span_is_followed() -> None:
    curve = Polynomial([60.0, -90.0, 30.0, 40.0], [80.0, 0.0])
    rows = biarcs(curve)
    assert apart(curve, rows) <= 0.005
    assert {math.copysign(1.0, edge.bulge) for edge in edges_of(rows)} == {1.0, -1.0}
    assert kinks(rows).max() < 1e-5


def test_what_is_straight_stays_straight() -> None:
    assert biarcs(through([(30.0, 0.0), (33.0, 4.0)])).tolist() == [[30.0, 0.0, 0.0], [33.0, 4.0, 0.0]]
    rows = biarcs(through([(30.0, 0.0), (33.0, 4.0), (36.0, 8.0)]))
    assert rows[:, 2].tolist() == [0.0, 0.0, 0.0]


def test_a_kink_at_a_knot_stays_a_kink() -> None:
    assert biarcs(Bent()).tolist() == [[0.0, 0.0, 0.0], [20.0, 0.0, 0.0], [20.0, 20.0, 0.0]]


def test_a_curve_that_stops_at_its_start_sets_out_as_it_goes_on() -> None:
    curve = Polynomial(
        [10.0, 0.0, 0.0], [30.0, 0.0, 0.0]
    )  # twice as a Bezier curve whose first handle is null
    rows = biarcs(curve)
    assert edges_of(rows)[0].heading(0.0) == pytest.approx(math.atan2(30.0, 10.0))
    curved = Polynomial([10.0, 0.0, 0.0, 0.0], [30.0, 0.0, 0.0])
    assert apart(curved, biarcs(curved)) <= 0.005


def test_a_cusp_is_followed_to_its_point() -> None:
    curve = Polynomial([10.0, 0.0, 0.0, 0.0], [10.0, 0.0, 0.0], start=-0.8)
    rows = biarcs(curve)
    assert deviation(curve, rows) <= 0.005
    assert np.hypot(*rows[:, :2].T).min() <= 0.005


def test_what_cannot_be_followed_is_refused() -> None:
    curve = through(VASE)
    for tolerance in (0.0, -1.0, math.nan):
        with pytest.raises(ValueError, match="more than 0 mm"):
            biarcs(curve, tolerance)
    with pytest.raises(ValueError, match="finite"):
        biarcs(Turn(math.nan, 1.0))


def test_a_curve_with_a_gap_is_refused() -> None:
    class Gap(Turn):
        def at(self, t: FloatArray) -> FloatArray:
            return super().at(t) + np.where(np.asarray(t)[:, None] < 0.3, (0.0, 0.0), (0.0, -5.0))

    with pytest.raises(ValueError, match="gaps"):
        biarcs(Gap(40.0, 1.0))
