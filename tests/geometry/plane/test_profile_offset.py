import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, example, given
from hypothesis import strategies as st

from geometry.curves.biarcs import biarcs
from geometry.curves.spline import through
from geometry.plane.crossings import distances, parameter
from geometry.plane.edges import Point
from geometry.plane.profile import Profile, profile
from geometry.plane.profile_offset import runs_beside
from tests.geometry.plane.test_profile import dense, dense_edges, profiles, rising

CHORD = 1e-3  # mm; shorter runs are no lines
steps = st.one_of(st.floats(0.3, 15.0), st.floats(-15.0, -0.3))


@st.composite
def simple(draw: st.DrawFn) -> Profile:
    """A profile that does not cross itself."""
    c = draw(profiles())
    assume(shapely.LineString(dense(c, 100)).is_simple)
    return c


def beside(c: Profile, d: float) -> Profile | None:
    try:
        return c.beside(d)
    except ValueError as nothing:
        assert "nothing is left" in str(nothing)  # noqa: PT017
        return None


# Chains that fold back, so that a parallel comes to their other side: well within the distance, and by a hair.
FOLDED = Profile(np.array([[65.0, 27.6, 0.5], [43.4, 63.9, 0.0], [15.0, 65.9, -0.4475], [56.0, 67.9, 0.0]]))
DOUBLED = Profile(
    np.array([[34.294659797, 26.0, 0.5], [15.0, 47.4, 0.5026553893], [29.164322711, 70.4, 0.0]])
)

# Its mouth is narrower than its inside.
BULB = profile((-60, 0), (-10, 0, math.tan(math.radians(75))), (10, 0), (60, 0))


@given(simple(), steps)
@example(BULB, -15.0)
@example(FOLDED, 12.0)
@example(DOUBLED, -7.0)
def test_every_point_of_a_parallel_is_at_the_distance_on_its_side(c: Profile, d: float) -> None:
    found = beside(c, d)
    if found is not None:
        line = dense(found, 40)
        assert distances(c.edges(), line) == pytest.approx(abs(d), abs=5e-6)
        middles = [edge.midpoint for edge in found.edges()]
        assert sides(c, middles) <= {d > 0.0}


def sides(c: Profile, points: list[Point]) -> set[bool]:
    """Whether to the right of the edge nearest to each point, of those that stand square to an edge."""
    found = set()
    for x, y in points:
        feet = [(edge, parameter(edge, (x, y))) for edge in c.edges()]
        edge, t = min(feet, key=lambda foot: math.dist(foot[0].point_at(foot[1]), (x, y)))
        if 1e-6 < t < 1.0 - 1e-6:
            (x0, y0), heading = edge.point_at(t), edge.heading(t)
            found.add((x - x0) * math.sin(heading) - (y - y0) * math.cos(heading) > 0.0)
    return found


@given(simple(), steps)
def test_both_parallels_and_the_ends_circles_are_the_edge_of_a_band(c: Profile, d: float) -> None:
    """All runs of them: a chain that folds back onto its other side has several."""
    line = dense(c, 40)
    band = shapely.union_all(
        shapely.buffer(shapely.linestrings(np.stack((line[:-1], line[1:]), axis=1)), abs(d), quad_segs=32)
    )
    rest = band.exterior
    for run in (*runs_beside(c.edges(), d), *runs_beside(c.edges(), -d)):
        if sum(edge.length for edge in run) > CHORD:
            rest = rest.difference(shapely.LineString(dense_edges(run, 100)).buffer(0.05))
    ends = shapely.union_all([shapely.Point(end).buffer(abs(d) + 0.02, 64) for end in (c.start, c.end)])
    assert rest.difference(ends).length < 0.5


@given(rising(), steps)
def test_a_profile_run_the_other_way_has_the_same_parallel_on_its_other_side(c: Profile, d: float) -> None:
    there, back = beside(c, d), beside(c.reversed(), -d)
    assert (there is None) == (back is None)
    if there is not None and back is not None:
        assert back.length == pytest.approx(there.length, abs=1e-4)


