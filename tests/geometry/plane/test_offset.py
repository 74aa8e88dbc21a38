import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, FloatArray, circle, polygon, rectangle, regular_polygon
from geometry.plane.crossings import distances
from geometry.plane.offset import offset
from tests.geometry.shapes import contours, dense, rotated, rounded, shape
from tests.geometry.validity import problems

steps = st.one_of(st.floats(0.05, 14.0), st.floats(-14.0, -0.05))
seeds = st.integers(0, 2**32 - 1)
# fmt: off
SLOT = polygon([
    (0, 0), (30, 0), (30, 14), (26, 14), (26, 4), (4, 4),
    (4, 26), (26, 26), (26, 16), (30, 16), (30, 30), (0, 30),
])
DUMB_BELL = polygon([
    (0, 0), (20, 0), (20, 8), (40, 8), (40, 0), (60, 0),
    (60, 20), (40, 20), (40, 12), (20, 12), (20, 20), (0, 20),
])
# fmt: on


def area(found: tuple[Contour, ...]) -> float:
    return sum(c.area for c in found)


def region(found: tuple[Contour, ...]) -> shapely.Geometry:
    """The inside of contours of which the clockwise ones are holes."""
    bodies = [shape(c) for c in found if c.area > 0.0]
    holes = [shape(c) for c in found if c.area < 0.0]
    return shapely.difference(shapely.union_all(bodies), shapely.union_all(holes))


def signed_distance(body: shapely.Polygon, points: FloatArray) -> FloatArray:
    """Distance from the boundary, + outside."""
    away = shapely.distance(body.exterior, shapely.points(points))
    return np.where(shapely.contains_xy(body, *points.T), -away, away)


def assert_is_all_within(
    found: tuple[Contour, ...], body: shapely.Polygon, d: float, tried: FloatArray
) -> None:
    """Hold an offset against its definition: the points whose signed distance is less than d."""
    winding = sum((np.sign(c.area) * c.contains(tried) for c in found), np.zeros(len(tried)))
    away = signed_distance(body, tried)
    clear = np.abs(away - d) > 2e-3
    assert np.array_equal(winding[clear], (away < d)[clear])


@given(contours(), steps, seeds)
def test_a_round_offset_holds_the_points_nearer_than_the_distance(c: Contour, d: float, seed: int) -> None:
    tried = np.random.default_rng(seed).uniform(-70.0, 70.0, (500, 2))
    assert_is_all_within(offset(c, d), shape(c, 250), d, tried)


@given(contours(), steps)
def test_a_round_offset_is_the_buffer_of_the_shape(c: Contour, d: float) -> None:
    ours, slack = region(offset(c, d)), 0.06
    assert widened(c, d - slack).difference(ours).area < 1e-6
    assert ours.difference(widened(c, d + slack)).area < 1e-6


def widened(c: Contour, d: float, tips: tuple[shapely.Polygon, ...] = ()) -> shapely.Geometry:
    """The shape with or without a band along its edge, chord by chord: a buffer of the whole can err."""
    body = shape(c, 32)
    corners = np.array(body.exterior.coords)
    chords = shapely.linestrings(np.stack((corners[:-1], corners[1:]), axis=1))
    band = shapely.union_all([*shapely.buffer(chords, abs(d), quad_segs=24), *tips])
    return body.union(band) if d > 0.0 else body.difference(band)


def mitres(c: Contour, d: float) -> tuple[shapely.Polygon, ...]:
    """The kites between the ends of edges moved by d and the crossing of their lines, where they part."""
    kites = []
    for a, b in zip(c.edges(), (*c.edges()[1:], c.edges()[0]), strict=True):
        out, then = (np.array((math.sin(e.heading(0.0)), -math.cos(e.heading(0.0)))) for e in (a, b))
        if d * (out[0] * then[1] - out[1] * then[0]) > 0.0:
            tip = d * (out + then) / (1.0 + out @ then)
            kites.append(shapely.Polygon(np.array(a.end) + np.array((0.0 * tip, d * out, tip, d * then))))
    return tuple(kites)


@given(contours(), steps)
def test_every_point_of_a_round_offset_is_at_the_distance(c: Contour, d: float) -> None:
    for found in offset(c, d):
        assert distances(c.edges(), dense(found, 20)) == pytest.approx(abs(d), abs=3e-6)


@given(contours(arcs=False), steps)
def test_a_mitred_offset_of_a_polygon_is_its_buffer_with_tips(c: Contour, d: float) -> None:
    assume(min(corner_angles(c)) > math.radians(13.0))  # what is sharper is rounded
    ours, slack = offset(c, d, "mitre"), 1e-3 * abs(d)
    assert widened(c, d - slack, mitres(c, d - slack)).difference(region(ours)).area < 1e-6
    assert region(ours).difference(widened(c, d + slack, mitres(c, d + slack))).area < 1e-6
    assert not any(edge.is_arc for found in ours for edge in found.edges())


