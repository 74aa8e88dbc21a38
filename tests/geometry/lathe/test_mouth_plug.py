import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.affinity import translate

from geometry.bodies.section import Section
from geometry.lathe.mouth_plug import (
    LEAST_LEAN,
    MOST_LEAN,
    PLAY,
    bore,
    find_band,
    opening,
    taper_reach,
    taper_side,
)
from geometry.plane.profile import Profile, profile
from tests.geometry.shapes import shape
from tests.geometry.vessels import sections

LEAST = 5.0
SLIVER = 0.02  # mm2: chords of sampled arcs

tapers = st.floats(math.radians(0.5), math.radians(20.0))
linings = st.sampled_from((0.0, 1.0, 2.5))


def dense(chain: Profile, pitch: float = 0.25):
    steps = [(edge, math.ceil(edge.length / pitch)) for edge in chain.edges()]
    return np.array([edge.point_at(k / n) for edge, n in steps for k in range(n + 1)])


def radii(chain: Profile, heights):
    """The radius at each height, of a chain that only rises, by straight lines between dense points."""
    points = dense(chain, 0.05)
    return np.interp(heights, points[:, 1], points[:, 0])


def solid(side: Profile, top: float) -> shapely.Polygon:
    """A plug's half section: under a side from its tip up, straight on to `top`, and back along the axis."""
    points = dense(side)
    end = (points[-1, 0], top) if top > points[-1, 1] else points[-1]
    return shapely.Polygon(np.vstack(((0.0, points[0, 1]), points, end, (0.0, max(top, points[-1, 1])))))


def below_rim(section: Section) -> shapely.Polygon:
    return shape(section.contour)


def band_of(section: Section, lining: float, tall: float = 15.0):
    left = bore(section.inner, lining)
    low, high = left.start[1] + 1.0, section.height - 2.0
    return left, find_band(left, section.mouth_radius - lining, low, high, tall, LEAST)


@given(sections(), st.floats(5.0, 30.0))
def test_the_opening_is_the_steepest_line_of_sight_from_the_mouth(section, reach):
    reach = min(reach, section.height - section.inner.bottom - 1.0)
    depths = np.linspace(0.02, reach, 300)
    walls = radii(section.inner, section.height - depths)
    brute = np.arctan2(section.mouth_radius - walls, depths).max()
    assert opening(section.inner, reach) == pytest.approx(brute, abs=0.02)


@given(sections(), tapers, linings)
def test_a_taper_goes_in_as_far_as_the_inside_lets_it_and_keeps_room_for_the_lining(section, taper, lining):
    most = min(20.0, section.height - section.inner.bottom - 1.0)
    reach = taper_reach(section.inner, taper, most)
    assert 0.0 <= reach <= most
    assume(reach > 0.5)
    side = taper_side(section.inner.end, taper, lining, reach, 0.0)
    assume(side.start[0] > 1.0)
    wood, plug = below_rim(section), solid(side, section.height)
    assert wood.intersection(plug).area < SLIVER
    mouth = shapely.Point(section.inner.end)
    line = shapely.LineString(taper_side(section.inner.end, taper, lining, reach, 20.0).points)
    assert line.distance(mouth) == pytest.approx(lining, abs=1e-9)
    heights = np.linspace(side.start[1] + 0.01, section.height, 100)
    room = radii(section.inner, heights) - radii(side, heights)
    assert room.min() * math.cos(taper) >= lining - 2e-3  # square to the side


@given(sections(), tapers)
def test_a_taper_that_stops_short_would_cut_into_the_inside_a_little_deeper(section, taper):
    most = min(20.0, section.height - section.inner.bottom - 1.0)
    reach = taper_reach(section.inner, taper, most)
    assume(reach < most - 0.5)
    x, z = section.inner.end
    below = np.linspace(reach, reach + 0.2, 9)[1:]
    cone = x - below * math.tan(taper)
    assert (cone - radii(section.inner, z - below)).max() > 0.0


@given(sections(), linings)
def test_a_plug_for_a_band_comes_in_by_the_mouth_and_lies_on_the_band(section, lining):
    left, found = band_of(section, lining)
    assume(found.band is not None)
    low, high = found.band
    bearing = left.between(low, high)
    plug, wood = solid(bearing, section.height + 10.0), below_rim(section)
    for out in (0.0, *np.linspace(0.3, section.height, 12)):
        assert wood.intersection(translate(plug, 0.0, out)).area < SLIVER
    gaps = shapely.distance(shapely.points(dense(bearing)), shapely.LineString(dense(section.inner, 0.05)))
    assert gaps == pytest.approx(lining, abs=0.005)
    # A little farther in it would be in what the lining leaves, all along the band: that is what holds it.
    x, z = dense(bearing)[dense(bearing)[:, 1] > low + 0.5].T
    assert (radii(left, z - 0.5) < x).all()