def test_an_opened_corner_is_rounded_and_a_closed_one_is_cut() -> None:
    c = profile((20.0, 0.0), (20.0, 30.0), (50.0, 30.0))  # turns to the right
    outward = c.beside(5.0)
    assert outward.vertices == pytest.approx(np.array(((25, 0, 0), (25, 25, 0), (50, 25, 0))))
    inward = c.beside(-5.0)
    bend = -math.tan(math.pi / 8.0)
    rows = np.array(((15, 0, 0), (15, 30, bend), (20, 35, 0), (50, 35, 0)))
    assert inward.vertices == pytest.approx(rows)


def test_arcs_that_vanish_are_trimmed_over_the_whole() -> None:
    bend = -math.tan(math.pi / 8.0)
    rounded = profile((20.0, 0.0), (20.0, 27.0, bend), (23.0, 30.0), (50.0, 30.0))
    for d in (3.0, 5.0):
        rows = np.array(((20.0 + d, 0.0, 0.0), (20.0 + d, 30.0 - d, 0.0), (50.0, 30.0 - d, 0.0)))
        assert rounded.beside(d).vertices == pytest.approx(rows)


def test_a_hollow_with_too_narrow_a_mouth_is_passed_by() -> None:
    # A flask lying open to the right: its neck is 8 mm wide, its hollow 60 by 40 mm.
    c = profile(
        (80, -20), (80, 26), (60, 26), (60, 0), (0, 0), (0, 60), (60, 60), (60, 34), (80, 34), (80, 80)
    )
    through_neck, past = c.beside(3.9), c.beside(4.1)
    assert through_neck.points[:, 0].min() == pytest.approx(3.9)
    assert past.points[:, 0].min() > 79.0
    assert (past.start, past.end) == ((84.1, -20.0), (84.1, 80.0))


def test_a_parallel_stays_clear_of_the_ends_too() -> None:
    c = profile((0.0, 0.0), (0.0, 100.0), (1.0, 100.0))
    found = c.beside(5.0)
    assert distances(c.edges(), dense(found)).min() > 5.0 - 1e-6
    assert found.end == pytest.approx((5.0, 97.0))  # 5 mm from (1, 100)


def test_the_parallel_of_a_smooth_profile_is_smooth_and_has_its_arcs() -> None:
    curve = through([(40, 0), (60, 20), (80, 45), (85, 70), (75, 100), (50, 130)])
    c = Profile(biarcs(curve))
    for d in (-6.0, 2.0):
        found = c.beside(d)
        assert len(found) == len(c)
        for before, after in zip(c.edges(), found.edges(), strict=True):
            assert math.dist(before.midpoint, after.midpoint) == pytest.approx(abs(d), abs=1e-6)
            assert after.bulge == pytest.approx(before.bulge, abs=1e-5)


def test_no_distance_is_no_change_and_no_number_is_refused() -> None:
    c = profile((20.0, 0.0, 0.3), (20.0, 30.0))
    assert np.array_equal(c.beside(0.0).vertices, c.vertices)
    with pytest.raises(ValueError, match="finite"):
        c.beside(math.nan)


def test_a_profile_of_which_nothing_is_left_is_refused() -> None:
    half = profile((10.0, 0.0, 1.0), (-10.0, 0.0))
    assert half.beside(-9.0).edges()[0].radius == pytest.approx(1.0)
    with pytest.raises(ValueError, match="nothing is left"):
        half.beside(-11.0)


@given(st.integers(-60, -20).map(lambda tenth: 10 ** (tenth / 10)), st.floats(0.05, 5))
def test_a_kink_however_slight_does_not_end_a_parallel_on_its_closing_side(kink: float, d: float) -> None:
    """What is past the crossing of two edges is then no farther in than what is still taken as clear."""
    turned = (30 * math.sin(kink), 30 + 30 * math.cos(kink))
    moved = profile((0, 0), (0, 30), turned).beside(d)
    assert moved.end == pytest.approx(
        (turned[0] + d * math.cos(kink), turned[1] - d * math.sin(kink)), abs=1e-5
    )
    assert moved.length == pytest.approx(60 - 2 * d * math.tan(kink / 2), abs=1e-5)