def corner_angles(c: Contour) -> list[float]:
    edges = c.edges()
    turns = [edges[k].heading(0.0) - edges[k - 1].heading(1.0) for k in range(len(edges))]
    return [math.pi - abs((turn + math.pi) % (2 * math.pi) - math.pi) for turn in turns]


@given(contours(), steps, st.sampled_from(("round", "mitre")))
def test_every_outcome_is_valid(c: Contour, d: float, corners: str) -> None:
    for found in offset(c, d, corners):  # type: ignore[arg-type]
        assert problems(found) == ()


@given(contours(), steps)
def test_a_contour_run_the_other_way_has_the_same_offset_on_its_other_side(c: Contour, d: float) -> None:
    there, back = offset(c, d), offset(c.reversed(), -d)
    assert len(there) == len(back)
    assert area(back) == pytest.approx(-area(there), abs=1e-4)


@given(contours(arcs=False), st.floats(0.3, 2.0), st.floats(-1.0, 1.0))
def test_there_and_back_a_filleted_shape_is_itself_again(c: Contour, radius: float, share: float) -> None:
    try:
        plate = rounded(c, radius)
    except ValueError:
        assume(False)
    assume(plate.lengths.min() > 0.01)
    d = 0.95 * radius * share
    assume(abs(d) > 0.01)
    (there,) = offset(plate, d)
    assume(len(there) == len(plate))  # nothing was trimmed
    (back,) = offset(there, -d)
    assert np.allclose(back.vertices, plate.vertices, atol=1e-8)


@given(st.integers(3, 12), st.floats(10.0, 50.0), st.floats(0.1, 9.9), st.floats(-1.0, 20.0))
def test_a_convex_shape_grows_by_steiners_rule(n: int, apothem: float, radius: float, d: float) -> None:
    c = rounded(regular_polygon(n, apothem), radius)
    assume(d > -radius and abs(d) > 1e-5)
    expected = c.area + d * c.length + math.pi * d * d
    assert area(offset(c, d)) == pytest.approx(expected, rel=1e-9)


@given(st.integers(40, 90), st.floats(20.0, 50.0), st.floats(0.05, 4.0), st.booleans())
def test_where_edges_turn_by_little_they_are_cut_where_they_cross(
    n: int, a: float, d: float, hole: bool
) -> None:
    facets = regular_polygon(n, a)
    (found,) = offset(facets.cw(), d) if hole else offset(facets, -d)
    assert len(found) == n
    assert np.linalg.norm(found.points, axis=1) == pytest.approx((a - d) / math.cos(math.pi / n), abs=1e-6)


def test_a_circle_grows_and_shrinks_as_a_circle() -> None:
    c = circle((3.0, 4.0), 5.0)
    assert [found.area for found in offset(c, 2.0)] == pytest.approx([49.0 * math.pi])
    assert [found.area for found in offset(c, -2.0)] == pytest.approx([9.0 * math.pi])
    assert offset(c, -5.0) == offset(c, -6.0) == ()


def test_a_clockwise_hole_shrinks_as_its_plate_grows() -> None:
    assert [found.area for found in offset(circle((0, 0), 5.0).cw(), 2.0)] == pytest.approx([-9.0 * math.pi])


def test_corners_are_rounded_or_mitred() -> None:
    square = rectangle(0.0, 0.0, 10.0, 10.0)
    assert area(offset(square, 2.0)) == pytest.approx(100.0 + 80.0 + 4.0 * math.pi)
    (mitred,) = offset(square, 2.0, "mitre")
    assert np.allclose(mitred.vertices, rectangle(-2.0, -2.0, 12.0, 12.0).vertices)
    (smaller,) = offset(square, -2.0)
    assert np.allclose(smaller.vertices, rectangle(2.0, 2.0, 8.0, 8.0).vertices)


def test_a_mitre_beside_an_arc_follows_its_tangent() -> None:
    half = Contour(np.array(((5.0, 0.0, 1.0), (-5.0, 0.0, 0.0))))
    (mitred,) = offset(half, 1.0, "mitre")
    assert mitred.area == pytest.approx(18.0 * math.pi + 12.0)
    assert [edge.is_arc for edge in mitred.edges()] == [True, False, False, False]


def test_a_spike_too_sharp_for_a_mitre_is_rounded() -> None:
    spike = polygon([(0.0, -0.5), (50.0, 0.0), (0.0, 0.5)])
    assert offset(spike, 1.0, "mitre")[0].bounds[2] == pytest.approx(51.0)


@pytest.mark.parametrize("d", [-0.4, 0.5, 3.0])
def test_a_tip_between_tangent_arcs_is_rounded_about(d: float) -> None:
    crescent = Contour(np.array(((0, 0, 1.0), (10, 0, 0), (6, 0, -1.0)), dtype=float))
    tried = np.random.default_rng(1).uniform(-5.0, 15.0, (3000, 2))
    for turned in (0.0, 1.0, 2.0):
        c = rotated(crescent, turned)
        assert_is_all_within(offset(c, d), shape(c), d, tried)


