import math
import re

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from geometry.plane.contour import Contour, Edge, circle, polygon, rectangle, regular_polygon
from geometry.plane.corners import fillet, fillet_all, join
from geometry.plane.validity import problems
from tests.geometry.shapes import contours

BRACKET = polygon([(0, 0), (40, 0), (40, 20), (20, 20), (20, 40), (0, 40)])


def turn(a: Edge, b: Edge) -> float:
    return (b.heading(0.0) - a.heading(1.0) + math.pi) % (2.0 * math.pi) - math.pi


def largest_in(message: str) -> float:
    found = re.search(r"the largest is ([\d.]+) mm", message)
    assert found, message
    return float(found[1])


@settings(max_examples=100, deadline=None)
@given(contours(), st.integers(0, 8), st.floats(0.2, 30.0))
def test_a_fillet_is_tangent_at_both_ends(c: Contour, index: int, radius: float) -> None:
    k = index % len(c)
    assume(abs(turn(c.edges()[k - 1], c.edges()[k])) > 0.1)
    try:
        rounded = fillet(c, k, radius)
    except ValueError:
        assume(False)
    assume(len(rounded) == len(c) + 1)  # the arc uses up no edge
    edges = rounded.edges()
    arcs = [i for i, edge in enumerate(edges) if abs(edge.radius - radius) < 1e-7 and tangent(edges, i)]
    assert len(arcs) == 1
    assert np.sign(edges[arcs[0]].bulge) == np.sign(turn(c.edges()[k - 1], c.edges()[k]))


def tangent(edges: tuple[Edge, ...], i: int) -> bool:
    before, after = edges[i - 1], edges[(i + 1) % len(edges)]
    return abs(turn(before, edges[i])) < 1e-6 and abs(turn(edges[i], after)) < 1e-6


@settings(max_examples=25, deadline=None)
@given(contours(), st.integers(0, 8))
def test_the_largest_radius_named_fits_and_a_little_more_does_not(c: Contour, index: int) -> None:
    k = index % len(c)
    assume(abs(turn(c.edges()[k - 1], c.edges()[k])) > 0.1)
    assume(c.edges()[k - 1].bulge == 0.0)  # a dip between two arcs takes any radius
    with pytest.raises(ValueError, match="cannot be rounded") as refusal:
        fillet(c, k, 1e5)
    largest = largest_in(str(refusal.value))
    assume(largest > 0.01)
    fillet(c, k, largest)
    with pytest.raises(ValueError, match="cannot be rounded"):
        fillet(c, k, largest + 0.002)


@given(st.integers(3, 16), st.floats(5.0, 50.0), st.floats(0.1, 0.99))
def test_filleting_a_regular_polygon_takes_the_area_outside_its_arcs(
    n: int, apothem: float, share: float
) -> None:
    radius = share * apothem
    rounded = fillet_all(regular_polygon(n, apothem), radius)
    lost = radius**2 * (n * math.tan(math.pi / n) - math.pi)
    assert rounded.area == pytest.approx(n * apothem**2 * math.tan(math.pi / n) - lost)
    assert len(rounded) == 2 * n
    assert problems(rounded) == ()


def test_inside_and_outside_corners_are_rounded_alike() -> None:
    rounded = fillet_all(BRACKET, 5.0)
    assert rounded.area == pytest.approx(BRACKET.area - (5 - 1) * 25.0 * (1.0 - math.pi / 4.0))
    assert [edge.radius for edge in rounded.edges() if edge.is_arc] == pytest.approx([5.0] * 6)
    assert sum(edge.bulge < 0.0 for edge in rounded.edges()) == 1


def test_one_fillet_leaves_the_other_corners() -> None:
    rounded = fillet(rectangle(0.0, 0.0, 20.0, 10.0), 2, 3.0)
    expected = [(0, 0, 0), (20, 0, 0), (20, 7, math.tan(math.pi / 8)), (17, 10, 0), (0, 10, 0)]
    assert np.allclose(rounded.vertices, expected)


def test_edges_used_up_by_their_fillets_are_dropped() -> None:
    slot = fillet_all(rectangle(0.0, 0.0, 20.0, 10.0), 5.0)
    assert len(slot) == 6
    assert slot.area == pytest.approx(100.0 + 25.0 * math.pi)


def test_a_corner_between_arcs_is_rounded() -> None:
    lens = Contour(np.array(((0.0, -8.0, 0.5), (0.0, 8.0, 0.5))))
    rounded = fillet_all(lens, 1.0)
    assert len(rounded) == 4
    assert all(tangent(rounded.edges(), k) for k in range(4))
    assert rounded.area < lens.area


def test_a_radius_that_does_not_fit_is_refused_with_the_largest_that_does() -> None:
    with pytest.raises(ValueError, match=r"vertex 1 cannot be rounded to 25 mm; the largest is 20 mm"):
        fillet(BRACKET, 1, 25.0)
    with pytest.raises(ValueError, match=r"every corner cannot be rounded to 25 mm; the largest is 10 mm"):
        fillet_all(BRACKET, 25.0)
    assert len(fillet_all(BRACKET, 10.0)) == 8


def test_a_smooth_vertex_is_no_corner() -> None:
    c = circle((0.0, 0.0), 5.0)
    assert np.array_equal(fillet_all(c, 1.0).vertices, c.vertices)
    with pytest.raises(ValueError, match="no corner to round"):
        fillet(c, 1, 1.0)


@pytest.mark.parametrize("radius", [0.0, -1.0, math.nan])
def test_a_fillet_needs_a_radius(radius: float) -> None:
    with pytest.raises(ValueError, match="more than 0 mm"):
        fillet_all(BRACKET, radius)


def test_runs_are_joined_end_to_start() -> None:
    arc = [(5.0, 0.0, 1.0), (-5.0, 0.0, 0.0)]
    back = [(-5.0, 0.0, 0.0), (0.0, -2.0, 0.0), (5.0, 0.0, 9.0)]
    joined = join(arc, back)
    assert np.array_equal(joined.vertices, [(5, 0, 1), (-5, 0, 0), (0, -2, 0)])


@settings(max_examples=40, deadline=None)
@given(contours(), st.integers(1, 7))
def test_a_contour_cut_in_two_runs_joins_to_itself(c: Contour, at: int) -> None:
    k = 1 + at % (len(c) - 1)
    around = np.vstack((c.vertices, c.vertices[:1]))
    assert np.array_equal(join(around[: k + 1], around[k:]).vertices, c.vertices)


def test_runs_that_do_not_meet_are_refused() -> None:
    with pytest.raises(ValueError, match=r"run 2 ends 0.5 mm from the start"):
        join([(0, 0, 0), (1, 0, 0)], [(1, 0, 0), (1, 1, 0), (0, 0.5, 0)])
    with pytest.raises(ValueError, match="2 or more points"):
        join()
