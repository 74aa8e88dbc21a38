"""Places in a vessel held against its pieces as solids: each the part of space on one side of its planes."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.staves import StaveBand, stave_ring
from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.places import vessel_grain, vessel_grid_places, vessel_places
from geometry.plane.edges import FloatArray
from tests.geometry.placing import NEAR, agree, along, seeds


@st.composite
def stacks(draw: st.DrawFn, shifted: bool = True) -> list[FlatRing]:
    """Rings, discs and leaning staves, some with gaps, some off centre."""
    found, bottom = [], draw(st.floats(-5.0, 5.0))
    for _ in range(draw(st.integers(1, 5))):
        ring = _ring(draw, bottom)
        if shifted and draw(st.booleans()):
            ring = replace(ring, shift=(draw(st.floats(-5, 5)), draw(st.floats(-5, 5))))
        found.append(ring)
        bottom += ring.height
    return found


def _ring(draw: st.DrawFn, bottom: float) -> FlatRing:
    kind = draw(st.sampled_from(("disc", "plain", "gaps", "staves")))
    height, outer, turned = (
        draw(st.floats(5.0, 40.0)),
        draw(st.floats(30.0, 90.0)),
        draw(st.floats(-4.0, 4.0)),
    )
    if kind == "disc":
        return FlatRing(bottom, height, 0, outer, turned)
    n = draw(st.integers(3, 24))
    if kind == "staves":
        band = StaveBand(n, bottom, bottom + height, draw(st.floats(-0.6, 0.6)), outer, 10.0)
        return stave_ring(band, turned)
    return FlatRing(bottom, height, n, outer, turned, draw(st.floats(0.5, 4.0)) if kind == "gaps" else 0.0)


def piece_slack(points: FloatArray, ring: FlatRing) -> dict[int, FloatArray]:
    """How far within each segment, and each gap as far as gaps do not overlap, a point is; negative outside."""
    level = points - (*ring.shift, ring.bottom)
    n, pieces = ring.segments, {}
    in_height = np.minimum(level[:, 2], ring.height - level[:, 2])
    if not n:
        return {0: in_height}
    for i in range(n):
        ends = ring.turned + math.pi / n * np.array((2 * i - 1, 2 * i + 1))
        first, second = (level @ along(ends + math.pi / 2 * np.array((1, -1))).T - ring.gap / 2).T
        pieces[i] = np.minimum.reduce((in_height, first, second))
        beside = ring.gap / 2 - np.abs(level @ along(ends[1] + math.pi / 2))
        pieces[-1 - i] = np.minimum.reduce((in_height, beside, level @ along(ends[1])))
    return pieces


@given(stacks(), seeds)
def test_each_point_of_a_vessel_is_in_the_one_piece_whose_planes_hold_it(
    rings: list[FlatRing], seed: int
) -> None:
    points = in_stack(rings, seed)
    found = vessel_places(points, rings)
    for k, ring in enumerate(rings):
        slack = piece_slack(points, ring)
        mine = found.ring == k
        here = np.array([slack[i][m] for m, i in enumerate(found.segment.tolist()) if mine[m]])
        assert (here > -NEAR).all()
        # Near the axis gaps overlap; a segment shares its wood with nothing.
        whole = np.array([inside for i, inside in slack.items() if i >= 0]) > NEAR
        assert whole.sum(axis=0)[mine].max(initial=0) <= 1
        assert not whole[:, ~mine].any()
        assert not whole[:, mine & (found.segment < 0)].any()


def in_stack(rings: list[FlatRing], seed: int, count: int = 200) -> FloatArray:
    rng = np.random.default_rng(seed)
    heights = rng.uniform(rings[0].bottom, rings[-1].bottom + rings[-1].height, count)
    return np.column_stack((rng.uniform(-90, 90, (count, 2)), heights))


@given(stacks(), seeds)
def test_a_place_in_a_vessel_gives_the_point_back(rings: list[FlatRing], seed: int) -> None:
    points = in_stack(rings, seed, 40)
    found = vessel_places(points, rings)
    rows = zip(found.ring, found.segment, found.u, found.v, found.y, strict=True)
    rebuilt = [rebuild(rings[k], int(i), u, v, y) for k, i, u, v, y in rows]
    assert np.abs(np.array(rebuilt) - points).max() < 1e-9


def rebuild(ring: FlatRing, segment: int, u: float, v: float, y: float) -> FloatArray:
    """The point from its piece's corner and three unit vectors."""
    middle = np.array((*ring.shift, ring.bottom + ring.height / 2))
    mitre = math.pi / max(ring.segments, 1)
    if segment < 0:
        joint = ring.turned + mitre * (1 - 2 * (segment + 1))
        corner = ring.outer / math.cos(mitre)
        return middle + (corner - v) * along(joint) + u * along(joint + math.pi / 2) + y * UP
    face = ring.turned + 2 * mitre * segment if ring.segments else ring.turned - math.pi / 2
    out = math.cos(ring.lean) * along(face) - math.sin(ring.lean) * UP
    rise = math.sin(ring.lean) * along(face) + math.cos(ring.lean) * UP
    return middle + ring.outer * along(face) - v * out + u * along(face + math.pi / 2) + y * rise