@pytest.mark.parametrize("gap", [1.0, 3.0, 5.0, 9.0])
def test_a_mitre_that_reaches_another_wall_joins_it(gap: float) -> None:
    base = [(0, 0), (60, 0), (60, 30), (40, 30), (40, 5), (20, 5)]
    hook = polygon([*base, (20, 12), (40 - gap, 15), (20, 18), (20, 30), (0, 30)])
    found = offset(hook, 1.0, "mitre")
    assert all(problems(c) == () for c in found)
    exact = widened(hook, 1.0, mitres(hook, 1.0))
    assert area(found) == pytest.approx(exact.area, abs=0.02)
    assert region(found).symmetric_difference(exact).area < 0.02


def test_mitres_that_reach_into_each_other_join() -> None:
    base = [(0, 0), (60, 0), (60, 30), (50, 30), (50, 18)]
    base += [(34, 15), (50, 12), (50, 5), (10, 5), (10, 12), (26, 15)]
    facing = polygon([*base, (10, 18), (10, 30), (0, 30)])
    exact = widened(facing, 1.0, mitres(facing, 1.0))
    found = offset(facing, 1.0, "mitre")
    assert region(found).symmetric_difference(exact).area < 0.02
    assert area(found) == pytest.approx(exact.area, abs=0.02)
    assert all(problems(c) == () for c in found)


def test_edges_of_a_mitred_offset_correspond_one_for_one() -> None:
    c = rounded(regular_polygon(8, 40.0), 6.0)
    (grown,) = offset(c, 3.0, "mitre")
    assert len(grown) == len(c)
    for before, after in zip(c.edges(), grown.edges(), strict=True):
        assert math.dist(before.midpoint, after.midpoint) == pytest.approx(3.0)


def test_an_arc_no_larger_than_the_offset_vanishes() -> None:
    plate = rounded(rectangle(0.0, 0.0, 20.0, 10.0), 2.0)
    for d in (-2.0, -3.0):
        (found,) = offset(plate, d)
        assert np.allclose(found.vertices, rectangle(-d, -d, 20.0 + d, 10.0 + d).vertices)


def test_a_narrow_neck_parts_and_a_narrow_mouth_closes() -> None:
    assert len(offset(DUMB_BELL, -1.9)) == 1
    assert [c.area for c in offset(DUMB_BELL, -2.1, "mitre")] == pytest.approx([15.8**2] * 2)
    assert len(offset(SLOT, 0.9)) == 1
    assert [c.area for c in offset(SLOT, 1.1, "mitre")] == pytest.approx([32.2**2, -(19.8**2)])


def test_a_neck_of_no_width_is_left_out() -> None:
    assert [c.area for c in offset(DUMB_BELL, -2.0, "mitre")] == pytest.approx([16.0**2] * 2)
    assert [c.area for c in offset(SLOT, 1.0, "mitre")] == pytest.approx([32.0**2, -(20.0**2)])


def test_nothing_is_left_of_what_is_too_thin() -> None:
    assert offset(rectangle(0.0, 0.0, 10.0, 20.0), -5.0) == ()
    assert offset(rectangle(0.0, 0.0, 10.0, 20.0), -50.0) == ()


def blocks(seed: int) -> Contour | None:
    """A rectilinear outline on a grid of 2 mm: many equal widths, so that much happens at once."""
    cells = 2 * np.random.default_rng(seed).integers(0, 6, (14, 2))
    union = shapely.union_all([shapely.box(x, y, x + 2, y + 2) for x, y in cells])
    largest = max(getattr(union, "geoms", [union]), key=lambda part: part.area)
    outline = shapely.Polygon(largest.exterior).simplify(0.0)
    c = polygon(np.array(outline.exterior.coords)[:-1]).ccw()
    return None if problems(c) else c


@given(
    seeds, st.sampled_from((-1.0, -0.75, -0.5, -0.25, 0.25, 0.5, 1.0, 2.0)), st.sampled_from((0.0, 0.5, 1.0))
)
def test_coincidences_do_no_harm(seed: int, d: float, radius: float) -> None:
    square = blocks(seed)
    assume(square is not None and (radius == 0.0 or len(square) > 4))
    c = rounded(square, radius) if radius else square  # type: ignore[arg-type]
    c = rotated(c, 0.3)  # type: ignore[arg-type]
    body, found = shape(c, 100), offset(c, d)
    assert_is_all_within(found, body, d, np.random.default_rng(seed).uniform(-8.0, 16.0, (500, 2)))
    assert all(problems(part) == () for part in found)


def test_no_distance_is_no_change_and_no_number_is_refused() -> None:
    square = rectangle(0.0, 0.0, 1.0, 1.0)
    assert offset(square, 0.0) == (square,)
    with pytest.raises(ValueError, match="finite"):
        offset(square, math.nan)
