"""The pattern of a layup round the whole torus: what repeats, what is its own mirror image."""

import math

import numpy as np
from hypothesis import given

from geometry.blanks.pattern import Pattern, ply_at
from geometry.bodies.places import torus_places
from geometry.bodies.torus import Blank
from geometry.plane.edges import FloatArray
from tests.geometry.patterns import mostly, patterns, seeds
from tests.geometry.tori_blanks import blanks


def round_the_tube(points: FloatArray, blank: Blank, angle: float) -> FloatArray:
    """Points of ring 0 turned about the middle of its section."""
    middle = np.array((blank.centre, 0, 0))
    x, y, z = (points - middle).T
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(np.column_stack((x * c - z * s, y, x * s + z * c)) + middle)


def about_the_axis(points: FloatArray, angle: float) -> FloatArray:
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(points @ np.array(((c, s, 0), (-s, c, 0), (0, 0, 1.0))))


def in_ring_0(blank: Blank, seed: int) -> FloatArray:
    rng, count = np.random.default_rng(seed), 300
    y = rng.uniform(-1, 1, count) * blank.inner_radius * math.tan(blank.half_wedge)
    radius = blank.apothem * np.sqrt(rng.uniform(0, 1, count))  # turned round the tube, still in the ring
    angle = rng.uniform(-math.pi, math.pi, count)
    return np.column_stack((blank.centre + radius * np.cos(angle), y, radius * np.sin(angle)))


@given(blanks(), patterns(), seeds)
def test_a_torus_looks_the_same_a_ring_on_and_a_segment_on(blank: Blank, pattern: Pattern, seed: int) -> None:
    points = in_ring_0(blank, seed)
    here = ply_at(torus_places(points, blank), pattern)
    ring_on = torus_places(about_the_axis(points, 2 * blank.half_wedge), blank)
    segment_on = torus_places(round_the_tube(points, blank, 2 * blank.mitre), blank)
    assert (ring_on.ring == 1).all()
    assert mostly(ply_at(ring_on, pattern) == here)
    assert mostly(ply_at(segment_on, pattern) == here)


@given(blanks(), patterns(mirrored="both"), seeds)
def test_a_mirrored_torus_is_its_own_mirror_image(blank: Blank, pattern: Pattern, seed: int) -> None:
    """In a ring's middle plane, a joint's plane and the level plane through the tube."""
    points = in_ring_0(blank, seed)
    here = ply_at(torus_places(points, blank), pattern)
    middle = points * (1, -1, 1)
    joint = about_the_axis(middle, 2 * blank.half_wedge)
    level = points * (1, 1, -1)
    for mirrored in (middle, joint, level):
        assert mostly(ply_at(torus_places(mirrored, blank), pattern) == here)
