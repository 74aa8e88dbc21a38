"""Strips between the segments of a ring, against pieces laid one after another in the plane."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import shapely
import shapely.affinity as moved
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.sawing import WedgeRingCut, wedge_ring_cut
from geometry.bodies.places import torus_grain, torus_places
from geometry.bodies.segment_volumes import blank_shares, blank_strip_shares, torus_shares, torus_strip_shares
from geometry.bodies.torus import Blank, least_apothem, segment_cut
from geometry.bodies.tube import tube_of
from geometry.measuring.ring_sizes import centre_radii
from geometry.measuring.wedge_angle import face_taper
from geometry.plane.edges import FloatArray
from jigs.stages.glue_up.layout import torus_perimeter
from tests.geometry.tori_blanks import segments, wedge_rings

SIDES = (-1, 1)


@st.composite
def stripped(draw: st.DrawFn) -> Blank:
    """A blank whose strips leave something of each segment's inner edge."""
    n, apothem = draw(segments), draw(st.floats(15.0, 60.0))
    core = draw(st.floats(0.2, 0.7)) * apothem
    most = 2 * core * math.sin(math.pi / n)
    strips = draw(st.floats(0.05, 0.9)) * most
    return Blank(draw(wedge_rings), n, apothem, core, 3 * apothem, strips)


def segment(outer: float, inner: float, apothem: float, depth: float) -> shapely.Polygon:
    """With its outer edge up."""
    low = apothem - depth
    return shapely.Polygon([(-inner / 2, low), (inner / 2, low), (outer / 2, apothem), (-outer / 2, apothem)])


def laid(
    outer: float, inner: float, apothem: float, depth: float, gaps: Sequence[float]
) -> list[shapely.Polygon]:
    """Segments one after another, clockwise, each turned to lie along the last one's end, parted from it by a gap."""
    one = segment(outer, inner, apothem, depth)
    mitre = math.atan((outer - inner) / 2 / depth)
    row = [one]
    for gap in gaps:
        _, _, corner, _, _ = [np.array(at) for at in row[-1].exterior.coords]
        low = np.array(row[-1].exterior.coords[1])
        along = (corner - low) / np.hypot(*(corner - low))
        start = corner + gap * np.array((along[1], -along[0]))
        turned = moved.rotate(one, -2 * mitre * len(row), origin=(0, 0), use_radians=True)
        at = np.array(turned.exterior.coords[3])
        row.append(moved.translate(turned, *(start - at)))
    return row


def ring_of(blank: Blank, gaps: Sequence[float]) -> list[shapely.Polygon]:
    cut = segment_cut(blank, 50.0, 3.0, 0.0)
    return laid(cut.outer_edge, cut.inner_edge, blank.apothem, cut.depth, gaps)


def polygon(n: int, apothem: float) -> shapely.Polygon:
    """With a flat up."""
    turns = math.pi / 2 + math.pi / n * (1 + 2 * np.arange(n))
    return shapely.Polygon(apothem / math.cos(math.pi / n) * np.column_stack((np.cos(turns), np.sin(turns))))


@given(stripped())
def test_segments_with_parallel_strips_between_them_close_into_the_planned_ring(blank: Blank) -> None:
    n, t = blank.segments, blank.spacer
    row = ring_of(blank, [t] * n)
    assert np.array(row[n].exterior.coords) == pytest.approx(np.array(row[0].exterior.coords), abs=1e-8)
    whole = polygon(n, blank.apothem) - polygon(n, blank.core_apothem)
    wood = shapely.union_all(row[:n])
    assert wood.area == pytest.approx(n * row[0].area)  # none in another
    assert (wood - whole.buffer(1e-6)).area == pytest.approx(0.0, abs=1e-6)
    between = whole - wood
    assert between.area == pytest.approx(n * t * blank.joint_depth)
    turn = math.pi / 2 + blank.mitre
    far = 2 * blank.apothem * np.array((math.cos(turn), math.sin(turn)))
    slab = shapely.LineString([(0, 0), far]).buffer(t / 2, cap_style="flat")
    assert (slab & wood).area == pytest.approx(0.0, abs=1e-6)  # the strip's faces lie on the segments' ends


