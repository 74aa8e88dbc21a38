"""Solids of revolution and frusta against printed examples: our sections turned about the y axis."""

import math

import pytest
import trimesh

from geometry.bodies.torus import Blank, torus_surface, torus_volume
from geometry.bodies.tube import tube_of
from geometry.plane.contour import Contour, circle, outline, polygon, rectangle, regular_polygon
from geometry.plane.edges import bulge_about


def turned(section: Contour) -> float:
    """Volume swept by a section about x = 0: Pappus' second centroid theorem."""
    return 2 * math.pi * section.centroid[0] * section.area


def test_the_textbooks_torus() -> None:
    # Larson and Edwards, Calculus, section 7.6, example 7, p. 501: R = 2, r = 1: 4 pi² or about 39.5.
    assert torus_volume(2.0, tube_of(1.0)) == pytest.approx(4 * math.pi**2)
    assert turned(circle((2.0, 0.0), 1.0)) == pytest.approx(39.478, abs=5e-4)


def test_a_torus_surface_is_its_volumes_growth() -> None:
    step = 1e-4
    growth = (torus_volume(60.0, tube_of(15.0 + step)) - torus_volume(60.0, tube_of(15.0 - step))) / (
        2 * step
    )
    assert torus_surface(60.0, tube_of(15.0)) == pytest.approx(growth, rel=1e-9)


def test_the_handbooks_spherical_segment() -> None:
    # Machinery's Handbook, 31st edition, p. 91: height 50 mm, base 125 mm across: radius 64 mm, 372 247 mm³
    # (372 246 unrounded).
    radius = (62.5**2 + 50.0**2) / (2 * 50.0)
    arc = bulge_about((0.0, 50.0 - radius), (62.5, 0.0), (0.0, 50.0))
    section = outline((0.0, 0.0), (62.5, 0.0, arc), (0.0, 50.0))
    assert section.edges()[1].radius == pytest.approx(64.0, abs=0.1)
    assert turned(section) == pytest.approx(372_247, abs=1.5)


def test_the_handbooks_spherical_zone() -> None:
    # Machinery's Handbook, 31st edition, pp. 91-92: ends 3 and 4 in across, 1.5 in high: 16.493 in³.
    arc = bulge_about((0.0, 1 / 6), (2.0, 0.0), (1.5, 1.5))
    section = outline((0.0, 0.0), (2.0, 0.0, arc), (1.5, 1.5), (0.0, 1.5))
    assert turned(section) == pytest.approx(16.493, abs=5e-4)


def test_the_handbooks_sphere() -> None:
    # Machinery's Handbook, 31st edition, pp. 91-92: 6.5 cm across: 143.79 cm³.
    assert turned(outline((0.0, -3.25, 1.0), (0.0, 3.25))) == pytest.approx(143.79, abs=5e-3)


def test_the_handbooks_hollow_sphere() -> None:
    # Machinery's Handbook, 31st edition, pp. 91-92: 8 in outside, shell 1.5 in thick: 202.63 in³ (by a
    # rounded factor; 202.632 unrounded).
    section = outline((0.0, -4.0, 1.0), (0.0, 4.0), (0.0, 2.5, -1.0), (0.0, -2.5))
    assert turned(section) == pytest.approx(202.63, abs=5e-3)


@pytest.mark.parametrize(
    # An old mensuration (Google Books DPo2AAAAMAAJ), pp. 185-187, which takes pi as 3.1416.
    ("height", "large", "small", "volume"),
    [(9.0, 4.0, 2.0, 65.9736), (20.0, 32.0, 24.0, 12398.848)],
)
def test_frusta_of_cones(height: float, large: float, small: float, volume: float) -> None:
    section = polygon([(0.0, 0.0), (large / 2, 0.0), (small / 2, height), (0.0, height)])
    assert turned(section) == pytest.approx(volume * math.pi / 3.1416, rel=1e-7)


def frustum(height: float, base: Contour, top: Contour) -> float:
    return height / 3 * (base.area + top.area + math.sqrt(base.area * top.area))


def by_side(n: int, side: float) -> Contour:
    return regular_polygon(n, side / 2 / math.tan(math.pi / n))


def test_frusta_of_pyramids() -> None:
    # Machinery's Handbook, 31st edition, p. 89: ends 1 by 1.5 and 2 by 3 ft, 4.5 ft high: 15.75 ft³.
    assert frustum(4.5, rectangle(0, 0, 2, 3), rectangle(0, 0, 1, 1.5)) == pytest.approx(15.75)
    # The old mensuration (Google Books DPo2AAAAMAAJ), pp. 185-187: a hexagon 12 high, sides 3 and 2:
    # 197.453; an octagon 20 high, sides 10 and 6: 6309.144 (both cut short, not rounded).
    assert frustum(12.0, by_side(6, 3.0), by_side(6, 2.0)) == pytest.approx(197.453, abs=1e-3)
    assert frustum(20.0, by_side(8, 10.0), by_side(8, 6.0)) == pytest.approx(6309.144, abs=1e-3)


def test_a_faceted_torus_is_the_mesh_librarys() -> None:
    # Recomputed here, not from print: 64 by 32 facets, R 60, r 15, as trimesh.creation.torus builds it.
    section = regular_polygon(32, 15.0 * math.cos(math.pi / 32), centre=(60.0, 0.0))
    ours = 64 * math.sin(2 * math.pi / 64) * section.moments.x
    assert ours == pytest.approx(264345.2302, abs=1e-3)
    assert trimesh.creation.torus(60.0, 15.0, 64, 32).volume == pytest.approx(ours, rel=1e-9)
    assert ours / torus_volume(60.0, tube_of(15.0)) == pytest.approx(0.99199, abs=1e-5)


def test_the_blank_is_the_mesh_librarys_faceted_torus_but_for_its_joints() -> None:
    # The library's sections are regular at the joints, a wedge ring's at its middle: 1/cos² w more.
    blank = Blank(64, 32, 15.0 * math.cos(math.pi / 32), 0.0, 60.0)
    facets = trimesh.creation.torus(60.0, 15.0, 64, 32).volume
    assert blank.volume == pytest.approx(facets / math.cos(math.pi / 64) ** 2, rel=1e-9)
