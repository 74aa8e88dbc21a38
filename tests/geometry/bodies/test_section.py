import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.bodies.section import Section, TooTight, inner_from_wall, least_wall
from geometry.curves.biarcs import biarcs
from geometry.curves.spline import through
from geometry.plane.contour import FloatArray
from geometry.plane.crossings import distances
from geometry.plane.profile import Profile, profile
from tests.geometry.finished_walls import finished_walls
from tests.geometry.shapes import dense, shape
from tests.geometry.validity import problems
from tests.geometry.vessels import outsides, sections

CUP = Section(profile((30, 0), (30, 50)), profile((0, 8), (25, 8), (25, 50)), 20.0, 3.0)
VASE = Profile(biarcs(through([(40, 0), (70, 20), (100, 60), (95, 120), (70, 160), (80, 180)])))
ROUND_FOOT = profile((40, 0, math.tan(math.pi / 8)), (45, 5), (60, 60))

allowances = st.one_of(st.just(0.0), st.floats(0.2, 20.0))
seeds = st.integers(0, 2**32 - 1)


def along(p: Profile, count: int = 12) -> FloatArray:
    """Points on each edge of a profile, its ends included."""
    return np.array([edge.point_at(t) for edge in p.edges() for t in np.linspace(0.0, 1.0, count)])


def wall_of(section: Section, heights: FloatArray) -> tuple[FloatArray, FloatArray]:
    inner, outer = np.array([section.wall_at(z) for z in heights]).T
    return inner, outer


def middles(low: float, high: float, count: int) -> tuple[FloatArray, float]:
    step = (high - low) / count
    return low + step * (np.arange(count) + 0.5), step


# ---- the section and its measures


def test_a_straight_cup_has_the_measures_of_its_cylinders() -> None:
    wood = math.pi * (30**2 * 50 - 25**2 * 42 - 20**2 * 3)
    moment = math.pi * (30**2 * 50 * 25 - 25**2 * 42 * 29 - 20**2 * 3 * 1.5)
    assert CUP.volume == pytest.approx(wood)
    assert CUP.capacity == pytest.approx(math.pi * 25**2 * 42)
    assert CUP.centre_height == pytest.approx(moment / wood)
    assert (CUP.floor_thickness, CUP.height, CUP.mouth_radius, CUP.rim_radius) == (5, 50, 25, 30)
    assert CUP.volume_between(1, 6) == pytest.approx(math.pi * (30**2 * 5 - 20**2 * 2))
    assert CUP.volume_between(-9, -1) == CUP.volume_between(51, 60) == 0.0
    assert [CUP.wall_at(z) for z in (1, 5, 8, 30)] == [(20, 30), (0, 30), (25, 30), (25, 30)]


@settings(max_examples=12)
@given(sections())
def test_the_contour_is_valid_and_counter_clockwise(s: Section) -> None:
    assert problems(s.contour) == ()
    assert s.contour.area > 0.0
    assert s.contour.bounds[0] == 0.0


@settings(max_examples=8)
@given(sections(), st.floats(0.0, 0.45), st.floats(0.55, 1.0))
def test_volumes_are_those_of_thin_slices(s: Section, low: float, high: float) -> None:
    z, step = middles(low * s.height, high * s.height, 400)
    inner, outer = wall_of(s, z)
    disks = math.pi * (outer**2 - inner**2) * step
    # A slice that is half floor is wrong by up to its own volume.
    slack = 1e-3 * disks.sum() + 2.0 * math.pi * s.rim_radius**2 * step
    assert s.volume_between(low * s.height, high * s.height) == pytest.approx(disks.sum(), abs=slack)
    assert s.volume_between(-1.0, s.height + 1.0) == pytest.approx(s.volume)


@settings(max_examples=8)
@given(sections())
def test_the_centre_of_mass_and_the_capacity_are_those_of_thin_slices(s: Section) -> None:
    levels = (0.0, s.recess_depth, s.inner.bottom, s.height)  # between them the wall only changes smoothly
    volume = moment = 0.0
    for low, high in pairwise(levels):
        z, step = middles(low, high, 200)
        inner, outer = wall_of(s, z)
        disks = math.pi * (outer**2 - inner**2) * step
        volume, moment = volume + disks.sum(), moment + (disks * z).sum()
    assert s.centre_height == pytest.approx(moment / volume, rel=2e-3)
    assert s.capacity == pytest.approx(math.pi * (inner**2).sum() * step, rel=3e-3)


