"""The tube's section against the ellipse's own equations, its length against the complete elliptic integral."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe

from geometry.bodies.tube import ON_ELLIPSE, Tube, tube_of
from geometry.plane.contour import outline
from geometry.plane.edges import Edge
from geometry.plane.profile import Profile

sizes = st.tuples(st.floats(5.0, 200.0), st.sampled_from((2 / 3, 0.8, 0.97, 1.0, 1.1, 1.5))).map(
    lambda drawn: (drawn[0], drawn[0] * drawn[1])
)
offsets = st.floats(-1.0, 12.0)


def parallel(wide: float, high: float, off: float, count: int = 2001) -> np.ndarray:
    """Points of the true ellipse moved along its normals, all round, by its parameter."""
    t = np.linspace(0.0, 2 * math.pi, count)
    points = np.column_stack((wide * np.cos(t), high * np.sin(t)))
    normals = np.column_stack((high * np.cos(t), wide * np.sin(t)))
    return np.asarray(points + off * normals / np.hypot(*normals.T)[:, None])


def heading(edge: Edge) -> float:
    """Of its chord."""
    return math.atan2(edge.end[1] - edge.start[1], edge.end[0] - edge.start[0])


@given(sizes, offsets)
def test_its_arcs_and_their_parallels_keep_to_the_ellipse(size, off):
    tube = tube_of(*size).beyond(off)
    seen = [tube.nearest(x, y)[0] for x, y in parallel(*size, off, 301).tolist()]
    assert max(map(abs, seen)) <= ON_ELLIPSE + 1e-9
    loop = outline(*tube.rows())
    assert loop.area == pytest.approx(shapely.Polygon(parallel(*size, off)).area, rel=2e-4)
    for one, after in zip(loop.edges(), [*loop.edges()[1:], loop.edges()[0]], strict=True):
        turn = heading(after) - after.angle / 2 - heading(one) - one.angle / 2
        assert math.sin(turn) == pytest.approx(0.0, abs=1e-7)


@given(sizes)
def test_it_is_as_long_as_the_elliptic_integral_says(size):
    """4 a E(1 - b²/a²), a the larger half axis (NIST's DLMF, 19.9.9); a parallel by 2 pi of its distance more."""
    small, large = sorted(size)
    exact = 4 * large * float(ellipe(1 - (small / large) ** 2))
    out = 2 * math.pi * ON_ELLIPSE  # a curve's length is the integral of its support
    assert tube_of(*size).around == pytest.approx(exact, abs=out)
    assert tube_of(*size).beyond(3.0).around == pytest.approx(exact + 6 * math.pi, abs=out)


@given(sizes, offsets, st.floats(-math.pi, math.pi))
def test_a_place_is_where_a_line_with_its_normal_touches(size, off, angle):
    tube, points = tube_of(*size).beyond(off), parallel(*size, off)
    c, s = math.cos(angle), math.sin(angle)
    farthest = points[(points @ (c, s)).argmax()]
    x, y = tube.at(angle)
    assert x * c + y * s == pytest.approx((points @ (c, s)).max(), abs=ON_ELLIPSE + 2e-4 * max(size))
    assert math.dist((x, y), farthest) < 0.02 * max(size)
    assert tube.support(2 * c, 2 * s) == pytest.approx(2 * (x * c + y * s), abs=1e-9)
    assert tube.over(math.pi / 2 - angle) == pytest.approx((x, y), abs=1e-9)
    moved = tube.beyond(2.0).at(angle)
    assert moved == pytest.approx((x + 2 * c, y + 2 * s), abs=1e-9)
    # The normal's line passes the middle by the derivative of the support: (b² - a²) sin cos / h of an ellipse.
    wide, high = size
    lever = abs(high**2 - wide**2) * abs(s * c) / math.hypot(wide * c, high * s)
    few = 0.09 if abs(wide - high) < 0.2 else 0.03  # three arcs a quarter do where it is almost round
    assert tube.lever(angle) == pytest.approx(lever, abs=few * abs(wide - high) + 1e-9)


@given(sizes, offsets, st.floats(-0.99, 0.99))
def test_widths_heights_and_angles_are_of_one_place(size, off, share):
    tube, (x, y) = tube_of(*size).beyond(off), parallel(*size, off, 20_001).T
    level = share * tube.high
    right = (x > 0).nonzero()[0]
    out = np.interp(level, *zip(*sorted(zip(y[right], x[right], strict=True)), strict=True))
    assert tube.width_at(level) == pytest.approx(out, abs=0.02 * max(size))
    place = (tube.width_at(level), level)
    assert tube.nearest(*place)[0] == pytest.approx(0.0, abs=1e-9)
    assert tube.at(tube.angle_at_height(level)) == pytest.approx(place, abs=1e-6)
    assert tube.over(tube.lean_at_height(level)) == pytest.approx(place, abs=1e-6)
    assert tube.height_at(place[0]) == pytest.approx(abs(level), abs=1e-5 * max(size))
    assert tube.at(tube.angle_at_width(place[0]))[0] == pytest.approx(place[0], abs=1e-6)
    assert tube.over(tube.lean_at_width(place[0]))[0] == pytest.approx(place[0], abs=1e-6)
    assert tube.rise(abs(math.sin(tube.angle_at_height(level)))) == pytest.approx(abs(level), abs=1e-6)


@given(sizes, st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_how_far_a_place_is_outside_is_its_distance_from_the_curve(size, u, v):
    ring = shapely.Polygon(parallel(*size, 0.0, 20_001))
    point = shapely.Point(u * size[0], v * size[1])
    off, angle = tube_of(*size).nearest(point.x, point.y)
    distance = ring.exterior.distance(point)
    assert off == pytest.approx(-distance if ring.contains(point) else distance, abs=ON_ELLIPSE + 1e-4)
    assert math.dist(tube_of(*size).at(angle), (point.x, point.y)) == pytest.approx(abs(off), abs=0.01)


@given(sizes, st.floats(0.05, 1.4), st.floats(0.1, 0.9), st.floats(0.0, 0.9))
def test_past_the_angle_that_clears_a_corner_the_curve_is_clear_of_it(size, angle, share, near):
    """There it is as far as that: no smaller angle does."""
    tube = tube_of(*size)
    room = share * tube.high
    x, y = tube.beyond(near * room).at(angle)
    clear = tube.clear_of(x, y, room)
    past = [tube.at(a) for a in np.linspace(clear, max(clear, math.pi), 200)]
    assert min(math.dist(place, (x, y)) for place in past) >= room - 1e-6
    assert math.dist(tube.at(clear), (x, y)) == pytest.approx(room, abs=1e-6)


@given(sizes, offsets, st.floats(-3.0, 3.0), st.floats(0.05, 6.0), st.booleans(), st.integers(0, 3))
def test_a_run_is_the_curve_between_two_places(size, off, start, span, ccw, more):
    tube = tube_of(*size).beyond(off)
    a, b = tube.at(start), tube.at(start + span)
    first, last = (a, b) if ccw else (b, a)
    rows = tube.run(first, last, ccw, more)
    line = Profile(np.array([*rows, (*last, 0.0)]))
    assert rows[0][:2] == first
    assert len(rows) == len(tube.run(first, last, ccw)) + more
    length = sum(edge.length for edge in line.edges())
    sampled = np.array([tube.at(t) for t in np.linspace(start, start + span, 4001)])
    assert length == pytest.approx(np.hypot(*np.diff(sampled, axis=0).T).sum(), rel=1e-5)
    middles = [tube.nearest(*edge.point_at(0.37))[0] for edge in line.edges()]
    assert max(map(abs, middles)) < 1e-6


def test_a_round_tube_is_one_circle():
    tube = tube_of(27.0, 27.0)
    assert tube.round
    assert tube.beyond(3.0) == tube_of(30.0)
    assert not tube_of(27.0, 26.9).round
    assert tube_of(30.0, 24.0).scaled(15.0) == tube_of(15.0, 12.0)


@pytest.mark.parametrize(("wide", "high"), [(0.0, 5.0), (5.0, -1.0)])
def test_a_tube_without_a_size_is_refused(wide, high):
    with pytest.raises(ValueError, match="a width and a height"):
        tube_of(wide, high)


def test_a_parallel_curve_inside_the_sharpest_place_is_refused():
    tube: Tube = tube_of(30.0, 24.0)  # its radius of curvature at the rim is 24² / 30 = 19.2
    assert tube.beyond(-19.0).wide == pytest.approx(11.0)
    with pytest.raises(ValueError, match="corners"):
        tube.beyond(-19.5)
