"""The torus blank, held against dense sampling and hulls of its prisms."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar
from scipy.spatial import ConvexHull

from geometry.bodies.torus import (
    Blank,
    SegmentCut,
    apothem_needed,
    bevel_needed,
    centre_play,
    core_corners,
    flat_normals,
    largest_core,
    least_apothem,
    outer_flat,
    rings_in_check,
    torus_surface,
    torus_volume,
    wall_left,
)
from geometry.bodies.tube import ON_ELLIPSE, Tube, tube_of
from geometry.plane.contour import regular_polygon
from geometry.plane.edges import FloatArray
from tests.geometry.tori_blanks import SEGMENTS, blanks, segments, wedge_rings

SAMPLING = 5e-5  # mm; what the samples of a tube of radius 40 may miss
FLAT = (1.0, 0.67, 0.9, 1.2, 1.5)  # height by width

Torus = tuple[float, Tube, int, int]  # major, reach, wedge rings, segments


@st.composite
def tori(draw: st.DrawFn, slimmer_than: float = 1.05) -> Torus:
    reach, flat = draw(st.floats(8.0, 40.0)), draw(st.sampled_from(FLAT))
    ratio = draw(st.one_of(st.floats(slimmer_than, 3.0), st.floats(slimmer_than, 12.0)))
    return ratio * reach, tube_of(reach, flat * reach), draw(wedge_rings), draw(segments)


def section(tube: Tube) -> tuple[FloatArray, FloatArray]:
    """Points of the ellipse that is so wide and so high, by its own equation."""
    theta = np.linspace(-math.pi, math.pi, 2 * 1440 + 1)
    return tube.wide * np.cos(theta), tube.high * np.sin(theta)


def off(tube: Tube) -> float:
    """What samples and arcs may miss."""
    return SAMPLING if tube.round else SAMPLING + ON_ELLIPSE


def slice_of_torus(major: float, tube: Tube, rings: int) -> tuple[FloatArray, FloatArray]:
    """x and z of points all over the torus from the middle of a wedge ring to its joint."""
    phi = np.linspace(0.0, math.pi / rings, 25)
    out, up = section(tube)
    return np.outer(np.cos(phi), major + out).ravel(), np.tile(up, len(phi))


def reaches(torus: Torus) -> tuple[FloatArray, FloatArray]:
    """How far the slice reaches along each flat's normal from the axis, and the normals' cosines."""
    major, tube, rings, n = torus
    x, z = slice_of_torus(major, tube, rings)
    # Flats 0, 1 ... n-1 from straight down; written out here apart from the code under test.
    normals = [-math.pi / 2 + 2 * math.pi * k / n for k in range(n)]
    return np.array([(x * math.cos(a) + z * math.sin(a)).max() for a in normals]), np.cos(normals)


def needed(torus: Torus, centre: float) -> FloatArray:
    reach, cosines = reaches(torus)
    return np.asarray(reach - centre * cosines)


@given(tori())
def test_the_prism_holds_the_torus_and_no_smaller_one_does(torus: Torus) -> None:
    major, reach = torus[:2]
    apothem, centre = least_apothem(*torus)
    extents, cosines = reaches(torus)

    def least_at(x: float) -> float:
        return float((extents - x * cosines).max())

    bounds = (major - 2 * reach.wide, major + reach.wide)
    best = minimize_scalar(least_at, bounds=bounds, method="bounded").fun
    more = 0.0 if reach.round else ON_ELLIPSE
    assert apothem - off(reach) - 1e-5 <= least_at(centre) <= apothem + 1e-9 + more
    assert apothem - 1e-3 - more < best


@given(tori(), st.floats(-0.3, 0.3))
def test_every_flat_needs_what_the_samples_reach(torus: Torus, aside: float) -> None:
    major, reach, _, n = torus
    centre = major + aside * reach.wide
    assert apothem_needed(*torus, centre) == pytest.approx(needed(torus, centre), abs=off(reach))
    assert flat_normals(n)[0] == pytest.approx(-math.pi / 2)


@given(tori(), st.floats(0.05, 5.0))
def test_the_play_is_all_the_centres_that_hold_the_torus(torus: Torus, spare: float) -> None:
    apothem = least_apothem(*torus)[0] + spare
    least, greatest = centre_play(*torus, apothem)
    assert least < greatest
    more = 0.0 if torus[1].round else 2 * ON_ELLIPSE
    for centre in np.linspace(least, greatest, 5):
        assert needed(torus, centre).max() <= apothem + 1e-9 + more
    for outside in (least - 1e-3 - 2 * more, greatest + 1e-3 + 2 * more):
        assert needed(torus, outside).max() > apothem


@given(tori())
def test_the_least_ring_has_no_play(torus: Torus) -> None:
    """But under a tall tube, where the flats above and below it ask for all."""
    apothem, centre = least_apothem(*torus)
    least, greatest = centre_play(*torus, apothem)
    if torus[1].high < apothem - 1e-9:
        assert (least, greatest) == pytest.approx((centre, centre), abs=1e-6)
    assert least - 1e-6 <= centre <= greatest + 1e-6


@pytest.mark.parametrize(("major", "reach"), [(30.0, 30.0), (20.0, 30.0)])
def test_a_torus_without_a_hole_is_refused(major: float, reach: float) -> None:
    with pytest.raises(ValueError, match="major radius"):
        least_apothem(major, tube_of(reach), 18, 8)


def core_surface(centre: float, apothem: float, rings: int, n: int, fine: bool = True) -> FloatArray:
    """Points (m, 3) on a core's corners, on its flats between them and along the tube to both joints."""
    angles = -math.pi / 2 + 2 * math.pi / n * (np.arange(n) + 0.5)
    corners = apothem / math.cos(math.pi / n) * np.column_stack((np.cos(angles), np.sin(angles)))
    share = np.linspace(0.0, 1.0, 41 if fine else 11)[:, None, None]
    x, z = np.moveaxis((1 - share) * corners + share * np.roll(corners, -1, axis=0), -1, 0).reshape(2, -1)
    x = x + centre
    along = np.linspace(-1.0, 1.0, 41 if fine else 11)[:, None]
    y = along * np.abs(x) * math.tan(math.pi / rings)
    return np.stack((np.broadcast_to(x, y.shape), y, np.broadcast_to(z, y.shape)), axis=-1).reshape(-1, 3)