@given(stripped(), st.integers(0, 2**32 - 1))
def test_a_point_is_in_the_strip_whose_slab_holds_it(blank: Blank, seed: int) -> None:
    rng = np.random.default_rng(seed)
    radius = rng.uniform(blank.core_apothem / math.cos(blank.mitre), blank.apothem, 400)
    angle = rng.uniform(-math.pi, math.pi, 400)
    out, up = radius * np.cos(angle), radius * np.sin(angle)
    points = np.column_stack((blank.centre + out, np.zeros(400), up))
    found = torus_places(points, blank)
    joints = -math.pi / 2 + blank.mitre * (1 + 2 * np.arange(blank.segments))
    away = np.abs(np.outer(out, np.sin(joints)) - np.outer(up, np.cos(joints)))
    before = np.outer(out, np.cos(joints)) + np.outer(up, np.sin(joints)) > 0
    near = np.where(before, away, np.inf)
    held = near.min(axis=1) < blank.spacer / 2
    clear = np.abs(near.min(axis=1) - blank.spacer / 2) > 1e-9
    assert ((found.segment < 0) == held)[clear].all()
    assert (-1 - found.segment == near.argmin(axis=1))[held & clear].all()
    assert np.abs(found.u)[held] == pytest.approx(near.min(axis=1)[held])
    along = torus_grain(found, blank)[held & clear]
    moved_on = torus_places(points[held & clear] + 1e-4 * along, blank)
    assert moved_on.u == pytest.approx(found.u[held & clear], abs=1e-9)
    assert found.v[held & clear] - moved_on.v == pytest.approx(1e-4, abs=1e-9)


@given(stripped())
def test_segments_and_strips_are_all_of_the_blank(blank: Blank) -> None:
    shares, strips = blank_shares(blank), blank_strip_shares(blank)
    assert blank.wedge_rings * (shares.sum() + strips.sum()) == pytest.approx(blank.volume)
    length = 2 * blank.wedge_rings * math.tan(blank.half_wedge) * blank.centre
    planned = length * blank.segments * blank.spacer * blank.joint_depth
    assert blank.wedge_rings * strips.sum() == pytest.approx(planned, rel=0.02)


def test_what_is_left_of_strips_after_turning_is_what_points_in_the_torus_find():
    major, tube = 98.0, 27.0
    apothem, centre = least_apothem(major, tube_of(tube + 3.0), 18, 10)
    blank = Blank(18, 10, apothem, 10.0, centre, 2.0)
    strips, whole = (of(major, tube_of(tube), blank) for of in (torus_strip_shares, torus_shares))
    points, each = inside_torus(major, tube, 400_000)
    found = torus_places(points, blank)
    strip = found.segment < 0
    deep = np.where(strip, blank.joint_depth, blank.apothem - blank.core_apothem)
    wood = found.v < deep
    for k in range(10):
        assert each * (wood & (found.segment == -1 - k)).sum() / 18 == pytest.approx(strips[k], rel=0.1)
        assert each * (wood & (found.segment == k)).sum() / 18 == pytest.approx(whole[k], rel=0.03)


def inside_torus(major: float, tube: float, count: int) -> tuple[FloatArray, float]:
    """Points (m, 3), and the volume that each stands for."""
    rng = np.random.default_rng(5)
    x, y = rng.uniform(-major - tube, major + tube, (2, count))
    z = rng.uniform(-tube, tube, count)
    kept = (np.hypot(x, y) - major) ** 2 + z**2 < tube**2
    box = (2 * (major + tube)) ** 2 * 2 * tube
    return np.column_stack((x, y, z))[kept], box / count


@st.composite
def parted(draw: st.DrawFn) -> Blank:
    """A blank with strips between its rings that leave a thin edge."""
    n, apothem = draw(segments), draw(st.floats(15.0, 60.0))
    rings = 2 * draw(st.integers(4, 15))
    blank = Blank(rings, n, apothem, 0.4 * apothem, draw(st.floats(1.6, 6.0)) * apothem)
    return replace(
        blank, ring_spacer=draw(st.floats(0.05, 0.7)) * blank.thin_edge * math.cos(blank.half_wedge)
    )


def rings_round(cut: WedgeRingCut, gaps: Sequence[float]) -> list[shapely.Polygon]:
    """Wedge rings as they are cut, from above: with their outer edge first up, on the axis of the first."""
    deep = 2 * cut.half_width
    return laid(cut.thick_edge, cut.thin_edge, cut.outer_radius, deep, gaps)


