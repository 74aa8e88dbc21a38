import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import FloatArray
from geometry.plane.crossings import distances
from geometry.plane.edges import Edge
from geometry.plane.profile import Profile, profile, revolved_volume


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    """2 to 8 points one above the other, straight and round edges between them; it may fold."""
    n = draw(st.integers(2, 8))
    radii = draw(st.lists(st.floats(15.0, 90.0), min_size=n, max_size=n))
    rises = draw(st.lists(st.floats(2.0, 40.0), min_size=n, max_size=n))
    bends = st.one_of(st.just(0.0), st.floats(0.02, 0.6), st.floats(-0.6, -0.02))
    bulges = draw(st.lists(bends, min_size=n, max_size=n))
    return Profile(np.column_stack((radii, np.cumsum(rises), bulges)))


@st.composite
def rising(draw: st.DrawFn) -> Profile:
    """As `profiles`, each edge so flat an arc that it only rises."""
    drawn = draw(profiles())
    slopes = np.arctan2(*np.abs(np.diff(drawn.points, axis=0)).T[::-1])  # of the chords, from horizontal
    most = np.append(np.tan(0.9 * slopes / 2.0), 0.0)
    return Profile(np.column_stack((drawn.points, np.clip(drawn.vertices[:, 2], -most, most))))


def dense(chain: Profile, chords: int = 2000) -> FloatArray:
    """Points along a chain, arcs by their centre and angles."""
    return dense_edges(chain.edges(), chords)


def dense_edges(edges: Sequence[Edge], chords: int) -> FloatArray:
    runs = []
    for edge in edges:
        t = np.linspace(0.0, 1.0, chords + 1)[:, None]
        start, end = np.array(edge.start), np.array(edge.end)
        if not edge.is_arc:
            runs.append(start + t * (end - start))
            continue
        spoke = start - edge.centre
        turned = math.atan2(spoke[1], spoke[0]) + edge.angle * t
        runs.append(edge.centre + edge.radius * np.column_stack((np.cos(turned), np.sin(turned))))
    return np.concatenate(runs)


def spacing(line: FloatArray) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).max())


@given(profiles(), st.floats(0.0, 1.0), st.floats(0.0, 0.5))
def test_radii_are_those_of_the_dense_line_between_the_heights(c: Profile, share: float, wide: float) -> None:
    low = c.bottom + share * (c.top - c.bottom)
    high = min(low + wide * (c.top - c.bottom), c.top)
    line = dense(c)
    slack = spacing(line)
    least, largest = c.radii(low, high)
    inside = line[(line[:, 1] >= low) & (line[:, 1] <= high), 0]
    about = line[(line[:, 1] >= low - slack) & (line[:, 1] <= high + slack), 0]
    assert about.min() - slack <= least <= inside.min(initial=math.inf) + 1e-9
    assert inside.max(initial=-math.inf) - 1e-9 <= largest <= about.max() + slack


@given(profiles(), st.floats(0.001, 0.999))
def test_a_radius_at_a_height_lies_on_the_profile(c: Profile, share: float) -> None:
    z = c.bottom + share * (c.top - c.bottom)
    least, largest = c.radii(z, z)
    assert largest == c.radius_at(z)
    assert distances(c.edges(), np.array(((least, z), (largest, z)))) == pytest.approx(0.0, abs=1e-7)


def test_radii_are_exact_with_arcs() -> None:
    ball = profile((0.0, -50.0, 1.0), (0.0, 50.0))
    assert ball.radii(-60.0, 60.0) == pytest.approx((0.0, 50.0), abs=1e-12)
    assert ball.radii(30.0, 40.0) == pytest.approx((30.0, 40.0), rel=1e-14)
    assert ball.radii(-30.0, 40.0) == pytest.approx((30.0, 50.0), rel=1e-14)
    assert ball.radius_at(-14.0) == pytest.approx(48.0, rel=1e-14)
    flat = profile((10.0, 0.0, 1e-7), (10.0, 80.0))
    assert flat.radius_at(40.0) - 10.0 == pytest.approx(40.0 * 1e-7, rel=1e-6)


