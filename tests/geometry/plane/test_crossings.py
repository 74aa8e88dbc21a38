import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, Edge
from geometry.plane.crossings import close_pairs, crossings, distances, parameter
from geometry.plane.edges import points_along
from geometry.plane.nearest import Table, feet, nearest
from tests.geometry.shapes import contours, dense

edges = st.builds(
    Edge,
    st.tuples(st.floats(-9.0, 9.0), st.floats(-9.0, 9.0)),
    st.tuples(st.floats(10.0, 19.0), st.floats(-9.0, 9.0)),
    st.one_of(st.just(0.0), st.floats(0.05, 2.0), st.floats(-2.0, -0.05)),
)


def line(edge: Edge) -> shapely.LineString:
    start, end, turned = (np.array(one) for one in (edge.start, edge.end, edge.angle))
    return shapely.LineString(points_along(start, end, turned, np.linspace(0.0, 1.0, 2000)))


@given(edges, edges)
def test_crossings_lie_on_both_edges_and_none_is_missed(a: Edge, b: Edge) -> None:
    found = crossings(a, b)
    for point in found:
        for edge in (a, b):
            assert math.dist(edge.point_at(parameter(edge, point)), point) < 2e-7
    for part in shapely.get_parts(line(a).intersection(line(b))):
        if part.geom_type == "Point" and crosses_clearly(a, b, (part.x, part.y)):
            assert min(math.dist(point, (part.x, part.y)) for point in found) < 0.01


def crosses_clearly(a: Edge, b: Edge, point: tuple[float, float]) -> bool:
    s, t = parameter(a, point), parameter(b, point)
    return abs(math.sin(a.heading(s) - b.heading(t))) > 0.1 and min(s, t) > 0.01 and max(s, t) < 0.99


def test_two_lines_and_two_arcs_cross_in_a_point() -> None:
    """The diagonals of a rectangle, and half circles of radius 5 whose middles are 6 apart."""
    (point,) = crossings(Edge((0.0, 0.0), (6.0, 3.0)), Edge((0.0, 3.0), (6.0, 0.0)))
    assert point == pytest.approx((3.0, 1.5))
    (point,) = crossings(Edge((5.0, 0.0), (-5.0, 0.0), 1.0), Edge((11.0, 0.0), (1.0, 0.0), 1.0))
    assert point == pytest.approx((3.0, 4.0))


@pytest.mark.parametrize("bulge", [0.0, 0.4, -0.4, 2.0])
def test_edges_that_share_an_end_meet_there(bulge: float) -> None:
    assert (3.0, 1.0) in crossings(Edge((0.0, 0.0), (3.0, 1.0), bulge), Edge((3.0, 1.0), (3.0, 5.0)))


def test_a_touch_counts_and_a_miss_does_not() -> None:
    top = Edge((5.0, 0.0), (-5.0, 0.0), 1.0)
    for y, count in ((5.0, 1), (5.001, 0), (4.999, 2)):
        found = crossings(top, Edge((-9.0, y), (9.0, y)))
        assert len({(round(x, 6), round(y, 6)) for x, y in found}) == count


def test_edges_that_run_along_each_other_share_their_ends() -> None:
    assert set(crossings(Edge((0.0, 0.0), (6.0, 0.0)), Edge((9.0, 0.0), (4.0, 0.0)))) == {
        (6.0, 0.0),
        (4.0, 0.0),
    }


@given(edges, st.floats(0.0, 1.0))
def test_a_point_of_an_edge_has_the_fraction_it_was_made_from(edge: Edge, t: float) -> None:
    assert math.dist(edge.point_at(parameter(edge, edge.point_at(t))), edge.point_at(t)) < 1e-9


@given(contours(), st.integers(0, 2**32 - 1))
def test_distances_are_those_from_a_dense_line(c: Contour, seed: int) -> None:
    tried = np.random.default_rng(seed).uniform(-60.0, 60.0, (200, 2))
    ring = shapely.LinearRing(dense(c, 800))
    assert distances(c.edges(), tried) == pytest.approx(
        shapely.distance(ring, shapely.points(tried)), abs=1e-3
    )


@given(contours(), st.integers(0, 2**32 - 1))
def test_feet_lie_on_the_line_as_far_off_as_it_is_near(c: Contour, seed: int) -> None:
    tried = np.random.default_rng(seed).uniform(-60.0, 60.0, (200, 2))
    gaps, which = nearest(c.edges(), tried)
    found = feet(c.edges(), which, tried)
    ring = shapely.LinearRing(dense(c, 800))
    assert shapely.distance(ring, shapely.points(found)) == pytest.approx(0.0, abs=1e-3)
    assert np.hypot(*(found - tried).T) == pytest.approx(gaps, abs=1e-6)


@given(st.lists(edges, min_size=2, max_size=6))
def test_edges_that_meet_are_close(several: list[Edge]) -> None:
    close = set(close_pairs(several))
    for j in range(len(several)):
        for i in range(j):
            assert (i, j) in close or not crossings(several[i], several[j])
    assert list(close_pairs([])) == []


@given(st.lists(edges, min_size=1, max_size=6), st.floats(-25.0, 40.0), st.floats(-25.0, 25.0))
def test_no_edge_that_comes_into_a_box_is_missed(several: list[Edge], x: float, y: float) -> None:
    low = np.array((x, y))
    found = Table.of(several).meeting(low, low + 5.0)
    box = shapely.box(x, y, x + 5.0, y + 5.0)
    assert {k for k, edge in enumerate(several) if line(edge).intersects(box)} <= set(found.tolist())
    assert not Table.of(several).meeting(low + 200.0, low + 205.0).size
