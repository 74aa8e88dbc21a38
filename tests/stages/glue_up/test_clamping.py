"""Clamping blocks against the blank they stand on."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.torus import Blank, flat_normals, least_apothem, least_wood
from geometry.bodies.tube import tube_of
from jigs.stages.glue_up.layout import ClampBlocks, ring_perimeter, torus_perimeter


@st.composite
def blocks(draw: st.DrawFn) -> ClampBlocks:
    n, apothem = draw(st.sampled_from((6, 8, 10, 12, 16))), draw(st.floats(20.0, 50.0))
    rings = 2 * draw(st.integers(3, 16))
    half_width = apothem / math.cos(math.pi / n) if n % 4 else apothem
    centre = half_width + draw(st.floats(8.0, 60.0)) / (2 * math.tan(math.pi / rings))
    return ClampBlocks(
        Blank(rings, n, apothem, 5.0, centre), draw(st.floats(15.0, 40.0)), draw(st.floats(1.0, 4.0))
    )


def ring_flat(blank: Blank, half_width: float) -> shapely.Polygon:
    """A wedge ring's top flat, seen along the axis, one face on the +x axis."""
    w, c = blank.half_wedge, math.cos(blank.half_wedge)
    radii = ((blank.centre - half_width) / c, (blank.centre + half_width) / c)
    corners = [(r * math.cos(a), r * math.sin(a)) for r, a in ((radii[0], 0), (radii[1], 0))]
    return shapely.Polygon([*corners, *((r * math.cos(2 * w), r * math.sin(2 * w)) for r in reversed(radii))])


def normal(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    return np.array((b[1] - a[1], a[0] - b[0])) / np.hypot(*(b - a))


@given(blocks())
def test_a_flats_block_stands_wholly_on_one_rings_flat(block: ClampBlocks) -> None:
    if block.flat_far <= block.set_back:
        return
    shape = shapely.Polygon(block.flat_corners)
    assert ring_flat(block.blank, block.blank.flat_width / 2).buffer(1e-6).covers(shape)


@given(blocks())
def test_clamp_faces_are_parallel_to_the_joint(block: ClampBlocks) -> None:
    flat, rim = np.array(block.flat_corners), np.array(block.rim_corners)
    assert abs(normal(flat[2], flat[3])[0]) < 1e-12
    assert abs(normal(rim[-1], rim[0])[0]) < 1e-12


@given(blocks())
def test_the_pull_line_meets_the_clamps_face_and_the_joints_middle(block: ClampBlocks) -> None:
    flat = np.array(block.flat_corners)
    assert flat[3, 0] - 1e-9 <= block.pull_radius <= flat[2, 0] + 1e-9
    middle = (block.blank.inner_radius + block.blank.outer_radius) / 2 / math.cos(block.blank.half_wedge)
    assert block.pull_radius == pytest.approx(middle)


@given(blocks())
def test_a_rim_blocks_foot_lies_on_the_outer_flat_and_its_body_outside(block: ClampBlocks) -> None:
    w, rim = block.blank.half_wedge, np.array(block.rim_corners)
    out = rim @ (math.cos(w), math.sin(w)) - block.blank.outer_radius
    assert out[:2] == pytest.approx(0, abs=1e-9)
    assert (out[2:] > 0).all()
    foot, face = rim[1] - rim[0], rim[-1] - rim[0]
    angle = math.acos(foot @ face / np.hypot(*foot) / np.hypot(*face))
    assert angle == pytest.approx(block.face_angle)


@given(blocks())
def test_bands_go_round_what_they_close(block: ClampBlocks) -> None:
    blank = block.blank
    angles = np.arange(blank.segments + 1) * 2 * blank.mitre
    ring = np.column_stack((np.cos(angles), np.sin(angles))) * blank.apothem / math.cos(blank.mitre)
    assert ring_perimeter(blank) == pytest.approx(shapely.LineString(ring).length)
    angles = np.arange(blank.wedge_rings + 1) * 2 * blank.half_wedge
    rim = np.column_stack((np.cos(angles), np.sin(angles))) * blank.swing_radius
    assert torus_perimeter(blank) == pytest.approx(shapely.LineString(rim).length)


def test_a_foot_is_as_far_from_the_form_as_the_flat_that_is_nearest() -> None:
    major, tube, allowance, n = 100.0, 30.0, 3.0, 8
    apothem, centre = least_apothem(major, tube_of(tube + allowance), 16, n)
    apothem += 0.5
    phi, theta = np.meshgrid(np.linspace(-np.pi / 16, np.pi / 16, 101), np.linspace(0, 2 * np.pi, 721))
    x = (major + tube * np.cos(theta)) * np.cos(phi) - centre
    z = tube * np.sin(theta)
    near = apothem - max(float((x * math.cos(a) + z * math.sin(a)).max()) for a in flat_normals(n))
    assert least_wood(Blank(16, n, apothem, 5.0, centre), major, tube_of(tube)) == pytest.approx(
        near, abs=0.01
    )