def test_a_step_has_all_its_radii_at_its_height() -> None:
    inner = profile((0.0, 6.0), (40.0, 6.0), (50.0, 60.0))
    assert inner.radii(6.0, 6.0) == (0.0, 40.0)
    assert inner.radii(6.0, 60.0) == (0.0, 50.0)
    assert inner.radius_at(33.0) == pytest.approx(45.0)


def test_heights_the_profile_does_not_reach_are_refused() -> None:
    c = profile((30.0, 10.0), (40.0, 60.0))
    for low, high in ((0.0, 9.0), (61.0, 70.0)):
        with pytest.raises(ValueError, match="no part between"):
            c.radii(low, high)
        with pytest.raises(ValueError, match="no part between"):
            c.between(low, high)
    with pytest.raises(ValueError, match="no part"):
        c.lean_at(5.0)


@given(profiles())
def test_a_fold_is_where_the_dense_line_first_runs_downward(c: Profile) -> None:
    line = dense(c)
    falls = np.flatnonzero(np.diff(line[:, 1]) < -1e-9)
    fold = c.fold()
    assert (fold is not None) == bool(len(falls))
    if fold is not None:
        assert line[falls[0], 1] == pytest.approx(fold, abs=1e-4)


@given(profiles())
def test_bottom_and_top_are_those_of_the_dense_line(c: Profile) -> None:
    heights = dense(c)[:, 1]
    assert (c.bottom, c.top) == pytest.approx((heights.min(), heights.max()), abs=1e-4)
    assert c.bottom <= heights.min() + 1e-9
    assert c.top >= heights.max() - 1e-9


@given(rising(), st.floats(0.0, 0.9), st.floats(0.05, 1.0))
def test_the_part_between_two_heights_is_all_of_the_profile_there(
    c: Profile, share: float, wide: float
) -> None:
    assert c.fold() is None
    low = c.bottom + share * (c.top - c.bottom)
    high = min(low + wide * (c.top - c.bottom), c.top)
    found = c.between(low, high)
    assert (found.bottom, found.top) == pytest.approx((low, high), abs=1e-7)
    assert distances(c.edges(), dense(found, 50)).max() < 1e-6
    line = dense(c, 200)
    inside = line[(line[:, 1] >= low) & (line[:, 1] <= high)]
    assert distances(found.edges(), inside).max(initial=0.0) < 1e-6


def test_a_profile_that_folds_has_no_part_between_heights() -> None:
    with pytest.raises(ValueError, match="folds at 30"):
        profile((20.0, 0.0), (30.0, 30.0), (35.0, 25.0), (40.0, 60.0)).between(5.0, 50.0)


def test_a_profile_is_lengthened_along_its_tangents_or_upright_where_it_lies_flat() -> None:
    cone = profile((20.0, 0.0), (30.0, 30.0))
    assert cone.spanning(-3.0, 33.0).points.tolist() == pytest.approx(
        np.array(((19.0, -3.0), (20.0, 0.0), (30.0, 30.0), (31.0, 33.0)))
    )
    platter = profile((20.0, 0.0), (90.0, 30.0))
    assert platter.spanning(-3.0, 33.0).points[[0, -1]].tolist() == [[20.0, -3.0], [90.0, 33.0]]
    quarter = profile(
        (0.0, 0.0, math.tan(math.pi / 8.0)), (50.0, 50.0)
    )  # level at its foot, upright at its rim
    assert quarter.spanning(-5.0, 60.0).points[[0, -1]] == pytest.approx(
        np.array(((0.0, -5.0), (50.0, 60.0)))
    )
    assert quarter.spanning(14.0, 50.0).start == pytest.approx((math.sqrt(50.0**2 - 36.0**2), 14.0))
    assert np.array_equal(cone.spanning(0.0, 30.0).vertices, cone.vertices)


