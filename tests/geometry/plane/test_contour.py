import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, Edge, Moments, circle, polygon, rectangle, regular_polygon
from geometry.plane.edges import bulge_about, bulge_from_angle
from tests.geometry.shapes import angles, contours, lengths, points, rotated, shape


def numbers(moments: Moments) -> list[float]:
    return [moments.area, moments.x, moments.y, moments.xy]


def test_a_circle_measures_as_the_textbook_says() -> None:
    c = circle((3.0, -4.0), 2.0)
    assert c.area == pytest.approx(4.0 * math.pi)
    assert c.length == pytest.approx(4.0 * math.pi)
    assert c.centroid == pytest.approx((3.0, -4.0))
    assert c.bounds == pytest.approx((1.0, -6.0, 5.0, -2.0))
    about_centre = c.moments.moved(-3.0, 4.0)
    assert numbers(about_centre) == pytest.approx([4 * math.pi, 0, 0, 0], abs=1e-11)


def test_a_rectangle_has_its_textbook_moments() -> None:
    w, h = 3.0, 4.0
    expected = [w * h, w * w * h / 2, w * h * h / 2, w * w * h * h / 4]
    assert numbers(rectangle(w, h, 0.0, 0.0).moments) == pytest.approx(expected)


def test_a_regular_polygon_faces_where_it_is_told_to() -> None:
    hexagon = regular_polygon(6, 10.0, first_normal=0.3, centre=(5.0, 1.0))
    assert hexagon.area == pytest.approx(6 * 10.0**2 * math.tan(math.pi / 6))
    for k, edge in enumerate(hexagon.edges()):
        normal = 0.3 + k * math.pi / 3
        expected = 5.0 + 10.0 * math.cos(normal), 1.0 + 10.0 * math.sin(normal)
        assert edge.midpoint == pytest.approx(expected)


@given(contours())
def test_area_length_and_bounds_are_those_of_the_densely_sampled_shape(c: Contour) -> None:
    body = shape(c, 2000)
    assert c.area == pytest.approx(body.area, rel=1e-5)
    assert c.length == pytest.approx(body.length, rel=1e-5)
    assert c.centroid == pytest.approx(body.centroid.coords[0], abs=1e-3)
    assert c.bounds == pytest.approx(body.bounds, abs=1e-4)


@given(contours())
def test_moments_are_those_of_the_triangles_it_is_made_of(c: Contour) -> None:
    a = np.array(shape(c, 1000).exterior.coords)
    b, doubled = a[1:], a[:-1, 0] * a[1:, 1] - a[:-1, 1] * a[1:, 0]
    (ax, ay), (bx, by) = a[:-1].T, b.T
    x, y = (doubled * (ax + bx)).sum() / 6.0, (doubled * (ay + by)).sum() / 6.0
    xy = (doubled * (ax * (2.0 * ay + by) + bx * (ay + 2.0 * by))).sum() / 24.0
    size = abs(c.area) * (1.0 + np.abs(a).max())
    assert (c.moments.x, c.moments.y) == pytest.approx((x, y), abs=1e-4 * size)
    assert c.moments.xy == pytest.approx(xy, abs=1e-4 * size * np.abs(a).max())


@given(contours(), lengths, lengths, angles, points)
def test_rigid_motion_keeps_area_and_length(
    c: Contour, dx: float, dy: float, angle: float, about: tuple[float, float]
) -> None:
    there = rotated(c.moved(dx, dy), angle, about)
    assert (there.area, there.length) == pytest.approx((c.area, c.length))
    assert np.allclose(rotated(there, -angle, about).moved(-dx, -dy).vertices, c.vertices, atol=1e-11)


@given(contours(), points, angles)
def test_mirroring_changes_the_sign_of_the_area_and_twice_is_nothing(
    c: Contour, point: tuple[float, float], angle: float
) -> None:
    direction = 2.0 * math.cos(angle), 2.0 * math.sin(angle)
    there = c.mirrored(point, direction)
    assert (there.area, there.length) == pytest.approx((-c.area, c.length))
    assert np.allclose(there.mirrored(point, direction).vertices, c.vertices, atol=1e-11)


def test_mirroring_by_default_swaps_left_and_right() -> None:
    assert rectangle(1.0, 2.0, 4.0, 6.0).mirrored().bounds == pytest.approx((-4.0, 2.0, -1.0, 6.0))


@given(contours(), lengths, lengths)
def test_moments_move_by_the_parallel_axes_rule(c: Contour, dx: float, dy: float) -> None:
    expected = numbers(c.moments.moved(dx, dy))
    assert numbers(c.moved(dx, dy).moments) == pytest.approx(expected, rel=1e-9, abs=1e-5)


@given(contours())
def test_running_the_other_way_changes_only_the_sense(c: Contour) -> None:
    back = c.reversed()
    assert (back.area, back.length) == pytest.approx((-c.area, c.length))
    assert back.bounds == pytest.approx(c.bounds)
    assert np.array_equal(back.reversed().vertices, c.vertices)
    assert c.cw().area < 0.0 < back.ccw().area
    assert c.ccw() is c
    assert back.cw() is back


