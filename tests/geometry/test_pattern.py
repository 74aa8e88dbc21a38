"""The contract of a layup's pattern: where it goes on across joints, where it breaks, how much of each ply shows."""

import math
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.arcs import FloatArray
from geometry.flat_rings import FlatRing, IntArray
from geometry.pattern import Pattern, ply_at
from geometry.places import Places, ring_middles, torus_grid_places, torus_places, vessel_places
from geometry.planes import Mirrored, Plane
from geometry.torus import Blank, flat_normals
from tests.geometry.blanks import blanks

SIDE = 1e-10  # mm to either side of a joint; the chance that plies meet within it is next to nothing
UP = np.array((0.0, 0.0, 1.0))
BLANK = Blank(16, 8, 41.0, 20.0, 115.0)
seeds = st.integers(0, 2**32 - 1)
planes: st.SearchStrategy[Plane] = st.sampled_from(("flat", "end", "face"))
mirrorings: st.SearchStrategy[Mirrored] = st.sampled_from(("none", "left and right", "up and down", "both"))
some_plies = st.lists(st.floats(0.4, 5.0), min_size=1, max_size=6).map(tuple)


@st.composite
def patterns(draw: st.DrawFn, plane: Plane | None = None, mirrored: Mirrored | None = None) -> Pattern:
    return Pattern(
        plies=draw(some_plies),
        angle=draw(st.floats(0.0, math.pi / 2)),
        plane=draw(planes) if plane is None else plane,
        mirrored=draw(mirrorings) if mirrored is None else mirrored,
        a=draw(st.floats(5.0, 40.0)),
        b=draw(st.floats(5.0, 40.0)),
        sanding=draw(st.floats(0.0, 0.5)),
        turned=draw(st.booleans()),
    )


def places(u: float, v: float, y: float, segment: int = 0, ring: int = 0) -> Places:
    one = np.array([u]), np.array([v]), np.array([y])
    return Places(np.array([ring]), np.array([segment]), *one)


def ply(
    pattern: Pattern, u: float = 0.0, v: float = 0.0, y: float = 0.0, segment: int = 0, ring: int = 0
) -> int:
    return int(ply_at(places(u, v, y, segment, ring), pattern)[0])


# --- the rectangle ---

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


@settings(max_examples=100, deadline=None)
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


# --- across joints ---


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


@settings(max_examples=60, deadline=None)
@given(blanks(), st.sampled_from(MIRRORED_ALL_ROUND).flatmap(lambda kind: patterns(*kind)), seeds)
def test_mirrored_patterns_go_on_across_every_joint(blank: Blank, pattern: Pattern, seed: int) -> None:
    assert not mitre_sides(blank, seed).differ(pattern)
    assert not wedge_sides(blank, seed).differ(pattern)


class Breaks(NamedTuple):
    """Whether a pattern breaks at mitres, and at the joints between wedge rings."""

    mitres: bool
    wedges: bool


BREAKS: dict[tuple[Plane, Mirrored], Breaks] = {
    ("flat", "none"): Breaks(True, True),
    ("flat", "up and down"): Breaks(True, False),
    ("flat", "left and right"): Breaks(False, True),
    ("end", "none"): Breaks(False, True),
    ("end", "left and right"): Breaks(False, True),
    ("face", "none"): Breaks(True, False),
    ("face", "up and down"): Breaks(True, False),
}


@pytest.mark.parametrize(("kind", "breaks"), BREAKS.items(), ids=lambda x: " ".join(map(str, x)))
@settings(max_examples=15, deadline=None)
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


@settings(max_examples=60, deadline=None)
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


# --- the whole ---


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


@settings(max_examples=40, deadline=None)
@given(blanks(), patterns(), seeds)
def test_a_torus_looks_the_same_a_ring_on_and_a_segment_on(blank: Blank, pattern: Pattern, seed: int) -> None:
    points = in_ring_0(blank, seed)
    here = ply_at(torus_places(points, blank), pattern)
    ring_on = torus_places(about_the_axis(points, 2 * blank.half_wedge), blank)
    segment_on = torus_places(round_the_tube(points, blank, 2 * blank.mitre), blank)
    assert (ring_on.ring == 1).all()
    assert mostly(ply_at(ring_on, pattern) == here)
    assert mostly(ply_at(segment_on, pattern) == here)


def mostly(same: np.typing.NDArray[np.bool_]) -> bool:
    """All but a few that rounding moved from one ply to the next, or to the next segment."""
    return bool(same.mean() > 0.98)


@settings(max_examples=40, deadline=None)
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


# --- shares ---


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


@settings(max_examples=12, deadline=None)
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
    grid = torus_grid_places(BLANK, 115.0, 35.0, phi, theta)
    ring, segment = (np.broadcast_to(x, (50, 70)) for x in (grid.ring, grid.segment))
    u, v, y = (np.broadcast_to(x, (50, 70)) for x in (grid.u, grid.v, grid.y))
    whole = Places(ring, segment, u, v, y)
    for plane, mirrored in BREAKS:
        pattern = Pattern((1.0, 2.0), 0.7, plane, mirrored, 17.0, 23.0, flip_segments=True, flip_rings=True)
        assert (ply_at(grid, pattern) == ply_at(whole, pattern)).all()
        assert ply_at(grid, pattern).shape == (50, 70)