@pytest.mark.parametrize(
    ("outer", "inner", "recess", "words"),
    [
        (profile((30, 1), (30, 50)), CUP.inner, (0, 0), "starts at height 0"),
        (CUP.outer, profile((5, 8), (25, 50)), (0, 0), "on the axis"),
        (CUP.outer, profile((0, 8), (25, 49)), (0, 0), "height of the rim"),
        (CUP.outer, profile((0, 8), (31, 50)), (0, 0), "within the outside"),
        (CUP.outer, CUP.inner, (31, 2), "within the foot's radius of 30 mm"),
        (CUP.outer, CUP.inner, (20, 8), "wood between the floor"),
    ],
)
def test_profiles_that_do_not_fit_together_are_refused(outer, inner, recess, words) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=words):
        Section(outer, inner, *recess)


# ---- grown by an allowance


@settings(max_examples=12)
@given(sections(), allowances, seeds)
def test_the_dilated_section_holds_what_is_nearer_than_the_allowance(s: Section, d: float, seed: int) -> None:
    grown, body = s.dilated(d), shape(s.contour, 150)
    tried = np.random.default_rng(seed).uniform((1e-3, -25.0), (110.0, s.height + 25.0), (600, 2))
    away = shapely.distance(body, shapely.points(tried))
    clear = np.abs(away - d) > 2e-3 if d else shapely.distance(body.exterior, shapely.points(tried)) > 2e-3
    assert np.array_equal(grown.contains(tried)[clear], (away <= d)[clear])
    assert problems(grown) == ()


@settings(max_examples=12)
@given(sections(), allowances, st.floats(-0.3, 1.2), st.floats(0.02, 0.6))
def test_what_a_span_needs_is_the_extent_of_the_dilated_section_there(
    s: Section, d: float, start: float, share: float
) -> None:
    low, high = start * s.height, (start + share) * s.height
    found = shape(s.dilated(d)).intersection(shapely.box(-1.0, low, 500.0, high))
    needed = s.needs(low, high, d)
    if needed is None:
        assert found.area < 1e-3
    else:
        assert needed == pytest.approx(found.bounds[::2], abs=2e-3)


def test_a_neck_no_wider_than_the_allowance_is_solid() -> None:
    outer = profile((30, 0), (60, 60), (12, 120), (25, 140))
    s = Section(outer, inner_from_wall(outer, 6, 8, 2))
    neck = s.inner.radii(100, 140)[0]
    assert s.needs(118, 122, neck + 0.1)[0] == 0.0  # type: ignore[index]
    assert s.needs(118, 122, neck - 0.1)[0] == pytest.approx(0.1, abs=1e-6)  # type: ignore[index]
    assert s.needs(50, 70, neck + 0.1)[0] > 20  # type: ignore[index]
    assert problems(s.dilated(neck + 0.1)) == ()


@pytest.mark.parametrize("allowance", [-1.0, math.nan, math.inf])
def test_an_allowance_below_nothing_is_refused(allowance: float) -> None:
    with pytest.raises(ValueError, match="0 mm or more"):
        CUP.dilated(allowance)


# ---- the inside from the wall


@settings(max_examples=12)
@given(outsides(), st.floats(2.0, 8.0), st.floats(4.0, 12.0))
def test_the_inside_stands_off_the_outside_by_the_wall(outer: Profile, wall: float, floor: float) -> None:
    try:
        inner = inner_from_wall(outer, wall, floor, 0.0)
    except ValueError:
        return
    places = along(inner)
    places = places[places[:, 1] > floor + 1e-6]
    gaps = distances(outer.edges(), places)
    ends = np.minimum(*(np.hypot(*(places - end).T) for end in (outer.start, outer.end)))
    square = ends > gaps + 1e-6  # nearest not to an end, past which the inside is lengthened
    assert gaps[square] == pytest.approx(wall, abs=1e-5)
    assert inner.fold() is None
    assert inner.end[1] == pytest.approx(outer.top)
    assert [*inner.start, inner.points[1, 1]] == pytest.approx([0.0, floor, floor])