def test_a_lean_is_outward_from_vertical_whichever_way_the_profile_runs() -> None:
    c = profile((30.0, 0.0), (40.0, 10.0), (40.0, 20.0), (30.0, 30.0))
    for z, degrees in ((5.0, 45.0), (10.0, 0.0), (15.0, 0.0), (20.0, -45.0), (25.0, -45.0)):
        assert math.degrees(c.lean_at(z)) == pytest.approx(degrees, abs=1e-9)
    assert math.degrees(c.reversed().lean_at(5.0)) == pytest.approx(45.0)
    ball = profile((0.0, -50.0, 1.0), (0.0, 50.0))
    assert ball.lean_at(30.0) == pytest.approx(-math.asin(0.6))
    assert ball.lean_at(-50.0) == pytest.approx(math.pi / 2.0)


@given(profiles())
def test_the_other_way_round_and_moved_it_is_the_same_line(c: Profile) -> None:
    back = c.reversed()
    assert (back.start, back.end) == (c.end, c.start)
    assert back.length == pytest.approx(c.length)
    assert distances(back.edges(), dense(c, 20)).max() < 1e-6
    assert np.array_equal(back.reversed().vertices, c.vertices)
    assert dense(c.moved(3.0, -2.0), 20) == pytest.approx(dense(c, 20) + np.array((3.0, -2.0)))


def test_volumes_are_the_textbooks() -> None:
    cylinder = profile((20.0, 0.0), (20.0, 50.0))
    assert revolved_volume(cylinder) == pytest.approx(math.pi * 400.0 * 50.0, rel=1e-13)
    cone = profile((0.0, 0.0), (30.0, 40.0))
    assert revolved_volume(cone) == pytest.approx(math.pi * 900.0 * 40.0 / 3.0, rel=1e-13)
    frustum = profile((20.0, 5.0), (30.0, 45.0))
    assert revolved_volume(frustum) == pytest.approx(
        math.pi * 40.0 / 3.0 * (400.0 + 600.0 + 900.0), rel=1e-13
    )
    ball = profile((0.0, -50.0, 1.0), (0.0, 50.0))
    assert revolved_volume(ball) == pytest.approx(4.0 / 3.0 * math.pi * 50.0**3, rel=1e-13)
    assert revolved_volume(ball.reversed()) == pytest.approx(-revolved_volume(ball))


def test_a_spherical_segment_has_the_volume_of_the_handbook() -> None:
    # Machinery's Handbook 31st ed., p. 91: height 50, diameter across 125 mm: 372,247 mm³, radius 64.
    cap = profile((0.0, 0.0, math.tan(math.atan2(50.0, 62.5) / 2.0)), (62.5, 50.0))
    assert revolved_volume(cap) == pytest.approx(372_247.0, abs=1.0)
    assert cap.edges()[0].radius == pytest.approx(64.0, abs=0.1)


@given(rising())
def test_a_volume_is_that_of_many_thin_slices(c: Profile) -> None:
    (x0, y0), (x1, y1) = dense(c)[:-1].T, dense(c)[1:].T
    slices = math.pi / 3.0 * (y1 - y0) * (x0 * x0 + x0 * x1 + x1 * x1)
    assert revolved_volume(c) == pytest.approx(slices.sum(), rel=1e-5)


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (np.zeros((1, 3)), "2 or more rows"),
        (np.zeros((4, 2)), "2 or more rows"),
        (np.array(((0.0, 0.0, 0.0), (math.nan, 0.0, 0.0))), "finite"),
    ],
)
def test_rows_that_are_no_profile_are_refused(rows: FloatArray, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Profile(rows)


def test_the_vertices_cannot_be_changed_from_outside() -> None:
    rows = np.array(((30.0, 0.0, 0.1), (40.0, 50.0, 0.3)))
    c = Profile(rows)
    rows[0] = 9.0
    assert c.vertices.tolist() == [[30.0, 0.0, 0.1], [40.0, 50.0, 0.0]]
    with pytest.raises(ValueError, match="read-only"):
        c.vertices[0, 0] = 1.0
