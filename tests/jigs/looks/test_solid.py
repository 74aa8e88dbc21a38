"""Rays against turned forms: held against dense marching and closed formulas."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.meridian import DEVIATION
from geometry.bodies.tube import tube_of
from jigs.looks.solid import Rays, hits, torus_solid
from jigs.looks.views import MARGIN, drawn
from tests.jigs.looks.looking import FORMS, VASE, camera, form, planned

NEAR = 2 * DEVIATION  # mm


def rays_from_above(seed, count, reach, height):
    """Steeper than 20 degrees, from all round, towards places about the form."""
    rng = np.random.default_rng(seed)
    targets = rng.uniform((-reach, -reach, 0), (reach, reach, height), (count, 3))
    around, lean = rng.uniform(0, 2 * np.pi, count), rng.uniform(np.radians(20), np.pi / 2, count)
    back = np.column_stack((np.cos(lean) * np.cos(around), np.cos(lean) * np.sin(around), np.sin(lean)))
    return Rays(targets + 1000 * back, -back)


@given(st.floats(20, 200), st.floats(0.1, 0.95), st.integers(0, 10**6))
def test_rays_meet_a_torus_where_marching_first_finds_wood(major, share, seed):
    tube = major * share
    rays = rays_from_above(seed, 40, major + tube, tube)
    found = hits(torus_solid(major, tube_of(tube)), rays)

    def depth(t):
        x, y, z = np.moveaxis(rays.at(np.zeros(40))[:, None] + t[..., None] * rays.directions[:, None], -1, 0)
        return np.hypot(np.hypot(x, y) - major, z) - tube

    t = np.linspace(0, 2000, 8001)[None]
    inside = depth(np.broadcast_to(t, (40, t.size))) < -NEAR
    first = np.where(inside.any(axis=1), t[0, inside.argmax(axis=1)], np.inf)
    own = np.full(40, np.inf)
    own[found.rays] = np.linalg.norm(found.points - rays.origins[found.rays], axis=1)
    met = np.isfinite(first)
    assert np.isfinite(own)[met].all()
    assert (own <= first + NEAR).all()
    at = hits(torus_solid(major, tube_of(tube)), rays).points
    assert np.abs(np.hypot(np.hypot(at[:, 0], at[:, 1]) - major, at[:, 2]) - tube).max(initial=0) < NEAR


@pytest.mark.parametrize("name", FORMS)
def test_what_is_met_is_on_the_surface_and_its_normal_faces_the_eye(name):
    solid, meridian = form(name).solid, form(name).meridian
    height = solid.z[-1] - solid.z[0]
    rays = rays_from_above(3, 3000, solid.radii.max(), height)
    found = hits(solid, rays)
    assert len(found.rays) > 500
    line = meridian.at(np.linspace(0, meridian.length, 6000)).points
    own = np.column_stack((np.hypot(found.points[:, 0], found.points[:, 1]), found.points[:, 2]))
    nearest = np.array([np.hypot(*(line - place).T).min() for place in own[:400]])
    assert nearest.max() < meridian.length / 6000 + NEAR
    assert np.allclose(np.linalg.norm(found.normals, axis=1), 1)
    facing = -(found.normals * rays.directions[found.rays]).sum(axis=1)
    assert facing.min() > -0.05  # chords turn by less than that from the curve


def test_a_ray_through_the_mouth_meets_the_floor():
    section = planned(VASE).section
    found = hits(form(VASE).solid, Rays(np.array([[3.0, 2.0, 900.0]]), np.array([[0.0, 0.0, -1.0]])))
    assert found.points[0] == pytest.approx((3, 2, section.inner.bottom), abs=1e-3)
    assert found.normals[0] == pytest.approx((0, 0, 1))


def test_a_ray_down_on_the_rim_meets_the_rim():
    section = planned(VASE).section
    middle = (section.rim_radius + section.mouth_radius) / 2
    found = hits(form(VASE).solid, Rays(np.array([[middle, 0.0, 900.0]]), np.array([[0.0, 0.0, -1.0]])))
    assert found.points[0] == pytest.approx((middle, 0, section.height))


def test_rays_beside_and_through_the_hole_meet_nothing():
    solid, radius = form("garland").solid, planned("garland").job.form.outer_diameter / 2
    places = np.array([[0, 0, 500.0], [radius + 0.1, 0, 500]])
    assert len(hits(solid, Rays(places, np.array([[0, 0, -1.0]] * 2))).rays) == 0


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("view", ["front", "edge"])
def test_the_silhouette_is_to_scale_within_a_pixel(name, view):
    solid, own = form(name).solid, camera(name, view)
    (black,) = drawn(solid, own, [lambda points, normals: 0 * points])
    covered, scale = 1 - black[..., 0] / 255, own.scale
    across, tall = 2 * solid.radii.max() * scale, (solid.z[-1] - solid.z[0]) * scale
    from_the_side = (view == "edge") == (planned(name).kind == "torus")
    assert covered.max(axis=0).sum() == pytest.approx(across, abs=1)
    high = tall if from_the_side else across
    assert covered.max(axis=1).sum() == pytest.approx(high, abs=1)


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("view", ["perspective", "front", "edge"])
def test_a_camera_has_the_whole_form_in_its_picture_with_a_margin_all_round(name, view):
    own = camera(name, view)
    (black,) = drawn(form(name).solid, own, [lambda points, normals: 0 * points])
    covered = black[..., 0] < 128
    columns, rows = np.flatnonzero(covered.any(axis=0)), np.flatnonzero(covered.any(axis=1))
    left, top = columns[0], rows[0]
    right, bottom = own.width - 1 - columns[-1], own.height - 1 - rows[-1]
    margin = MARGIN * 240 / (1 + 2 * MARGIN)
    assert (left, top, right, bottom) == pytest.approx([margin] * 4, abs=1.5)


@pytest.mark.parametrize("name", FORMS)
def test_a_perspective_has_one_eye_and_the_other_views_none(name):
    x, y = np.array([3.5, 100.25, 60.0]), np.array([50.0, 7.75, 90.0])
    near = camera(name, "perspective").rays(x, y)
    assert np.ptp(near.origins, axis=0) == pytest.approx(0)
    for view in ("front", "edge"):
        own = camera(name, view)
        far = own.rays(x, y)
        assert np.ptp(far.directions, axis=0) == pytest.approx(0)
        apart = np.linalg.norm(far.origins[1:] - far.origins[0], axis=1) * own.scale
        assert apart == pytest.approx(np.hypot(x[1:] - x[0], y[1:] - y[0]))