UP = np.array((0.0, 0.0, 1.0))


@given(stacks(), seeds)
def test_a_grid_on_a_vessel_has_the_places_of_its_points(rings: list[FlatRing], seed: int) -> None:
    rng = np.random.default_rng(seed)
    radius, z = rng.uniform(5.0, 90.0, 30), np.sort(in_stack(rings, seed, 30)[:, 2])
    phi = rng.uniform(-10.0, 10.0, 40)
    level = radius[:, None, None] * along(phi)
    points = np.concatenate((level[..., :2], np.broadcast_to(z[:, None, None], (30, 40, 1))), axis=-1)
    agree(vessel_grid_places(radius, z, phi, rings), vessel_places(points, rings), (30, 40))


@given(stacks(), seeds)
def test_along_the_grain_of_a_vessel_one_moves_along_the_flat_or_up_the_stave(
    rings: list[FlatRing], seed: int
) -> None:
    points = in_stack(rings, seed)
    found = vessel_places(points, rings)
    grain = vessel_grain(found, rings)
    assert np.linalg.norm(grain, axis=-1) == pytest.approx(1.0)
    moved = vessel_places(points + 1e-4 * grain, rings)
    same = (moved.ring == found.ring) & (moved.segment == found.segment)
    assert same.mean() > 0.9
    steps = np.column_stack((moved.u - found.u, moved.v - found.v, moved.y - found.y)) * 1e4
    staves = np.array([ring.staves for ring in rings])[found.ring]
    strip = found.segment < 0
    expected = np.where(staves[:, None], (0, 0, 1), np.where(strip[:, None], (0, -1, 0), (1, 0, 0)))
    assert steps[same] == pytest.approx(expected[same], abs=1e-6)


@given(st.integers(3, 24), st.floats(-3, 3))
def test_over_a_joint_lies_the_middle_of_the_segment_half_a_turn_on(n: int, turned: float) -> None:
    lower, upper = FlatRing(0, 10, n, 50, turned), FlatRing(10, 10, n, 50, turned + math.pi / n)
    joint = turned + math.pi / n * (2 * np.arange(n) + 1)
    found = vessel_places(45 * along(joint) + 15 * UP, [lower, upper])
    assert found.segment.tolist() == list(range(n))
    assert found.u == pytest.approx(0, abs=1e-9)
    under = vessel_places(45 * along(joint - 1e-6) + 5 * UP, [lower, upper])
    assert under.segment.tolist() == list(range(n))
    assert under.u == pytest.approx(45 * math.sin(math.pi / n), abs=1e-3)


