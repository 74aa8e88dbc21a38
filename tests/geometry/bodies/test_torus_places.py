"""Places in a torus held against the segments as solids: each the part of space on one side of its planes."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.places import ring_edges, ring_middles, torus_grain, torus_grid_places, torus_places
from geometry.bodies.torus import Blank, flat_normals, least_apothem
from geometry.bodies.tube import tube_of
from geometry.plane.edges import FloatArray
from tests.geometry.placing import NEAR, agree, along, seeds
from tests.geometry.tori import torus_surface
from tests.geometry.tori_blanks import blanks, segments, wedge_rings


def everywhere(seed: int, reach: float, count: int = 200) -> FloatArray:
    return np.random.default_rng(seed).uniform(-reach, reach, (count, 3))


def joints_of(blank: Blank, seed: int) -> FloatArray:
    """Joints a little off, as of rings that came out slightly unlike each other."""
    off = np.random.default_rng(seed).uniform(-0.3, 0.3, blank.wedge_rings)
    return np.asarray(ring_edges(blank)[1:] + blank.half_wedge * off)


@st.composite
def tori(draw: st.DrawFn) -> tuple[Blank, float, float]:
    """A torus and a blank that holds it: its major radius, its tube's."""
    tube, n, rings = draw(st.floats(10.0, 50.0)), draw(segments), draw(wedge_rings)
    major = tube * draw(st.floats(1.3, 6.0)) + 3.0
    apothem, centre = least_apothem(major, tube_of(tube + 3.0), rings, n)
    return Blank(rings, n, apothem, 0.4 * tube, centre), major, tube


def wedge_frames(blank: Blank, joints: FloatArray | None) -> tuple[FloatArray, FloatArray]:
    """Outward (N, n, 3) normals of the outer flats, and the rings' centres (N, 3)."""
    middle = ring_middles(blank, joints)
    flat = flat_normals(blank.segments)
    normals = np.cos(flat)[:, None] * along(middle)[:, None] + np.sin(flat)[:, None] * (0.0, 0.0, 1.0)
    return normals, blank.centre * along(middle)


def torus_slack(points: FloatArray, blank: Blank, joints: FloatArray | None) -> FloatArray:
    """How far within the nearest of its four cut faces a point is (m, N, n); negative outside."""
    edges = ring_edges(blank, joints)
    faces = [along(edges[:-1] + math.pi / 2), along(edges[1:] - math.pi / 2)]
    in_ring = np.min([points @ face.T for face in faces], axis=0)
    _, centres = wedge_frames(blank, joints)
    out = (points[:, None] - centres) * along(ring_middles(blank, joints))
    out, up = out.sum(axis=-1)[:, :, None], points[:, None, None, 2]
    ends = [flat_normals(blank.segments) + sign * (blank.mitre - math.pi / 2) for sign in (1, -1)]
    in_segment = np.min([out * np.cos(end) + up * np.sin(end) for end in ends], axis=0)
    return np.asarray(np.minimum(in_ring[:, :, None], in_segment))


@given(tori(), seeds, st.booleans())
def test_each_point_is_in_the_one_segment_whose_planes_hold_it(
    torus: tuple[Blank, float, float], seed: int, uneven: bool
) -> None:
    blank, _, _ = torus
    joints = joints_of(blank, seed) if uneven else None
    points = everywhere(seed, blank.swing_radius)
    found = torus_places(points, blank, joints)
    slack = torus_slack(points, blank, joints)
    assert (slack[np.arange(len(points)), found.ring, found.segment] > -NEAR).all()
    assert ((slack > NEAR).sum(axis=(1, 2)) <= 1).all()


@given(tori(), seeds)
def test_the_finished_torus_lies_in_the_wood_of_the_segments_found(
    torus: tuple[Blank, float, float], seed: int
) -> None:
    blank, major, tube = torus
    phi, theta = np.random.default_rng(seed).uniform(0, 2 * math.pi, (2, 200))
    found = torus_places(torus_surface(major, tube, phi, theta)[0], blank)
    # The allowance is measured in the plane of the axis, and at a joint that leans w from square to the flat.
    assert 3.0 * math.cos(blank.half_wedge) - NEAR <= found.v.min()
    assert (np.abs(found.u) <= (blank.apothem - found.v) * math.tan(blank.mitre) + NEAR).all()
    out = blank.centre + (blank.apothem - found.v) * np.cos(flat_normals(blank.segments))[found.segment]
    out -= found.u * np.sin(flat_normals(blank.segments))[found.segment]
    assert (np.abs(found.y) <= out * math.tan(blank.half_wedge) + NEAR).all()


@given(blanks(), seeds, st.booleans())
def test_a_place_in_a_torus_gives_the_point_back(blank: Blank, seed: int, uneven: bool) -> None:
    joints = joints_of(blank, seed) if uneven else None
    points = everywhere(seed, blank.swing_radius)
    found = torus_places(points, blank, joints)
    normals, centres = wedge_frames(blank, joints)
    tube = along(ring_middles(blank, joints) + math.pi / 2)[found.ring]
    normal = normals[found.ring, found.segment]
    rebuilt = (
        centres[found.ring]
        + (blank.apothem - found.v)[:, None] * normal
        + found.u[:, None] * np.cross(normal, tube)
        + found.y[:, None] * tube
    )
    assert rebuilt == pytest.approx(points, abs=1e-9 * blank.swing_radius)