@given(sections(), st.floats(5.0, 25.0))
def test_a_band_leans_as_it_must_and_is_no_taller_than_asked(section, tall):
    left, found = band_of(section, 0.0, tall)
    assume(found.band is not None)
    low, high = found.band
    assert high - low <= tall + 1e-9
    assert left.between(low, high).length > min(LEAST, tall) - 0.2
    leans = [left.lean_at(z) for z in np.linspace(low + 1e-6, high - 1e-6, 12)]
    assert min(leans) >= LEAST_LEAN - 1e-6
    assert max(leans) <= MOST_LEAN + 1e-6


def lets_in(up):
    """Whether a plug as wide as the first place passes those above it: with play, where they narrow again."""
    falls = np.flatnonzero(np.diff(up) < 0)
    beyond = up[falls[0] + 1 :].min() - PLAY if len(falls) else up.min()
    return bool(up[0] <= min(up.min(), beyond) + 1e-9)


@given(sections())
def test_no_higher_band_is_left_out(section):
    left, found = band_of(section, 0.0)
    heights = np.arange(left.bottom + 1.0, section.height - 2.0, 0.25)
    walls = radii(left, heights)
    leans = np.arctan2(radii(left, heights + 0.02) - radii(left, heights - 0.02), 0.04)
    enters = [lets_in(np.append(walls[k:], section.mouth_radius)) for k in range(len(walls))]
    good = (leans > LEAST_LEAN + 0.01) & (leans < MOST_LEAN - 0.01) & enters
    run, best = 0, None
    for z, fits in zip(heights, good, strict=True):
        run = run + 1 if fits else 0
        if run * 0.25 > LEAST + 1.0:  # so high that it is long enough along the surface too
            best = z
    if best is not None:
        assert found.band is not None
        assert found.band[1] >= best - 0.1


def pot(mouth: float) -> Section:
    """A cone from radius 20 to 50, drawn in to a mouth above it."""
    inner = profile((0, 10), (20, 10), (50, 60), (mouth, 90))
    outer = profile((40, 0), (60, 60), (mouth + 8, 90))
    return Section(outer, inner)


def test_a_plug_that_passes_a_mouth_narrower_than_the_belly_has_play_in_it():
    """Turned a little large and chalked, one as wide as the mouth would not go in, or would jam it open."""
    left, found = band_of(pot(35.0), 0.0)
    assert left.radius_at(found.band[1]) == pytest.approx(35.0 - PLAY, abs=0.1)
    assert left.radius_at(found.band[1]) <= 35.0 - PLAY + 1e-9
    cone, whole = band_of(Section(profile((40, 0), (60, 90)), profile((0, 10), (20, 10), (50, 90))), 0.0)
    assert cone.radius_at(whole.band[1]) > 49.0  # it narrows all the way down, so nothing is in the way


def test_a_mouth_narrower_than_every_band_says_how_wide_it_would_have_to_be():
    _, found = band_of(pot(18.0), 0.0)
    assert found.band is None
    assert found.throat == pytest.approx(18.0)
    assert found.longest > 50.0
    _, through = band_of(pot(found.wanted), 0.0)
    assert through.band is not None
    _, narrower = band_of(pot(found.wanted - 0.3), 0.0)
    assert narrower.band is None


def test_a_straight_inside_has_no_band():
    straight = Section(profile((40, 0), (40, 80)), profile((0, 8), (34, 8), (34, 80)))
    _, found = band_of(straight, 0.0)
    assert found.band is None
    assert found.longest == 0.0
    assert math.isinf(found.wanted)


def test_a_cylinder_takes_any_taper_all_the_way():
    inner = profile((0, 8), (34, 8), (34, 80))
    assert taper_reach(inner, math.radians(0.5), 60.0) == 60.0
    assert opening(inner, 60.0) == pytest.approx(0.0, abs=1e-9)


def test_a_cone_as_steep_as_the_taper_still_goes_in_and_a_flatter_one_does_not():
    lean = math.radians(3.0)
    inner = profile((0, 8), (40 - 72 * math.tan(lean), 8), (40, 80))
    assert taper_reach(inner, lean, 50.0) == 50.0
    assert taper_reach(inner, lean - 1e-4, 50.0) < 0.2
