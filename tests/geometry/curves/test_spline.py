import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from geometry.curves.spline import through
from geometry.plane.contour import FloatArray


@st.composite
def stations(draw: st.DrawFn) -> FloatArray:
    """2 to 12 points one above the other, as a turner states a profile."""
    n = draw(st.integers(2, 12))
    radii = draw(st.lists(st.floats(10.0, 120.0), min_size=n, max_size=n))
    rises = draw(st.lists(st.floats(2.0, 40.0), min_size=n, max_size=n))
    return np.column_stack((radii, np.cumsum(rises)))


@given(stations())
def test_the_curve_is_the_natural_spline_of_another_library(points: FloatArray) -> None:
    curve = through(points)
    other = CubicSpline(curve.knots, points, bc_type="natural")
    t = np.linspace(-1.0, curve.knots[-1] + 1.0, 300)
    assert curve.at(t) == pytest.approx(other(t), abs=1e-8)
    assert curve.derivative(t) == pytest.approx(other(t, 1), abs=1e-8)


@given(stations())
def test_the_curve_goes_through_its_points_by_chord_length(points: FloatArray) -> None:
    curve = through(points)
    assert curve.at(curve.knots) == pytest.approx(points, abs=1e-10)
    assert np.diff(curve.knots) == pytest.approx(np.hypot(*np.diff(points, axis=0).T))


def test_two_points_make_a_straight_line() -> None:
    curve = through([(30.0, 0.0), (33.0, 4.0)])
    assert curve.at(2.5).tolist() == [[31.5, 2.0]]
    assert curve.derivative([0.0, 5.0]) == pytest.approx(np.array(((0.6, 0.8), (0.6, 0.8))))


@pytest.mark.parametrize(
    ("points", "message"),
    [
        ([(1.0, 2.0)], "2 or more finite points"),
        ([(1.0, 2.0, 3.0), (4.0, 5.0, 6.0)], "2 or more finite points"),
        ([(1.0, 2.0), (np.nan, 3.0)], "finite points"),
        ([(1.0, 2.0), (3.0, 4.0), (3.0, 4.0), (5.0, 6.0)], r"two follow each other at \(3, 4\)"),
    ],
)
def test_points_that_make_no_curve_are_refused(points: list[tuple[float, ...]], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        through(points)


def test_the_points_cannot_be_changed_from_outside() -> None:
    points = np.array(((30.0, 0.0), (40.0, 20.0)))
    curve = through(points)
    points[0] = 0.0
    assert curve.at(0.0).tolist() == [[30.0, 0.0]]
    with pytest.raises(ValueError, match="read-only"):
        curve.points[0, 0] = 1.0