def depth_in_torus(points: FloatArray, major: float, tube: Tube) -> FloatArray:
    """To the tangents of the ellipse: h - n·p, the least over many normals."""
    x, y, z = points.T
    out = np.hypot(x, y) - major
    if tube.round:
        return np.asarray(tube.wide - np.hypot(out, z))
    normals = np.linspace(0.0, 2 * math.pi, 721)
    c, s = np.cos(normals), np.sin(normals)
    support = np.hypot(tube.wide * c, tube.high * s)
    return np.asarray((support - out[:, None] * c - z[:, None] * s).min(axis=1))


@given(tori(), st.floats(0.05, 1.0), st.floats(-0.3, 0.3))
def test_the_wall_is_the_least_depth_of_the_core(torus: Torus, core: float, aside: float) -> None:
    major, tube, rings, n = torus
    centre, apothem = major + aside * tube.wide, core * min(tube.wide, tube.high)
    assume(centre - apothem / math.cos(math.pi / n) > 0)
    least = depth_in_torus(core_surface(centre, apothem, rings, n, tube.round), major, tube).min()
    more = 0.0 if tube.round else ON_ELLIPSE + 1e-3
    assert wall_left(major, tube, rings, n, centre, apothem) == pytest.approx(least, abs=1e-9 + more)


@given(tori(1.2), st.floats(0.05, 0.8))
def test_the_largest_core_leaves_the_least_wall(torus: Torus, wall: float) -> None:
    major, tube, rings, n = torus
    centre = least_apothem(*torus)[1]
    largest = largest_core(major, tube, rings, n, centre, wall * tube.wide)
    assume(largest == 0 or centre - largest / math.cos(math.pi / n) > 0)
    left = depth_in_torus(core_surface(centre, largest, rings, n, tube.round), major, tube).min()
    if largest == 0:
        assert left < wall * tube.wide
    else:
        more = 0.0 if tube.round else ON_ELLIPSE + 1e-3
        assert left == pytest.approx(wall * tube.wide, abs=1e-6 + more)


@pytest.mark.parametrize("n", SEGMENTS)
def test_corners_are_a_regular_polygons_that_stands_on_a_flat(n: int) -> None:
    corners = core_corners(50.0, 9.0, n)
    expected = regular_polygon(n, 9.0, -math.pi / 2, (50.0, 0.0))
    assert {tuple(p) for p in np.round(corners, 9) + 0.0} == {
        tuple(p) for p in np.round(expected.points, 9) + 0.0
    }
    assert np.sum(np.isclose(corners[:, 1], -9.0)) == 2
    assert outer_flat(9.0, n) == pytest.approx(corners[:, 0].max() - 50.0)


def prism(blank: Blank, apothem: float) -> FloatArray:
    """Corners (2n, 3) of a wedge ring's filled polygon between its two faces."""
    angles = -math.pi / 2 + 2 * math.pi / blank.segments * (np.arange(blank.segments) + 0.5)
    around = apothem / math.cos(math.pi / blank.segments)
    x, z = blank.centre + around * np.cos(angles), around * np.sin(angles)
    y = x * math.tan(math.pi / blank.wedge_rings)
    return np.concatenate([np.column_stack((x, side * y, z)) for side in (-1, 1)])