def test_a_disc_is_one_piece_with_its_grain_along_x() -> None:
    disc = FlatRing(0, 10, 0, 50)
    found = vessel_places([(30, 10, 2), (-30, -10, 8)], [disc])
    assert (found.ring.tolist(), found.segment.tolist()) == ([0, 0], [0, 0])
    assert found.u == pytest.approx((30, -30))
    assert found.y == pytest.approx((-3, 3))
    assert vessel_grain(found, [disc]) == pytest.approx(np.tile((1, 0, 0), (2, 1)))


@pytest.mark.parametrize("gap", [0.0, 2.0])
def test_a_plug_is_of_the_first_segment_and_leaves_the_others_as_they_are(gap: float) -> None:
    ring = FlatRing(0.0, 20.0, 12, 50.0, 0.3, gap)
    plugged, phi = replace(ring, plug=9.0), np.linspace(-3.0, 3.0, 50)
    radius, z = np.array([4.0, 8.9, 9.1, 30.0]), np.full(4, 5.0)
    found, without = (vessel_grid_places(radius, z, phi, [one]) for one in (plugged, ring))
    x, y = radius[:, None] * np.cos(phi), radius[:, None] * np.sin(phi)
    agree(found, vessel_places(np.stack((x, y, np.full_like(x, 5.0)), axis=-1), [plugged]), x.shape)
    assert (found.segment[:2] == 0).all()
    assert found.u[:2] == pytest.approx(y[:2] * np.cos(0.3) - x[:2] * np.sin(0.3))
    assert found.v[:2] == pytest.approx(50.0 - x[:2] * np.cos(0.3) - y[:2] * np.sin(0.3))
    assert (found.segment[2:] == without.segment[2:]).all()
    assert (found.u[2:] == without.u[2:]).all()


def test_only_rings_with_gaps_have_them_not_even_at_their_joints() -> None:
    rings = [FlatRing(0, 10, 0, 50), FlatRing(10, 10, 7, 50), FlatRing(20, 10, 7, 50, gap=2.0)]
    joints = math.pi / 7 * (2 * np.arange(7) + 1)
    level = np.concatenate([away * along(joints) for away in np.linspace(5, 50, 40)])
    points = np.stack([level + height * UP for height in (5, 15, 25)])
    disc, plain, gaps = vessel_places(points, rings).segment
    assert (disc == 0).all()
    assert (plain >= 0).all()
    assert (gaps < 0).all()


def test_over_and_under_the_stack_its_end_rings_go_on() -> None:
    rings = [FlatRing(0, 10, 8, 50), FlatRing(10, 10, 8, 50)]
    found = vessel_places([(40, 0, -1), (40, 0, 10), (40, 0, 21)], rings)
    assert found.ring.tolist() == [0, 1, 1]
    assert found.y == pytest.approx((-6, -5, 6))


@given(st.integers(3, 24), st.floats(-0.6, 0.6), seeds)
def test_on_the_leaning_face_of_a_stave_the_depth_is_nothing(n: int, lean: float, seed: int) -> None:
    band = StaveBand(n, 5.0, 45.0, lean, 60.0, 10.0)
    rng = np.random.default_rng(seed)
    z, across, which = rng.uniform(5, 45, 50), rng.uniform(-0.49, 0.49, 50), rng.integers(0, n, 50)
    face = 2 * math.pi / n * which
    width = np.array([band.outer_width(height) for height in z])
    reach = np.array([band.outer_at(height) for height in z])
    points = reach[:, None] * along(face) + (across * width)[:, None] * along(face + math.pi / 2)
    found = vessel_places(points + z[:, None] * UP, [stave_ring(band)])
    assert found.segment.tolist() == which.tolist()
    assert found.v == pytest.approx(0, abs=1e-9)
    assert found.u == pytest.approx(across * width)
    assert found.y == pytest.approx((z - 25) / math.cos(lean))
