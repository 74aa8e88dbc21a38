"""Finished surfaces: on the form, evenly spaced, their normals out of the wood."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.meridian import Meridian, Outline, torus_meridian, turned_surface, vessel_meridian
from geometry.bodies.section import Section
from geometry.bodies.tube import tube_of
from geometry.plane.profile import profile
from tests.geometry.vessels import sections


def spread(meridian: Meridian, count: int) -> Outline:
    """Places equally far apart along it."""
    return meridian.at(np.linspace(0.0, meridian.length * (1 - 1e-12), count))


@given(st.floats(20.0, 200.0), st.floats(1.0, 19.0))
def test_a_torus_lies_its_tubes_radius_from_its_circle_and_faces_away_from_it(
    major: float, tube: float
) -> None:
    found = spread(torus_meridian(major, tube_of(tube)), 40)
    assert found.points - tube * found.normals == pytest.approx(
        np.broadcast_to((major, 0.0), (40, 2)), abs=1e-9 * major
    )
    assert np.hypot(*found.normals.T) == pytest.approx(1.0)
    assert torus_meridian(major, tube_of(tube)).length == pytest.approx(2 * math.pi * tube)
    assert torus_meridian(major, tube_of(tube)).largest_radius == pytest.approx(major + tube, abs=0.02)


@given(sections())
def test_an_outlines_normals_leave_the_wood(section: Section) -> None:
    found = spread(vessel_meridian(section), 300)
    inner = slice(1, -1)  # the ends lie where the section's other sides begin
    points, normals = found.points[inner], found.normals[inner]
    assert np.hypot(*found.normals.T) == pytest.approx(1.0)
    off_axis = points[:, 0] > 0.01
    outward = section.contour.contains(points + 1e-3 * normals)
    inward = section.contour.contains(points - 1e-3 * normals)
    # Within a thousandth of a corner a step can leave by the other side.
    assert outward[off_axis].mean() < 0.03
    assert inward[off_axis].mean() > 0.97


@given(sections())
def test_an_outlines_points_are_equally_far_apart_along_it(section: Section) -> None:
    found = spread(Meridian(section.outer), 60)
    fine = spread(Meridian(section.outer), 59 * 200 + 1)
    steps = np.hypot(*np.diff(fine.points, axis=0).T).reshape(59, 200).sum(axis=1)
    assert steps == pytest.approx(section.outer.length / 59, rel=2e-2)
    assert found.points == pytest.approx(fine.points[::200], abs=1e-9)
    assert found.along == pytest.approx(section.outer.length / 59 * np.arange(60))
    assert tuple(found.points[0]) == pytest.approx(section.outer.start)
    assert tuple(found.points[-1]) == pytest.approx(section.outer.end)


def test_a_quarter_circle_is_met_exactly() -> None:
    quarter = profile((0.0, -10.0, math.tan(math.pi / 8)), (10.0, 0.0))
    found = spread(Meridian(quarter), 7)
    angles = np.linspace(-math.pi / 2, 0, 7)
    assert found.points == pytest.approx(10 * np.column_stack((np.cos(angles), np.sin(angles))), abs=1e-9)
    assert found.normals == pytest.approx(found.points / 10, abs=1e-9)


@given(sections())
def test_the_whole_outline_turned_holds_the_vessels_wood(section: Section) -> None:
    """By the flow of the place vector through the surface, which is three times the volume."""
    found = spread(vessel_meridian(section), 12_000)
    points, normals = turned_surface(found, np.array((0.3,)))
    flow = (points * normals).sum(axis=-1)[:, 0] * 2 * math.pi * found.points[:, 0]
    assert np.trapezoid(flow, found.along) / 3 == pytest.approx(section.volume, rel=0.02)


@given(sections())
def test_a_turned_surface_has_its_outline_at_every_angle(section: Section) -> None:
    found, phi = spread(Meridian(section.outer), 20), np.linspace(-3, 3, 15)
    points, normals = turned_surface(found, phi)
    assert points.shape == normals.shape == (20, 15, 3)
    for surface, rows in ((points, found.points), (normals, found.normals)):
        level = surface[..., 0] * np.cos(phi) + surface[..., 1] * np.sin(phi)
        assert level == pytest.approx(np.broadcast_to(rows[:, :1], (20, 15)), abs=1e-9)
        assert surface[..., 2] == pytest.approx(np.broadcast_to(rows[:, 1:], (20, 15)), abs=1e-9)
        assert surface[..., 1] * np.cos(phi) - surface[..., 0] * np.sin(phi) == pytest.approx(0, abs=1e-9)