@given(parted())
def test_rings_with_strips_between_them_close_round_the_planned_axis(blank: Blank) -> None:
    """The axis is where the outer edges' middles are all equally far from: R_p + A_x, as without strips."""
    cut = wedge_ring_cut(blank, 4.0, 0.0)
    row = rings_round(cut, [blank.ring_spacer] * blank.wedge_rings)
    rings = row[: blank.wedge_rings]
    assert np.array(row[-1].exterior.coords) == pytest.approx(np.array(row[0].exterior.coords), abs=1e-7)
    rim = np.array([np.mean(one.exterior.coords[2:4], axis=0) for one in rings])
    axis = rim.mean(axis=0)
    assert np.hypot(*(rim - axis).T) == pytest.approx(blank.outer_radius)
    hole = np.array([np.mean(one.exterior.coords[0:2], axis=0) for one in rings])
    assert np.hypot(*(hole - axis).T) == pytest.approx(blank.inner_radius)
    assert cut.outer_radius == pytest.approx(blank.alone.outer_radius)
    whole = shapely.union_all(rings)
    assert torus_perimeter(blank) == pytest.approx(whole.convex_hull.length), "straight across each strip"
    assert whole.area == pytest.approx(blank.wedge_rings * rings[0].area)


@given(parted(), st.sampled_from((0.1, 0.3)))
def test_sanded_and_parted_rings_are_as_planned_whatever_comes_off(blank: Blank, sanding: float) -> None:
    """`sanding` off each face, square to it, leaves the thick edge that the plan glues."""
    cut = wedge_ring_cut(blank, 4.0, sanding)
    off = 2 * sanding / math.cos(blank.half_wedge)
    assert cut.thick_edge - off == pytest.approx(blank.thick_edge)
    assert cut.thin_edge - off == pytest.approx(blank.thin_edge)


@given(parted(), st.floats(-0.2, 0.2))
def test_ring_strips_that_are_all_out_move_every_ring_by_as_much(blank: Blank, error: float) -> None:
    thicker = replace(blank, ring_spacer=blank.ring_spacer + error)
    row = rings_round(wedge_ring_cut(blank, 4.0, 0.0), [thicker.ring_spacer] * blank.wedge_rings)
    rim = np.array([np.mean(one.exterior.coords[2:4], axis=0) for one in row[:-1]])
    away = np.hypot(*(rim - rim.mean(axis=0)).T)
    assert away - blank.outer_radius == pytest.approx(error / 2 / math.sin(blank.half_wedge), abs=1e-7)


@given(parted(), st.integers(0, 2**32 - 1))
def test_a_point_is_between_two_rings_where_the_slab_about_their_joint_holds_it(
    blank: Blank, seed: int
) -> None:
    rng = np.random.default_rng(seed)
    radius, phi = (
        rng.uniform(blank.inner_radius, blank.outer_radius, 300),
        rng.uniform(-math.pi, math.pi, 300),
    )
    points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), 0 * phi))
    joints = blank.half_wedge * (1 + 2 * np.arange(blank.wedge_rings))
    turns = phi[:, None] - joints
    off = np.where(np.cos(turns) > 0, np.abs(radius[:, None] * np.sin(turns)), np.inf).min(axis=1)
    clear = np.abs(off - blank.ring_spacer / 2) > 1e-9
    places = torus_places(points, blank)
    held = off < blank.ring_spacer / 2
    assert ((places.segment == blank.segments) == held)[clear].all()
    before = np.cos(turns).argmax(axis=1)  # joint k follows ring k
    assert (places.ring == before)[clear & held].all()


def test_rings_that_are_measured_as_planned_have_the_planned_middle():
    blank = Blank(18, 10, 30.5, 10.0, 98.0, ring_spacer=1.2)
    thick = np.full(18, blank.thick_edge)
    assert centre_radii(thick, np.full(18, blank.half_width - blank.parted)) == pytest.approx(blank.centre)
    tapered = face_taper(blank, -0.002)
    assert tapered.centre == pytest.approx(blank.centre, abs=2 * tapered.at_rim / math.tan(blank.half_wedge))
    assert face_taper(blank, 0.0).centre == blank.centre
