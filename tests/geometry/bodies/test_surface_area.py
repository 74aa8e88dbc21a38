"""Surfaces of vessels and the shares of segments, against dense sampling and closed forms."""

from math import cos, pi, sin, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.blanks.glue_width import contact_area
from geometry.blanks.ring_stack import Ring
from geometry.bodies.section import Section
from geometry.bodies.segment_volumes import blank_shares, torus_shares
from geometry.bodies.surface_area import revolved_area, vessel_surface
from geometry.bodies.torus import Blank, flat_normals, torus_volume
from geometry.bodies.tube import tube_of
from geometry.plane.profile import Profile, profile
from tests.geometry.vessels import outsides, sections


def sampled_area(chain: Profile, places: int = 60) -> float:
    """Of cones between places close together on each edge."""
    total = 0.0
    for edge in chain.edges():
        points = np.array([edge.point_at(t) for t in np.linspace(0.0, 1.0, places + 1)])
        steps = np.hypot(*np.diff(points, axis=0).T)
        total += float((pi * (points[1:, 0] + points[:-1, 0]) * steps).sum())
    return total


def test_a_cylinder_a_cone_and_a_hemisphere_have_the_areas_of_the_textbook():
    assert revolved_area(profile((30.0, 0.0), (30.0, 50.0))) == pytest.approx(2 * pi * 30 * 50)
    assert revolved_area(profile((0.0, 0.0), (30.0, 40.0))) == pytest.approx(pi * 30 * 50)
    assert revolved_area(profile((25.0, 0.0, tan(pi / 8)), (0.0, 25.0))) == pytest.approx(2 * pi * 25**2)


@given(outsides())
@settings(max_examples=8)
def test_the_area_is_that_of_many_narrow_cones(outer: Profile):
    assert revolved_area(outer) == pytest.approx(sampled_area(outer), rel=3e-5)


@pytest.mark.parametrize("bulge", [1e-9, 1e-6, 1e-4, 1e-3])
def test_an_almost_straight_arc_has_almost_the_area_of_its_chord(bulge: float):
    straight = revolved_area(profile((40.0, 0.0), (60.0, 80.0)))
    bent = revolved_area(profile((40.0, 0.0, bulge), (60.0, 80.0)))
    # The arc stands out by bulge · chord / 2 in the middle, 2/3 of that in the mean, square to the chord.
    out = bulge * np.hypot(20, 80) / 2 * 2 / 3 * 80 / np.hypot(20, 80)
    assert bent - straight == pytest.approx(2 * pi * np.hypot(20, 80) * out, abs=0.03 * bulge * 1e3, rel=1e-2)


@given(sections())
@settings(max_examples=8)
def test_the_whole_surface_is_that_which_the_closed_section_draws(section: Section):
    outline = section.contour.vertices
    closed = Profile(np.vstack((outline, (*outline[0, :2], 0.0))))  # the axis draws nothing
    found = vessel_surface(section)
    assert found.outside + found.inside + found.rim + found.foot == pytest.approx(
        revolved_area(closed), rel=1e-9
    )
    assert min(found.outside, found.inside, found.rim, found.foot) >= 0.0


RINGS = st.builds(
    Blank,
    st.integers(3, 12).map(lambda k: 2 * k),
    st.integers(3, 8).map(lambda k: 2 * k),
    st.just(34.0),
    st.floats(3.0, 8.0),
    st.floats(98.0, 102.0),
)


@given(RINGS)
def test_segments_sum_to_the_blank_and_to_the_torus_less_its_core(blank: Blank):
    n = blank.wedge_rings
    assert n * blank_shares(blank).sum() == pytest.approx(blank.volume, rel=1e-9)
    wood = torus_volume(100.0, tube_of(20.0)) - blank.core_volume
    assert n * torus_shares(100.0, tube_of(20.0), blank).sum() == pytest.approx(wood, rel=1e-9)


@pytest.mark.parametrize("tall", [22.0, 17.0])
def test_each_segment_has_the_wood_that_points_of_a_grid_find_in_it(tall):
    blank = Blank(8, 6, 30.0, 6.0, 81.0)
    major, tube, w = 82.0, 22.0, pi / 8
    step = 1.0
    x, y, z = (
        axis.ravel()
        for axis in np.meshgrid(
            *(np.arange(a + step / 2, b, step) for a, b in ((40, 120), (-50, 50), (-32, 32)))
        )
    )
    within = np.abs(y) <= x * tan(w)
    across = np.column_stack((x - blank.centre, z)) @ np.array([(cos(a), sin(a)) for a in flat_normals(6)]).T
    whose, out = across.argmax(axis=1), across.max(axis=1)
    glued = within & (out <= blank.apothem) & (out >= blank.core_apothem)
    stretched = z * (tube / tall)  # an ellipse is a circle then
    turned = within & (out >= blank.core_apothem) & (np.hypot(np.hypot(x, y) - major, stretched) <= tube)
    after = torus_shares(major, tube_of(tube, tall), blank)
    for found, points in ((blank_shares(blank), glued), (after, turned)):
        counted = np.bincount(whose[points], minlength=6)
        assert counted * step**3 == pytest.approx(found, rel=5e-3)


def in_ring(ring: Ring, turned: float, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Which points have wood over or under them."""
    if not ring.segments:
        return np.hypot(x, y) <= ring.outer
    normals = turned + 2 * pi / ring.segments * np.arange(ring.segments)
    out = np.max([x * cos(a) + y * sin(a) for a in normals], axis=0)
    return np.asarray((out <= ring.outer) & (out >= ring.core))


@pytest.mark.parametrize(
    ("lower", "upper", "turned"),
    [
        (Ring(1, 0, 10, 12, 60, 40), Ring(2, 10, 10, 12, 60, 40), pi / 12),
        (Ring(1, 0, 10, 6, 60, 40), Ring(2, 10, 10, 6, 55, 44), 0.0),
        (Ring(1, 0, 10, 8, 60, 40), Ring(2, 10, 10, 12, 62, 38), 0.3),
        (Ring(1, 0, 10, 0, 58, 0), Ring(2, 10, 10, 12, 60, 30), pi / 12),
    ],
)
def test_rings_lie_on_each_other_where_a_fine_grid_finds_wood_of_both(
    lower: Ring, upper: Ring, turned: float
):
    step = 0.25
    x, y = np.meshgrid(*(np.arange(-80 + step / 2, 80, step),) * 2)
    both = in_ring(lower, 0.0, x, y) & in_ring(upper, turned, x, y)
    assert contact_area(lower, upper, turned) == pytest.approx(both.sum() * step**2, rel=2e-3)
    if turned == 0.0:
        assert contact_area(lower, upper, turned) == pytest.approx(
            6 * tan(pi / 6) * (55**2 - 44**2), rel=1e-4
        )