@given(contours(), st.integers(0, 2**32 - 1))
def test_contains_agrees_with_a_dense_polygon_away_from_its_edge(c: Contour, seed: int) -> None:
    body = shape(c, 1000)
    tried = np.random.default_rng(seed).uniform(-60.0, 60.0, (400, 2))
    clear = shapely.distance(body.exterior, shapely.points(tried)) > 1e-3
    expected = shapely.contains_xy(body, *tried.T)
    for loop in (c, c.reversed()):
        assert np.array_equal(loop.contains(tried)[clear], expected[clear])


def test_contains_is_exact_on_chords_and_their_ends() -> None:
    lens = Contour(np.array(((0.0, 0.0, 0.3), (10.0, 0.0, 0.0), (10.0, 10.0, -0.3), (0.0, 10.0, 1.5))))
    inside = [(5.0, 0.0), (1.0, 0.0), (0.0, 5.0), (0.0, 0.1), (0.0, 9.9)]
    outside = [(5.0, 10.0), (9.0, 10.0), (11.0, 0.0), (11.0, 10.0), (5.0, -1.6)]
    assert lens.contains(inside).all()
    assert not lens.contains(outside).any()


def test_an_edge_knows_its_circle() -> None:
    quarter = Edge((1.0, 0.0), (0.0, 1.0), bulge_from_angle(math.pi / 2))
    assert quarter.centre == pytest.approx((0.0, 0.0))
    assert (quarter.radius, quarter.length) == pytest.approx((1.0, math.pi / 2))
    assert quarter.midpoint == pytest.approx((math.sqrt(0.5), math.sqrt(0.5)))
    assert quarter.point_at(1 / 3) == pytest.approx((math.cos(math.pi / 6), 0.5))
    assert quarter.heading(0.0) == pytest.approx(math.pi / 2)
    straight = Edge((0.0, 0.0), (3.0, 4.0))
    assert (straight.length, straight.radius, straight.angle) == (5.0, math.inf, 0.0)
    with pytest.raises(ValueError, match="no centre"):
        _ = straight.centre


@given(st.floats(-6.2, 6.2))
def test_bulge_and_angle_are_each_others_inverse(angle: float) -> None:
    assert 4 * math.atan(bulge_from_angle(angle)) == pytest.approx(angle)


@given(points, st.floats(0.5, 100.0), angles, st.floats(0.01, 6.27))
def test_a_bulge_about_a_centre_gives_an_arc_about_it(
    centre: tuple[float, float], radius: float, first: float, sweep: float
) -> None:
    def on_circle(angle: float) -> tuple[float, float]:
        return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)

    start, end = on_circle(first), on_circle(first + sweep)
    there, back = bulge_about(centre, start, end), bulge_about(centre, end, start, ccw=False)
    assert 4 * math.atan(there) == pytest.approx(sweep)
    assert 4 * math.atan(back) == pytest.approx(-sweep)
    assert 4 * math.atan(bulge_about(centre, start, end, ccw=False)) == pytest.approx(sweep - 2 * math.pi)


def test_arcs_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="equally far"):
        bulge_about((0.0, 0.0), (1.0, 0.0), (0.0, 1.1))
    with pytest.raises(ValueError, match="split a full circle"):
        bulge_about((0.0, 0.0), (1.0, 0.0), (1.0, 0.0))
    with pytest.raises(ValueError, match="360"):
        bulge_from_angle(2.0 * math.pi)


def test_a_nearly_straight_edge_is_straight() -> None:
    c = Contour(np.array(((0.0, 0.0, 1e-12), (10.0, 0.0, -1e-13), (0.0, 10.0, 0.0))))
    assert not any(edge.is_arc for edge in c.edges())


def test_a_flat_arc_keeps_its_digits() -> None:
    c = Contour(np.array(((0.0, 0.0, 1e-8), (100.0, 0.0, 0.0), (100.0, 50.0, 0.0), (0.0, 50.0, 0.0))))
    assert c.area - 5000.0 == pytest.approx(100.0 * 2.0 / 3.0 * 50.0 * 1e-8, rel=1e-5)
    assert c.bounds[1] == pytest.approx(-50.0 * 1e-8, rel=1e-5)


def test_the_vertices_cannot_be_changed_from_outside() -> None:
    rows = np.array(((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    c = Contour(rows)
    rows[0] = 9.0
    assert c.vertices[0, 0] == 0.0
    with pytest.raises(ValueError, match="read-only"):
        c.vertices[0, 0] = 1.0


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (np.zeros((1, 3)), "2 or more rows"),
        (np.zeros((4, 2)), "2 or more rows"),
        (np.array(((0.0, 0.0, 0.0), (math.nan, 0.0, 0.0), (1.0, 1.0, 0.0))), "finite"),
        (np.array(((0.0, 0.0, math.inf), (1.0, 0.0, 0.0), (1.0, 1.0, 0.0))), "finite"),
    ],
)
def test_rows_that_are_no_contour_are_refused(rows: np.ndarray, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Contour(rows)


def test_shapes_without_size_are_refused() -> None:
    with pytest.raises(ValueError, match="radius"):
        circle((0.0, 0.0), 0.0)
    with pytest.raises(ValueError, match="3 or more sides"):
        regular_polygon(2, 10.0)
    with pytest.raises(ValueError, match="no centroid"):
        _ = polygon([(0.0, 0.0), (1.0, 0.0)]).centroid
    with pytest.raises(ValueError, match="mirror line"):
        circle((0.0, 0.0), 1.0).mirrored((0.0, 0.0), (0.0, 0.0))
