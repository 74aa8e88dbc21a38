"""Bulges as the DXF format defines them."""

import math

import pytest

from geometry.plane.contour import outline
from geometry.plane.edges import bulge_about, bulge_from_angle

# Autodesk DXF reference, LWPOLYLINE, group code 42, and the GetBulge page: the bulge is the tangent of a
# quarter of the arc's included angle, negative if it goes clockwise from start to end; 0 is a straight
# edge, 1 a semicircle. From (0, 0) to (10, 10), .41421356 is a quarter circle of radius 10.
QUARTER = 0.41421356


@pytest.mark.parametrize("degrees", [-270.0, -90.0, 11.25, 45.0, 90.0, 180.0, 300.0])
def test_a_bulge_is_the_tangent_of_a_quarter_of_the_angle(degrees: float) -> None:
    assert bulge_from_angle(math.radians(degrees)) == pytest.approx(math.tan(math.radians(degrees / 4)))


def test_a_semicircle_has_a_bulge_of_one() -> None:
    assert bulge_from_angle(math.pi) == pytest.approx(1.0)
    half_disc = outline((0.0, 0.0, 1.0), (0.0, 2.0))
    assert half_disc.area == pytest.approx(math.pi / 2)
    assert half_disc.bounds == pytest.approx((0.0, 0.0, 1.0, 2.0))


def test_the_references_quarter_circle() -> None:
    edge = outline((0.0, 0.0, QUARTER), (10.0, 10.0)).edges()[0]
    assert edge.radius == pytest.approx(10.0, abs=1e-6)
    assert edge.centre == pytest.approx((0.0, 10.0), abs=1e-6)
    assert math.degrees(edge.angle) == pytest.approx(90.0, abs=1e-5)
    assert bulge_about((0.0, 10.0), (0.0, 0.0), (10.0, 10.0)) == pytest.approx(QUARTER, abs=5e-9)


def test_a_negative_bulge_goes_clockwise() -> None:
    edge = outline((0.0, 0.0, -QUARTER), (10.0, 10.0)).edges()[0]
    assert edge.centre == pytest.approx((10.0, 0.0), abs=1e-6)
