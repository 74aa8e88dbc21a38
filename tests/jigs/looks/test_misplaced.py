"""A ring put in wrongly, and joints that stay open, as the surface shows them."""

import math

import numpy as np
import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import shaped
from jigs.looks.form import form_of
from jigs.looks.misplaced import wrong_ring
from jigs.looks.mistakes import Mistakes
from jigs.looks.spots import at_points, on_grid
from jigs.looks.surface import surface_of
from jigs.page.fast import read
from tests.conftest import CONFIGS

LINE = 1e-6  # mm of a joint: none shows


@pytest.fixture(scope="module", params=["garland", "trellis"])
def torus(request):
    return shaped(load(CONFIGS / f"{request.param}.toml"))


def spots(shape, points):
    """Of points of a torus's surface, (n, 3)."""
    out = np.hypot(points[:, 0], points[:, 1]) - shape.job.form.major_radius
    reach = np.hypot(out, points[:, 2])
    level = points[:, :2] / np.hypot(points[:, 0], points[:, 1])[:, None] * (out / reach)[:, None]
    return at_points(points, np.column_stack((level, points[:, 2] / reach)))


def of_ring(shape, number):
    """Random points of its surface, and the angle of its middle."""
    rng, w, form = np.random.default_rng(3), shape.blank.half_wedge, shape.job.form
    middle = 2 * w * number
    phi = middle + rng.uniform(-0.9 * w, 0.9 * w, 400)
    theta = rng.uniform(-math.pi, math.pi, 400)
    radius = form.major_radius + form.tube_radius * np.cos(theta)
    return np.column_stack(
        (radius * np.cos(phi), radius * np.sin(phi), form.tube_radius * np.sin(theta))
    ), middle


def darkened(shape, mistakes, grid):
    """Where mistakes leave far less light of a surface."""
    plain, wrong = (
        surface_of(shape, mistakes=one).grid_colours(grid, LINE).max(axis=2) for one in (None, mistakes)
    )
    return wrong < 0.3 * plain


def test_a_ring_upside_down_shows_what_half_a_turn_about_its_radial_line_brings_there(torus):
    points, middle = of_ring(torus, wrong_ring(torus.blank.wedge_rings))
    axis = np.array([math.cos(middle), math.sin(middle), 0.0])
    turned = 2 * np.outer(points @ axis, axis) - points
    plain = surface_of(torus).colours(spots(torus, turned), LINE)
    wrong = surface_of(torus, mistakes=Mistakes(upside_down=True)).colours(spots(torus, points), LINE)
    assert np.mean(np.abs(plain - wrong).max(axis=1) < 10) > 0.98  # plies are farther apart
    other, _ = of_ring(torus, 1)
    same = surface_of(torus, mistakes=Mistakes(upside_down=True)).colours(spots(torus, other), LINE)
    assert np.array_equal(same, surface_of(torus).colours(spots(torus, other), LINE))


def test_a_grid_shows_a_wrong_ring_as_its_points_do(torus):
    mistakes = Mistakes(segments_on=2, upside_down=True, wedge=math.radians(0.2), mitre=math.radians(0.3))
    surface, line = surface_of(torus, mistakes=mistakes), form_of(torus).meridian
    grid = on_grid(line.at(np.linspace(1.0, line.length - 1, 40)), np.linspace(-3.1, 3.1, 60))
    points = surface.colours(spots(torus, grid.points.reshape(-1, 3)), LINE).reshape(40, 60, 3)
    same = np.abs(points - surface.grid_colours(grid, LINE)).max(axis=2) < 3
    assert same.mean() > 0.98


def test_strips_of_a_wrong_ring_stay_as_they_are():
    file = CONFIGS / "garland.toml"
    strips = '[form]\nspacer = 3\nspacer_species = "walnut"\nring_spacer = 3\n'
    shape = shaped(read(file.read_text("utf-8").replace("[form]\n", strips), file).job)
    surface = surface_of(shape, mistakes=Mistakes(segments_on=1, upside_down=True, mitre=0.001, wedge=0.001))
    line = form_of(shape).meridian
    grid = on_grid(line.at(np.linspace(0, line.length, 300)), np.linspace(-math.pi, math.pi, 900))
    places = surface.grid_places(grid)
    put = surface.put(places)
    ring, segment, moved = np.broadcast_arrays(places.ring, places.segment, put.segment)
    own = (segment >= 0) & (segment < shape.blank.segments)
    assert 0.05 < 1 - own.mean() < 0.5
    assert np.array_equal(segment[~own], moved[~own])
    here = own & (ring == wrong_ring(shape.blank.wedge_rings))
    assert set(moved[here]) == set(range(shape.blank.segments))
    assert not np.array_equal(segment[here], moved[here])
    dark = darkened(shape, Mistakes(mitre=math.radians(1.0)), grid)
    assert 0.4 < dark.mean() / (2 * math.radians(1.0) * shape.blank.segments / (2 * math.pi)) < 1.1


@pytest.mark.parametrize("by", [1, 3])
def test_a_turned_ring_has_the_wood_of_another_segment(by):
    shape = shaped(load(CONFIGS / "garland.toml"))
    surface, turned = surface_of(shape), surface_of(shape, mistakes=Mistakes(segments_on=by))
    points, _ = of_ring(shape, wrong_ring(shape.blank.wedge_rings))
    before = surface.places(spots(shape, points))
    after = turned.put(before)
    assert np.array_equal((after.segment + by) % shape.blank.segments, before.segment)
    assert np.array_equal(after.u, before.u)


def test_the_last_joint_of_a_torus_is_open_by_what_all_rings_lack():
    torus, error = shaped(load(CONFIGS / "garland.toml")), math.radians(0.5)
    line = form_of(torus).meridian
    phi = np.linspace(-math.pi, math.pi, 20_000, endpoint=False)
    grid = on_grid(line.at(np.array([0.1, 0.6]) * line.length), phi)
    dark = darkened(torus, Mistakes(wedge=error), grid)
    assert dark.mean(axis=1) == pytest.approx(torus.blank.wedge_rings * error / (2 * math.pi), rel=0.01)


def test_the_last_joint_of_each_ring_is_open_by_what_all_its_ends_lack():
    error, shape = math.radians(0.5), shaped(load(CONFIGS / "sorrel.toml"))
    ring = shape.stack.layers[4].ring
    line = form_of(shape).meridian
    rows = line.at(np.linspace(0, line.length, 400))
    here = (rows.points[:, 1] > ring.bottom + 1) & (rows.points[:, 1] < ring.top - 1)
    grid = on_grid(line.at(np.linspace(0, line.length, 400)[here]), np.linspace(-math.pi, math.pi, 4000))
    dark = darkened(shape, Mistakes(mitre=error), grid)
    assert dark.mean() == pytest.approx(2 * ring.segments * error / (2 * math.pi), rel=0.02)