def test_the_first_ring_lies_about_angle_0_and_its_first_flat_is_down() -> None:
    blank = Blank(18, 8, 40.0, 20.0, 100.0)
    below, above, rim, hole = np.array([(100, 0, -30), (100, 0, 30), (130, 1, 0), (70, -1, 0)], dtype=float)
    found = torus_places(np.array([below, above, rim, hole]), blank)
    assert found.ring.tolist() == [0, 0, 0, 0]
    assert found.segment.tolist() == [0, 4, 2, 6]
    assert found.v == pytest.approx(10.0)
    assert found.y == pytest.approx((0, 0, 1, -1))
    assert torus_places(along(np.array((0.4, -0.4))) * 100.0, blank).ring.tolist() == [1, 17]


@given(tori(), seeds, st.booleans())
def test_a_grid_on_the_torus_has_the_places_of_its_points(
    torus: tuple[Blank, float, float], seed: int, uneven: bool
) -> None:
    blank, major, tube = torus
    joints = joints_of(blank, seed) if uneven else None
    rng = np.random.default_rng(seed)
    phi, theta = rng.uniform(-10.0, 10.0, 40), rng.uniform(-10.0, 10.0, 30)
    points, _ = torus_surface(major, tube, phi, theta[:, None])
    agree(
        torus_grid_places(blank, major + tube * np.cos(theta), tube * np.sin(theta), phi, joints),
        torus_places(points, blank, joints),
        (30, 40),
    )


@given(tori())
def test_on_the_finished_torus_rings_are_shortest_in_the_hole_and_longest_at_the_rim(
    torus: tuple[Blank, float, float],
) -> None:
    """(R - r) sin w and (R + r) sin w to either side of the middle: diamonds end whole at one radius only."""
    blank, major, tube = torus
    w, theta = blank.half_wedge, np.linspace(-math.pi, math.pi, 25)
    y = torus_grid_places(
        blank, major + tube * np.cos(theta), tube * np.sin(theta), np.linspace(-w, w, 21)[1:-1]
    ).y
    half = y[:, -1] / math.sin(0.9 * w) * math.sin(w)
    assert half.min() == pytest.approx((major - tube) * math.sin(w))
    assert half.max() == pytest.approx((major + tube) * math.sin(w))
    assert y[:, 0] == pytest.approx(-y[:, -1])


@given(blanks())
def test_rings_that_are_all_alike_need_no_joints_stated(blank: Blank) -> None:
    joints = blank.half_wedge * (2 * np.arange(blank.wedge_rings) + 1)
    assert ring_edges(blank, joints) == pytest.approx(ring_edges(blank))
    assert ring_middles(blank) == pytest.approx(2 * blank.half_wedge * np.arange(blank.wedge_rings))


@given(blanks(), seeds)
def test_rings_of_unlike_size_reach_equally_far_to_both_sides_of_their_middles(
    blank: Blank, seed: int
) -> None:
    joints = joints_of(blank, seed)
    before = torus_places(blank.centre * along(joints - 1e-9), blank, joints)
    after = torus_places(blank.centre * along(joints + 1e-9), blank, joints)
    rings = blank.wedge_rings
    assert before.ring.tolist() == list(range(rings))
    assert after.ring.tolist() == [*range(1, rings), 0]
    assert before.y == pytest.approx(-np.roll(after.y, 1), abs=1e-6)
    assert (before.y > 0).all()


def test_joints_that_do_not_fit_the_rings_are_refused() -> None:
    blank = Blank(6, 8, 40.0, 20.0, 100.0)
    with pytest.raises(ValueError, match="as many joints"):
        ring_edges(blank, np.arange(5.0))
    with pytest.raises(ValueError, match="must rise"):
        ring_edges(blank, (0.0, 1.0, 3.0, 2.0, 4.0, 5.0))
    with pytest.raises(ValueError, match="within one turn"):
        ring_edges(blank, np.arange(6.0) * 1.3)


@given(blanks(), seeds, st.booleans())
def test_along_the_grain_of_a_torus_one_moves_along_the_flat_or_the_tube(
    blank: Blank, seed: int, tube: bool
) -> None:
    points = inside_segments(everywhere(seed, blank.swing_radius), blank)
    found = torus_places(points, blank)
    grain = torus_grain(found, blank, along_tube=tube)
    assert np.linalg.norm(grain, axis=-1) == pytest.approx(1.0)
    moved = torus_places(points + 1e-4 * grain, blank)
    steps = np.column_stack((moved.u - found.u, moved.v - found.v, moved.y - found.y))
    assert steps == pytest.approx(
        np.tile((0, 0, 1e-4) if tube else (1e-4, 0, 0), (len(points), 1)), abs=1e-10
    )


def inside_segments(points: FloatArray, blank: Blank) -> FloatArray:
    return np.asarray(points[torus_slack(points, blank, None).max(axis=(1, 2)) > 1e-3])