@given(blanks())
def test_volumes_are_those_of_the_prisms(blank: Blank) -> None:
    whole = blank.wedge_rings * ConvexHull(prism(blank, blank.apothem)).volume
    core = blank.wedge_rings * ConvexHull(prism(blank, blank.core_apothem)).volume
    assert blank.core_volume == pytest.approx(core, rel=1e-9)
    assert blank.volume == pytest.approx(whole - core, rel=1e-9)


@given(blanks())
def test_edges_and_swing_are_those_of_the_prisms(blank: Blank) -> None:
    corners = prism(blank, blank.apothem)
    x, y = corners[:, 0], corners[:, 1]
    assert blank.outer_radius == pytest.approx(x.max())
    assert blank.inner_radius == pytest.approx(x.min())
    assert blank.thick_edge == pytest.approx(2 * abs(y[np.argmax(x)]))
    assert blank.thin_edge == pytest.approx(2 * abs(y[np.argmin(x)]))
    assert blank.middle_length == pytest.approx((blank.thick_edge + blank.thin_edge) / 2)
    assert blank.swing_radius == pytest.approx(np.hypot(x, y).max())
    on_the_foot = np.isclose(corners[:, 2], corners[:, 2].min())
    assert blank.flat_width == pytest.approx(np.ptp(x[on_the_foot]))
    assert blank.arris_out == (np.sum(np.isclose(x, x.max())) == 2)


@given(st.floats(5.0, 40.0), st.floats(1.05, 8.0), st.sampled_from(FLAT))
def test_torus_volume_and_surface_are_the_integrals(wide: float, ratio: float, flat: float) -> None:
    major, high = ratio * wide, flat * wide
    theta = (np.arange(720) + 0.5) * 2 * math.pi / 720
    radius, dz = major + wide * np.cos(theta), high * np.cos(theta) * 2 * math.pi / 720
    # Washers: pi radius² dz round the section; bands: circumference times the section's arc.
    assert torus_volume(major, tube_of(wide, high)) == pytest.approx(
        np.sum(math.pi * radius**2 * dz), rel=1e-9
    )
    along = np.hypot(wide * np.sin(theta), high * np.cos(theta)) * 2 * math.pi / 720
    assert torus_surface(major, tube_of(wide, high)) == pytest.approx(
        np.sum(2 * math.pi * radius * along), abs=4 * math.pi**2 * major * ON_ELLIPSE
    )


@pytest.mark.parametrize("rings", range(6, 62, 2))
def test_the_check_takes_the_rings_nearest_to_a_right_angle(rings: int) -> None:
    off = [abs(count * 360 / rings - 90) for count in range(1, rings)]
    assert off[rings_in_check(rings) - 1] == pytest.approx(min(off))


def rides_high(plate: float, radius: float) -> float:
    """How far the middle of a flat plate's edge stands off a round opening that its two corners touch."""
    return radius - math.sqrt(radius**2 - plate**2 / 4)


@given(st.floats(1.0, 10.0), st.floats(12.0, 400.0))
def test_a_plate_is_bevelled_where_it_would_ride_high(plate: float, radius: float) -> None:
    land = bevel_needed(plate, radius)
    if land is None:
        assert rides_high(plate, radius) <= 0.03 * 1.001
    else:
        assert 0 < land < plate
        assert rides_high(plate, radius) > 0.03
        assert rides_high(land, radius) == pytest.approx(0.03, rel=0.002)


@given(st.floats(1.0, 8.0), tori(1.5))
def test_no_plate_in_the_hole_rides_higher_than_at_its_narrowest(plate: float, torus: Torus) -> None:
    major, tube = torus[0], torus[1].wide
    assume(plate < (major - tube) / 2)
    theta = np.linspace(math.pi / 2, 3 * math.pi / 2, 721)
    edge = np.column_stack(
        (major + tube * np.cos(theta), np.full(721, plate / 2), tube * np.sin(theta))
    )  # the arris of a plate whose middle plane holds the finished profile
    early = depth_in_torus(edge, major, tube_of(tube))
    assert early.max() == pytest.approx(rides_high(plate, major - tube), rel=0.05)
    land = bevel_needed(plate, major - tube)
    edge[:, 1] = (plate if land is None else land) / 2
    assert depth_in_torus(edge, major, tube_of(tube)).max() < 0.0305


@pytest.mark.parametrize("count", [1, 2, 7])
def test_a_strip_is_as_long_as_the_longer_of_its_edges(count: int) -> None:
    """Walked along both, turned over between cuts: outer and inner edges in turn, and a kerf at either end of each."""
    cut = SegmentCut(25.6, 8.5, 20.65, 59.0, math.pi / 8, 3.0)
    slant = 3.0 / math.cos(math.pi / 8)
    near, far = 0.0, (25.6 - 8.5) / 2
    for k in range(count):
        near += slant + (8.5 if k % 2 else 25.6)
        far += slant + (25.6 if k % 2 else 8.5)
    assert cut.strip_length(count) == pytest.approx(max(near, far) + slant)