@settings(max_examples=6)
@given(outsides(), st.floats(3.0, 8.0), st.floats(3.0, 8.0), st.floats(0.2, 0.8))
def test_a_wall_by_height_is_square_to_the_outside(outer: Profile, a: float, b: float, at: float) -> None:
    stations = ((0.0, a), (at * outer.top, b), (outer.top, a))
    try:
        inner = inner_from_wall(outer, stations, 10.0, 0.0)
    except ValueError:
        return
    edges = inner.edges()[1:]
    for edge in outer.edges():
        for t in np.linspace(0.02, 0.98, 7):
            (x, y), heading = edge.point_at(t), edge.heading(t)
            wall = float(np.interp(y, *zip(*stations, strict=True)))
            place = np.array([(x - wall * math.sin(heading), y + wall * math.cos(heading))])
            inside_corner = distances(outer.edges(), place)[0] < min(a, b) - 1e-3
            if 10.0 < place[0, 1] < outer.top and not (inside_corner or near_a_corner(outer, (x, y))):
                assert distances(edges, place)[0] < 0.006


def near_a_corner(outer: Profile, place: tuple[float, float]) -> bool:
    """Whether a place lies where, past a corner, the wall of the other side is the nearer one."""
    edges = outer.edges()
    turns = [math.remainder(b.heading(0.0) - a.heading(1.0), 2 * math.pi) for a, b in pairwise(edges)]
    return any(
        turn > 1e-4 and math.dist(a.end, place) < 8.0 * math.tan(turn / 2.0) + 4.0
        for a, turn in zip(edges, turns, strict=False)
    )


def test_a_wall_of_one_thickness_by_height_is_that_wall() -> None:
    plain, by_height = inner_from_wall(VASE, 6.0, 10, 8), inner_from_wall(VASE, ((0, 6.0), (90, 6.0)), 10, 8)
    assert distances(plain.edges(), along(by_height)) == pytest.approx(0.0, abs=0.006)


def test_the_wall_is_kept_round_a_rim_that_turns_in_at_the_last() -> None:
    outer = profile((30, 0), (60, 50), (57, 52))
    inner = inner_from_wall(outer, 8.0, 10.0, 0.0)
    assert inner.end == pytest.approx((57 - 8, 52))
    assert distances(outer.edges(), along(inner)).min() == pytest.approx(8.0, abs=1e-6)


def test_a_tight_arc_is_named_with_the_largest_wall_that_works() -> None:
    with pytest.raises(TooTight, match=r"radius of 5 mm, too tight for a wall of 8 mm") as caught:
        inner_from_wall(ROUND_FOOT, 8.0, 4.0, 0.0)
    assert caught.value.z == pytest.approx(5 - 5 * math.cos(math.pi / 4))
    assert caught.value.most == 4.999
    assert inner_from_wall(ROUND_FOOT, caught.value.most, 4.0, 0.0).end[1] == 60


def test_a_tight_arc_under_the_floor_does_not_matter() -> None:
    assert least_wall(ROUND_FOOT, inner_from_wall(ROUND_FOOT, 8.0, 10.0, 3.0))[0] == pytest.approx(8.0)


def test_a_wall_by_height_is_held_against_the_curve_where_it_is() -> None:
    shoulder = profile((40, 0), (45, 40, math.tan(math.pi / 8)), (38, 47))
    assert inner_from_wall(shoulder, ((0, 9), (40, 6), (47, 6)), 10, 0).end[1] == 47
    with pytest.raises(TooTight) as caught:
        inner_from_wall(shoulder, ((0, 6), (40, 6), (44, 8), (47, 6)), 10, 0)
    assert caught.value.most < 45 - 38


def test_a_neck_too_narrow_for_the_wall_is_named() -> None:
    neck = profile((30, 0), (60, 60), (9, 120), (20, 140))
    with pytest.raises(TooTight, match="closes the inside") as caught:
        inner_from_wall(neck, 12.0, 8.0, 2.0)
    assert caught.value.z == pytest.approx(120, abs=8)
    assert inner_from_wall(neck, caught.value.most, 8.0, 2.0).end[1] == 140


@pytest.mark.parametrize(
    ("outer", "wall", "floor", "words"),
    [
        (VASE, 6, 180, "below the rim at 180 mm"),
        (VASE, 6, 0, "above the foot"),
        (profile((60, 0), (70, 8), (150, 20)), 30, 6, "leaves no inside"),
        (profile((60, 0), (50, 40), (20, 45)), 6, 43, "must be lower than 39.*, where the inner wall ends"),
        (VASE, 0, 10, "thicker than 0 mm"),
        (VASE, ((0, 6), (0, 7)), 10, "must rise"),
        (VASE, (), 10, "thicker than 0 mm"),
    ],
)
def test_a_wall_or_floor_without_an_inside_is_refused(outer, wall, floor, words) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=words):
        inner_from_wall(outer, wall, floor, 0.0)


