"""The way of the fibres in layups, held against the pattern itself: plies do not change along their fibres."""

from math import radians

import numpy as np
import pytest

from geometry.blanks.pattern import Pattern, ply_at
from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.places import torus_places, vessel_places
from jigs.looks.spots import Spots, at_points
from jigs.looks.surface import torus_grains, vessel_grains
from jigs.looks.woods import Layups
from tests.jigs.looks.looking import TORUS, planned

STEP = 0.05  # mm
RINGS = (FlatRing(0, 20, 12, 60), FlatRing(20, 20, 12, 60, turned=radians(15)))


def patterns():
    for plane in ("flat", "end", "face"):
        for mirrored in ("none", "left and right", "up and down", "both"):
            for turned in (False, True):
                for flips in ((False, False), (True, False), (False, True)):
                    yield Pattern(
                        (1.0, 0.7), 0.6, plane, mirrored, 12.0, 9.0, 0.1, turned, *flips, off=(0.4, 0.2)
                    )


def fibres(grain, points, places):
    """The direction itself, from what it has along x, y and z: the spots' normals point where they are told to."""
    count = len(points)
    found = []
    for axis in np.eye(3):
        phi = np.arctan2(axis[1], axis[0])
        level = float(np.hypot(axis[0], axis[1]))
        spots = Spots(
            np.ones(count),
            np.full(count, phi),
            np.zeros(count),
            np.full(count, level),
            np.full(count, axis[2]),
        )
        found.append(grain.into_surface(spots, places))
    return np.column_stack(found)


def changes(points, direction, place, pattern):
    """Share of points at which the ply differs a step along the direction."""
    return (ply_at(place(points), pattern) != ply_at(place(points + STEP * direction), pattern)).mean()


@pytest.mark.parametrize("form", ["torus", "vessel"])
def test_plies_do_not_change_along_their_fibres_but_across_them(form):
    rng = np.random.default_rng(4)
    blank = planned(TORUS).blank
    for pattern in patterns():
        layup = (Layups(np.arange(blank.wedge_rings if form == "torus" else 2), pattern, 0),)
        if form == "torus":
            phi, theta = rng.uniform(-np.pi, np.pi, (2, 3000))
            radius = blank.centre + 25 * np.cos(theta)
            points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), 25 * np.sin(theta)))
            grain = torus_grains(blank, None, (blank.wedge_rings, blank.segments), layup)

            def place(at):
                return torus_places(at, planned(TORUS).blank)
        else:
            phi, radius = rng.uniform(-np.pi, np.pi, 3000), rng.uniform(45, 58, 3000)
            points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), rng.uniform(1, 39, 3000)))
            grain = vessel_grains(RINGS, (2, 24), layup)

            def place(at):
                return vessel_places(at, RINGS)

        places = place(points)
        along = fibres(grain, points, places)
        assert np.allclose(np.linalg.norm(along, axis=1), 1)
        assert changes(points, along, place, pattern) < 0.015, pattern  # those next to a seam or a joint
        aside = np.cross(along, rng.normal(size=(3000, 3)))
        aside /= np.linalg.norm(aside, axis=1)[:, None]
        assert changes(points, aside, place, pattern) > 0.02, pattern


def test_a_layup_on_the_ends_shows_more_end_grain_than_one_on_the_flats():
    blank = planned(TORUS).blank
    out = np.array([np.cos(blank.mitre), 0.0, np.sin(blank.mitre)])  # of the flat beside the arris
    across = np.array([-out[2], 0.0, out[0]])
    points = np.array([blank.centre, 0.0, 0.0]) + 30 * out[None] + 2 * across
    spots = at_points(points, out[None])
    places = torus_places(points, blank)
    found = []
    for plane in ("flat", "end"):
        layup = (Layups(np.arange(blank.wedge_rings), Pattern((1.0,), 0.5, plane, "both", 10, 10), 0),)
        found.append(
            torus_grains(blank, None, (blank.wedge_rings, blank.segments), layup)
            .into_surface(spots, places)
            .item()
        )
    assert found[0] == pytest.approx(0, abs=1e-9)
    assert abs(found[1]) == pytest.approx(np.cos(0.5))
