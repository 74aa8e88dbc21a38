"""Where the pattern of a layup goes on across joints, and where it breaks."""

import math
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.pattern import Pattern, ply_at
from geometry.blanks.planes import Mirrored, Plane
from geometry.bodies.places import Places, ring_middles, torus_places
from geometry.bodies.torus import Blank, flat_normals
from geometry.plane.edges import FloatArray, IntArray
from tests.geometry.patterns import BLANK, BREAKS, Breaks, mostly, patterns, seeds
from tests.geometry.tori_blanks import blanks

SIDE = 1e-10  # mm to either side of a joint; the chance that plies meet within it is next to nothing


def in_the_world(
    blank: Blank, ring: IntArray, segment: IntArray, u: FloatArray, v: FloatArray, y: FloatArray
) -> FloatArray:
    middle, normal = ring_middles(blank)[ring], flat_normals(blank.segments)[segment]
    out = blank.centre + (blank.apothem - v) * np.cos(normal) - u * np.sin(normal)
    up = (blank.apothem - v) * np.sin(normal) + u * np.cos(normal)
    x = out * np.cos(middle) - y * np.sin(middle), out * np.sin(middle) + y * np.cos(middle)
    return np.column_stack((*x, up))


class Sides(NamedTuple):
    """Places just before and just after joints, pair by pair."""

    before: Places
    after: Places

    def differ(self, pattern: Pattern) -> bool:
        return bool((ply_at(self.before, pattern) != ply_at(self.after, pattern)).any())


def mitre_sides(blank: Blank, seed: int, count: int = 400) -> Sides:
    """Either side of mitres, anywhere in the blank."""
    rng = np.random.default_rng(seed)
    ring, segment = rng.integers(0, blank.wedge_rings, count), rng.integers(0, blank.segments, count)
    v = rng.uniform(0, blank.apothem - blank.core_apothem, count)
    y = rng.uniform(-1, 1, count) * blank.inner_radius * math.tan(blank.half_wedge)
    half = (blank.apothem - v) * math.tan(blank.mitre)
    on = in_the_world(blank, ring, segment, half, v, y)
    across = in_the_world(blank, ring, segment, half + 1, v, y) - on
    return _either_side(blank, on, across)


def wedge_sides(blank: Blank, seed: int, count: int = 400) -> Sides:
    """Either side of the joints between wedge rings, anywhere in the blank."""
    rng = np.random.default_rng(seed)
    ring, segment = rng.integers(0, blank.wedge_rings, count), rng.integers(0, blank.segments, count)
    v = rng.uniform(0, blank.apothem - blank.core_apothem, count)
    u = rng.uniform(-1, 1, count) * (blank.apothem - v) * math.tan(blank.mitre) * 0.999
    normal = flat_normals(blank.segments)[segment]
    out = blank.centre + (blank.apothem - v) * np.cos(normal) - u * np.sin(normal)
    half = out * math.tan(blank.half_wedge)
    on = in_the_world(blank, ring, segment, u, v, half)
    across = in_the_world(blank, ring, segment, u, v, half + 1) - on
    return _either_side(blank, on, across)


def _either_side(blank: Blank, on: FloatArray, across: FloatArray) -> Sides:
    found = Sides(torus_places(on - SIDE * across, blank), torus_places(on + SIDE * across, blank))
    apart = (found.before.ring != found.after.ring) | (found.before.segment != found.after.segment)
    assert apart.all()
    return found


MIRRORED_ALL_ROUND: list[tuple[Plane, Mirrored]] = [
    ("flat", "both"),
    ("end", "up and down"),
    ("end", "both"),
    ("face", "left and right"),
    ("face", "both"),
]


@given(blanks(), st.sampled_from(MIRRORED_ALL_ROUND).flatmap(lambda kind: patterns(*kind)), seeds)
def test_mirrored_patterns_go_on_across_every_joint(blank: Blank, pattern: Pattern, seed: int) -> None:
    assert not mitre_sides(blank, seed).differ(pattern)
    assert not wedge_sides(blank, seed).differ(pattern)


@pytest.mark.parametrize(("kind", "breaks"), BREAKS.items(), ids=lambda x: " ".join(map(str, x)))
@given(st.floats(0.3, 1.2), st.lists(st.floats(0.5, 2.0), min_size=2, max_size=5).map(tuple), seeds)
def test_other_patterns_break_until_every_other_piece_is_a_mirror_image(
    kind: tuple[Plane, Mirrored], breaks: Breaks, angle: float, plies: tuple[float, ...], seed: int
) -> None:
    pattern = Pattern(plies, angle, *kind, a=31.7, b=43.1)
    mitres, wedges = mitre_sides(BLANK, seed), wedge_sides(BLANK, seed)
    assert Breaks(mitres.differ(pattern), wedges.differ(pattern)) == breaks
    flipped = replace(pattern, flip_segments=breaks.mitres, flip_rings=breaks.wedges)
    assert not mitres.differ(flipped)
    assert not wedges.differ(flipped)


def test_plain_diagonals_need_both_flips() -> None:
    diagonal = Pattern((1.0, 2.0), 0.7, "flat", "none", 31.7, 43.1)
    mitres, wedges = mitre_sides(BLANK, 1), wedge_sides(BLANK, 1)
    one, other = replace(diagonal, flip_segments=True), replace(diagonal, flip_rings=True)
    assert Breaks(mitres.differ(one), wedges.differ(one)) == Breaks(False, True)
    assert Breaks(mitres.differ(other), wedges.differ(other)) == Breaks(True, False)


@given(patterns("flat", "both"), st.floats(0.05, 1.0), seeds)
def test_seams_off_the_middle_make_neighbours_slip_by_twice_that(
    pattern: Pattern, off: float, seed: int
) -> None:
    rng, zero = np.random.default_rng(seed), np.zeros(300, np.intp)
    half, free, depth = rng.uniform(2, 20, 300), rng.uniform(-20, 20, 300), np.full(300, 5.0)
    along, across = replace(pattern, off=(off, 0.0)), replace(pattern, off=(0.0, off))
    here = ply_at(Places(zero, zero, half, depth, free), along)
    assert mostly(ply_at(Places(zero, zero + 1, -half - 2 * off, depth, free), along) == here)
    here = ply_at(Places(zero, zero, free, depth, half), across)
    assert mostly(ply_at(Places(zero + 1, zero, free, depth, -half - 2 * off), across) == here)


def test_a_slip_shows_at_the_joints() -> None:
    diamonds = Pattern((1.0, 2.0), 0.7, "flat", "both", 17.0, 23.0)
    mitres, wedges = mitre_sides(BLANK, 2), wedge_sides(BLANK, 2)
    along, across = replace(diamonds, off=(0.4, 0.0)), replace(diamonds, off=(0.0, 0.4))
    assert Breaks(mitres.differ(along), wedges.differ(along)) == Breaks(True, False)
    assert Breaks(mitres.differ(across), wedges.differ(across)) == Breaks(False, True)