@settings(max_examples=10)
@given(outsides(), st.floats(1.0, 15.0))
def test_a_corner_is_an_arc_tangent_to_floor_and_wall(outer: Profile, corner: float) -> None:
    try:
        sharp, rounded = (inner_from_wall(outer, 4.0, 8.0, radius) for radius in (0.0, corner))
    except ValueError:
        return
    arc = next(edge for edge in rounded.edges() if edge.is_arc)
    assert arc.radius == pytest.approx(corner)
    assert math.remainder(arc.heading(0.0), 2 * math.pi) == pytest.approx(0.0, abs=1e-9)
    side = sharp.edges()[1:]
    ends = distances(side, np.array([arc.end, arc.centre]))
    assert ends == pytest.approx((0.0, corner), abs=1e-5)  # touches the wall, and nothing of it is cut
    assert math.dist(sharp.end, rounded.end) < 1e-9


def test_the_largest_corner_is_named_and_fits() -> None:
    with pytest.raises(
        ValueError, match=r"rounded to 200 mm; the largest that fits is ([\d.]+) mm"
    ) as caught:
        inner_from_wall(VASE, 6, 10, 200)
    largest = float(str(caught.value).split()[-2])
    assert inner_from_wall(VASE, 6, 10, largest).points[0, 0] == pytest.approx(0.0, abs=0.01)
    with pytest.raises(ValueError, match="cannot be rounded"):
        inner_from_wall(VASE, 6, 10, largest + 0.01)
    with pytest.raises(ValueError, match="0 mm or more"):
        inner_from_wall(VASE, 6, 10, -1)


# ---- the least wall


@settings(max_examples=10)
@given(sections(), st.floats(-3.0, 1.5))
def test_the_least_wall_is_that_of_a_dense_search(s: Section, shift: float) -> None:
    inner = Profile(s.inner.vertices + (s.inner.vertices[:, :1] > 0.0) * np.array((shift, 0.0, 0.0)))
    thickness, height = least_wall(s.outer, inner)
    places = along(inner, 80)
    gaps = shapely.distance(shapely.LineString(along(s.outer, 80)), shapely.points(places))
    assert thickness == pytest.approx(gaps.min(), abs=0.03)
    assert np.abs(places[gaps < thickness + 0.06, 1] - height).min() < 1.0


def test_an_inside_that_breaks_through_has_a_wall_below_nothing() -> None:
    thickness, height = least_wall(CUP.outer, profile((0, 8), (25, 8), (32, 30), (25, 50)))
    assert (thickness, height) == (pytest.approx(-2.0), pytest.approx(30.0))


def test_a_rounded_rim_is_no_thin_wall_but_a_knife_edge_is() -> None:
    quarter = math.tan(math.pi / 8)
    rounded = (
        profile((30, 0), (30, 47, quarter), (27, 50)),
        profile((0, 8), (24, 8), (24, 47, -quarter), (27, 50)),
    )
    assert least_wall(*rounded)[0] == pytest.approx(6.0)
    knife = least_wall(profile((30, 0), (30, 50)), profile((0, 8), (24, 8), (24, 30), (30, 50)))
    assert knife[0] < 1e-3
    closed_in = profile((40, 0), (60, 40, math.tan(math.pi / 8)), (40, 60), (20, 60.5))
    assert least_wall(closed_in, inner_from_wall(closed_in, 6, 8, 2))[0] == pytest.approx(6.0, abs=1e-6)


def test_a_lip_thinner_than_the_wall_below_it_is_the_least_wall() -> None:
    shoulder = profile((40, 0), (70, 60), (30, 75))
    straight_up = profile((0, 6), (33, 6), (60, 60), (26.6, 71.4), (26.6, 75))
    assert least_wall(shoulder, straight_up) == (pytest.approx(3.4), pytest.approx(75.0))


# ---- the finished wall against brute force: rims that lean in, necks, walls by height


def test_the_finished_wall_is_never_thinner_than_asked_nor_than_reported() -> None:
    """40 here; 500 by `python -m tests.geometry.finished_walls 500`."""
    tried = finished_walls(40, seed=11)
    assert tried.made >= 40
    assert tried.leaning_in >= 8
    assert tried.thinner_than_asked < 0.01
    assert tried.thinner_than_reported < 0.001


def test_the_section_of_dense_points_is_the_contour() -> None:
    """The brute force of this file stands on its own samples of the section."""
    assert shapely.Polygon(dense(CUP.contour)).area == pytest.approx(CUP.contour.area)
