"""The pattern of a layup in one piece: which ply lies where, and how much of each shows."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.blanks.pattern import Pattern, ply_at
from geometry.blanks.planes import Plane
from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.places import Places, torus_grid_places, vessel_places
from geometry.plane.edges import FloatArray
from tests.geometry.patterns import BLANK, BREAKS, patterns, seeds


def places(u: float, v: float, y: float, segment: int = 0, ring: int = 0) -> Places:
    one = np.array([u]), np.array([v]), np.array([y])
    return Places(np.array([ring]), np.array([segment]), *one)


def ply(
    pattern: Pattern, u: float = 0.0, v: float = 0.0, y: float = 0.0, segment: int = 0, ring: int = 0
) -> int:
    return int(ply_at(places(u, v, y, segment, ring), pattern)[0])


STRIPES = Pattern((2.0, 1.0, 3.0), math.pi / 2, "flat", "left and right", 12.0, 20.0, sanding=0.25)


def test_plies_follow_each_other_from_the_seam_and_begin_anew() -> None:
    found = [ply(STRIPES, u) for u in (0.0, 1.7, 1.8, 2.7, 2.8, 5.7, 5.8)]
    assert found == [0, 0, 1, 1, 2, 2, 0]
    assert [ply(STRIPES, -u) for u in (0.0, 1.7, 1.8, 2.7, 2.8, 5.7, 5.8)] == found


def test_a_piece_that_is_not_mirrored_begins_at_its_end() -> None:
    whole = replace(STRIPES, mirrored="none")
    assert [ply(whole, u) for u in (-5.9, -4.1, -3.9, -3.1, -2.9)] == [0, 0, 1, 1, 2]


def test_a_turned_piece_begins_at_the_other_end() -> None:
    turned = replace(STRIPES, turned=True)
    assert [ply(turned, 11.75 - d) for d in (0.1, 1.9, 2.1, 2.9, 3.1)] == [0, 0, 1, 1, 2]


def test_on_the_ends_the_plies_run_along_the_flat_and_on_the_faces_up() -> None:
    ends = replace(STRIPES, plane="end", mirrored="none")
    assert [ply(ends, u=7.0, v=v) for v in (0.1, 1.9, 2.1, 3.1)] == [0, 0, 1, 2]
    faces = replace(STRIPES, plane="face", mirrored="none", angle=0.0)
    assert [ply(faces, v=v, y=7.0) for v in (0.1, 1.9, 2.1, 3.1)] == [0, 0, 1, 2]


def test_where_plies_meet_the_next_one_shows() -> None:
    faces = replace(STRIPES, plane="face", mirrored="none", angle=0.0)
    assert [ply(faces, v=v) for v in (0.0, 2.0, 3.0, 6.0)] == [0, 1, 2, 0]


@pytest.mark.parametrize("plane", ["flat", "end", "face"])
@pytest.mark.parametrize("angle", [0.0, math.pi / 2])
def test_a_layup_that_is_out_shows_what_lies_so_much_further_on(plane: Plane, angle: float) -> None:
    pattern = replace(STRIPES, plane=plane, mirrored="none", angle=angle)
    out = replace(pattern, off=(0.7, 1.1))
    moved = {"flat": (0.7, 0.0, 1.1), "end": (0.0, 0.7, 1.1), "face": (0.7, 1.1, 0.0)}[plane]
    for place in np.random.default_rng(3).uniform(2, 9, (100, 3)):
        u, v, y = (place + moved).tolist()
        assert ply(out, *place.tolist()) == ply(pattern, u, v, y)


@given(patterns(), seeds)
def test_each_point_is_in_the_ply_between_whose_two_lines_it_lies(pattern: Pattern, seed: int) -> None:
    u, v, y = np.random.default_rng(seed).uniform(-30, 30, (3, 50))
    zero = np.zeros(50, np.intp)
    found = ply_at(Places(zero, zero, u, v, y), pattern)
    for at, *uvy in zip(found, u, v, y, strict=True):
        assert within_ply(pattern, int(at), *corner(pattern, *uvy))


def corner(pattern: Pattern, u: float, v: float, y: float) -> tuple[float, float]:
    """Place in the rectangle, by the words of the contract."""
    across = abs(u) + pattern.sanding if pattern.mirrored in ("left and right", "both") else u + pattern.a / 2
    up = abs(y) + pattern.sanding if pattern.mirrored in ("up and down", "both") else y + pattern.b / 2
    p, q = {"flat": (across, up), "end": (v, up), "face": (across, v)}[pattern.plane]
    return (pattern.a - p if pattern.turned else p), q


def within_ply(pattern: Pattern, at: int, p: float, q: float) -> bool:
    """Whether a point of the rectangle lies in any layer of this ply: layers are walked one by one."""
    square = p * math.sin(pattern.angle) + q * math.cos(pattern.angle)
    repeat, bottom = sum(pattern.plies), sum(pattern.plies[:at])
    layers = range(math.floor(square / repeat) - 1, math.floor(square / repeat) + 2)
    return any(-1e-9 <= square - (bottom + k * repeat) <= pattern.plies[at] + 1e-9 for k in layers)


@st.composite
def closed(draw: st.DrawFn) -> tuple[Pattern, FlatRing]:
    """A ring and a layup of which i and j whole repeats go into a finished quarter of its flats."""
    ring = FlatRing(0.0, draw(st.floats(10.0, 40.0)), draw(st.integers(4, 16)), draw(st.floats(30.0, 90.0)))
    i, j = draw(st.integers(1, 4)), draw(st.integers(1, 4))
    across, up = ring.outer * math.tan(math.pi / ring.segments), ring.height / 2
    angle = math.atan2(i * up, j * across)
    shares = np.array(draw(st.lists(st.floats(0.2, 1.0), min_size=2, max_size=5)))
    plies = shares / shares.sum() / math.hypot(i / across, j / up)
    sanding = draw(st.floats(0.0, 0.3))
    pattern = Pattern(tuple(plies.tolist()), angle, "flat", "both", across + sanding, up + sanding, sanding)
    return pattern, ring


def on_flats(ring: FlatRing, count: int, seed: int) -> FloatArray:
    """Points spread evenly over the outer flats."""
    rng = np.random.default_rng(seed)
    normal = 2 * math.pi / ring.segments * rng.integers(0, ring.segments, count)
    u = rng.uniform(-1, 1, count) * ring.outer * math.tan(math.pi / ring.segments)
    x, y = (
        ring.outer * np.cos(normal) - u * np.sin(normal),
        ring.outer * np.sin(normal) + u * np.cos(normal),
    )
    return np.column_stack((x, y, rng.uniform(ring.bottom, ring.bottom + ring.height, count)))


@settings(max_examples=12)
@given(closed(), seeds)
def test_where_whole_repeats_close_the_plies_show_as_much_as_they_are_thick(
    ring_and: tuple[Pattern, FlatRing], seed: int
) -> None:
    """Six standard deviations of a random sample, which fall as one over the root of its size; at last 1 %."""
    pattern, ring = ring_and
    shares = np.array(pattern.plies) / sum(pattern.plies)
    for count in (1_000, 10_000, 160_000):
        found = ply_at(vessel_places(on_flats(ring, count, seed), [ring]), pattern)
        off = np.abs(np.bincount(found, minlength=len(shares)) / count - shares)
        assert (off <= 6 * np.sqrt(shares * (1 - shares) / count)).all()
    assert off.max() < 0.01


def test_places_that_only_broadcast_give_the_plies_of_the_whole_grid() -> None:
    phi, theta = np.linspace(0, 6, 70), np.linspace(-3, 3, 50)
    grid = torus_grid_places(BLANK, 115.0 + 35.0 * np.cos(theta), 35.0 * np.sin(theta), phi)
    ring, segment = (np.broadcast_to(x, (50, 70)) for x in (grid.ring, grid.segment))
    u, v, y = (np.broadcast_to(x, (50, 70)) for x in (grid.u, grid.v, grid.y))
    whole = Places(ring, segment, u, v, y)
    for plane, mirrored in BREAKS:
        pattern = Pattern((1.0, 2.0), 0.7, plane, mirrored, 17.0, 23.0, flip_segments=True, flip_rings=True)
        assert (ply_at(grid, pattern) == ply_at(whole, pattern)).all()
        assert ply_at(grid, pattern).shape == (50, 70)
