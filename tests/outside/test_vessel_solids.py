"""Vessels as solids of revolution, and staves and segments as polygons, against printed examples.

The handbook is Machinery's Handbook, 31st edition (2020); the old mensuration is Google Books DPo2AAAAMAAJ,
pp. 185-187, which takes pi as 3.1416.
"""

import math

import pytest

from geometry.blanks.ring_stack import Ring
from geometry.blanks.staves import StaveBand
from geometry.bodies.section import Section
from geometry.plane.edges import bulge_about
from geometry.plane.profile import Profile, profile, revolved_volume


def on_sphere(radius: float, low: float, high: float) -> Profile:
    """The sphere about (0, 0) between two heights."""
    start, end = ((math.sqrt(radius**2 - z**2), z) for z in (low, high))
    return profile((*start, bulge_about((0.0, 0.0), start, end)), end)


def test_the_handbooks_spherical_segment() -> None:
    # P. 91: height 50 mm, base 125 mm across: 372 247 mm³ (372 246 unrounded). Here a bowl's hollow.
    radius = (62.5**2 + 50.0**2) / (2 * 50.0)
    hollow = on_sphere(radius, -radius, 50.0 - radius)
    assert hollow.end[0] == pytest.approx(62.5)
    assert revolved_volume(hollow) == pytest.approx(372_247, abs=1.5)


def test_the_handbooks_spherical_zone_either_way_up() -> None:
    # Pp. 91-92: ends 3 and 4 in across, 1.5 in high: 16.493 in³.
    rising = on_sphere(math.hypot(2.0, 1 / 6), -1 / 6, 1.5 - 1 / 6)
    assert rising.start[0] == pytest.approx(2.0)
    assert rising.end[0] == pytest.approx(1.5)
    assert revolved_volume(rising) == pytest.approx(16.493, abs=5e-4)
    turned_over = on_sphere(math.hypot(2.0, 1 / 6), 1 / 6 - 1.5, 1 / 6)
    assert revolved_volume(turned_over) == pytest.approx(16.493, abs=5e-4)


@pytest.mark.parametrize("height", [-2.0, 0.0, 1.3])
def test_a_sphere_cut_in_two_keeps_its_volume(height: float) -> None:
    # Pp. 91-92: 6.5 cm across: 143.79 cm³.
    below, above = on_sphere(3.25, -3.25, height), on_sphere(3.25, height, 3.25)
    assert revolved_volume(below) + revolved_volume(above) == pytest.approx(143.79, abs=5e-3)


def test_the_handbooks_hollow_sphere_is_a_wall_of_one_thickness() -> None:
    # Pp. 91-92: 8 in outside, shell 1.5 in thick: 202.63 in³. The inside is the outside's parallel.
    outside = on_sphere(4.0, -4.0, 4.0)
    inside = outside.beside(-1.5)
    assert inside.bottom == pytest.approx(-2.5)
    assert revolved_volume(outside) - revolved_volume(inside) == pytest.approx(202.63, abs=5e-3)


FRUSTA = [(9.0, 4.0, 2.0, 65.9736), (20.0, 32.0, 24.0, 12398.848)]


@pytest.mark.parametrize(("height", "large", "small", "volume"), FRUSTA)
def test_frusta_of_cones_rising_to_either_end(
    height: float, large: float, small: float, volume: float
) -> None:
    exact = volume * math.pi / 3.1416
    assert revolved_volume(profile((large / 2, 0.0), (small / 2, height))) == pytest.approx(exact, rel=1e-7)
    assert revolved_volume(profile((small / 2, 0.0), (large / 2, height))) == pytest.approx(exact, rel=1e-7)


def test_a_beaker_is_one_frustum_less_another() -> None:
    # The old mensuration's larger frustum, rim up, hollowed to a floor 2 from its foot with a wall that leaves
    # a frustum 18 high, 30 and 22 across: by its own rule, pi/12 h (D² + D d + d²).
    outer = profile((12.0, 0.0), (16.0, 20.0))
    section = Section(outer, profile((0.0, 2.0), (11.0, 2.0), (15.0, 20.0)))
    hollow = math.pi / 12 * 18.0 * (30.0**2 + 30.0 * 22.0 + 22.0**2)
    assert section.capacity == pytest.approx(hollow)
    assert section.volume == pytest.approx(12398.848 * math.pi / 3.1416 - hollow, rel=1e-6)


def test_staves_are_one_frustum_of_a_pyramid_less_another() -> None:
    # The old mensuration: a hexagon 12 high, sides 3 and 2: 197.453; an octagon 20 high, sides 10 and 6:
    # 6309.144 (both cut short). Staves so thick that no hollow is left at the narrow end are these, but for
    # the pyramid that remains inside at the wide one.
    for count, height, wide, narrow, volume in ((6, 12.0, 3.0, 2.0, 197.453), (8, 20.0, 10.0, 6.0, 6309.144)):
        large, small = (side / 2 / math.tan(math.pi / count) for side in (wide, narrow))
        lean = math.atan((large - small) / height)
        band = StaveBand(count, 0.0, height, lean, small, small * math.cos(lean))
        assert (band.outer_width(0.0), band.outer_width(height)) == pytest.approx((narrow, wide))
        inside = count * math.tan(math.pi / count) * band.inner_at(height) ** 2 * height / 3
        assert band.volume + inside == pytest.approx(volume, abs=1e-3)


# P. 82: length of a side by the inscribed radius, S/r.
SIDES = {8: 0.8284, 12: 0.5359, 16: 0.3978, 24: 0.2633, 64: 0.0983}


@pytest.mark.parametrize("count", SIDES)
def test_a_stave_is_as_wide_as_the_handbooks_side(count: int) -> None:
    # S = 2 r tan(180/n), at either end.
    band = StaveBand(count, 0.0, 100.0, math.radians(12), 80.0, 15.0)
    half_digit = 0.5001e-4
    for z in (0.0, 100.0):
        assert band.outer_width(z) / band.outer_at(z) == pytest.approx(SIDES[count], rel=0, abs=half_digit)


@pytest.mark.parametrize("count", SIDES)
def test_a_segments_edges_are_the_handbooks_sides(count: int) -> None:
    ring = Ring(number=1, bottom=0.0, height=19.0, segments=count, outer=100.0, core=60.0)
    assert ring.outer_edge == pytest.approx(100.0 * SIDES[count], rel=0, abs=100.0 * 0.5001e-4)
    assert ring.inner_edge == pytest.approx(60.0 * SIDES[count], rel=0, abs=60.0 * 0.5001e-4)
