"""A profile from a DXF drawing follows what was drawn."""

import math
import subprocess
import sys
from itertools import pairwise

import numpy as np
import pytest
from ezdxf.math import BSpline, ConstructionArc
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import parse_path

from geometry.curves.biarcs import biarcs
from geometry.plane.profile import Profile
from jigs.asked.drawn.bezier import bspline_pieces, elliptic_pieces
from jigs.asked.drawn.chain import backwards, joined
from jigs.asked.drawn.profile import TOLERANCE
from jigs.words.lengths import fine_length
from tests.jigs.drawn.drawings import (
    CUP,
    CURVE,
    ROOT,
    assert_follows,
    assert_is_the_cup,
    cup,
    dxf,
    farthest,
    read,
    sampled,
    svg,
)
from tests.jigs.tumbler_drawing import FILE, LAYER, tumbler, tumbler_text


def test_a_polyline_is_read_exactly_with_its_arc(tmp_path):
    drawn = read(dxf(tmp_path, cup()))
    assert_is_the_cup(drawn)
    assert drawn.said[0].startswith("Axis at x = 0.0 mm of the drawing: foot 60.0 mm across")
    assert drawn.said[1:] == (
        'Read from drawing.dxf, layer "outside": 1 LWPOLYLINE.',
        "Its unit: mm (the drawing's $INSUNITS is 4).",
    )


@pytest.mark.parametrize(("code", "mm"), [(1, 25.4), (2, 304.8), (5, 10.0), (6, 1000.0), (14, 100.0)])
def test_other_units_come_to_mm(tmp_path, code, mm):
    assert_is_the_cup(read(dxf(tmp_path, cup(CUP / (mm, mm, 1.0)), units=code)))


def test_an_old_polyline_with_bulges_is_read(tmp_path):
    def draw(space):
        space.add_polyline2d(CUP.tolist(), format="xyb")

    assert_is_the_cup(read(dxf(tmp_path, draw)))


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 0, 1), (1, 2, 0), (2, 1, 0)])
@pytest.mark.parametrize("turned", [(), (0,), (2,), (0, 2)])
def test_lines_and_arcs_chain_in_any_order_and_direction(tmp_path, order, turned):
    def line(space, k):
        a, b = CUP[k, :2], CUP[k + 1, :2]
        space.add_line(*((b, a) if k in turned else (a, b)))

    def draw(space):
        for k in order:
            if k == 1:
                space.add_arc((40.0, 35.0), 10.0, -90.0, 0.0)
            else:
                line(space, k)

    assert_is_the_cup(read(dxf(tmp_path, draw)))


def test_a_chain_may_hold_a_polyline_and_a_spline(tmp_path):
    def draw(space):
        space.add_lwpolyline(CUP, format="xyb")
        space.add_spline().control_points = [(50, 60, 0), (50, 70, 0), (55, 80, 0), (60, 85, 0)]
        space[-1].dxf.degree, space[-1].knots = 3, [0, 0, 0, 0, 1, 1, 1, 1]

    rows = read(dxf(tmp_path, draw)).rows
    np.testing.assert_allclose(rows[:3], CUP[:3], atol=1e-6)
    np.testing.assert_allclose(rows[3, :2], CUP[3, :2], atol=1e-6)
    np.testing.assert_allclose(rows[-1], (60.0, 85.0, 0.0), atol=1e-9)


def test_ends_a_little_apart_are_joined_half_way_and_said(tmp_path):
    def draw(space):
        space.add_line((30, 0), (30, 20))
        space.add_line((30.008, 20), (40, 50))

    drawn = read(dxf(tmp_path, draw))
    np.testing.assert_allclose(drawn.rows[1, :2], (30.004, 20.0), atol=1e-9)
    assert "Ends up to 0.008 mm apart were joined half-way." in drawn.said


def test_edges_without_length_are_dropped(tmp_path):
    rows = np.vstack((CUP[:1], CUP[:2], CUP[1:], CUP[-1:]))
    rows[0, 2] = 0.7
    assert_is_the_cup(read(dxf(tmp_path, cup(rows))))


def test_what_is_drawn_from_below_is_read_as_it_looks(tmp_path):
    below = CUP * (-1.0, 1.0, -1.0)

    def draw(space):
        space.add_lwpolyline(below[:2], format="xyb", dxfattribs={"extrusion": (0, 0, -1)})
        space.add_arc((-40.0, 35.0), 10.0, 180.0, 270.0, dxfattribs={"extrusion": (0, 0, -1)})
        space.add_line((50, 35), (50, 60))

    assert_is_the_cup(read(dxf(tmp_path, draw)))


@pytest.mark.parametrize("mm", [1.0, 25.4])
def test_a_spline_becomes_arcs_within_the_tolerance(tmp_path, mm):
    curve = BSpline([(x / mm, y / mm) for x, y in CURVE], order=4)

    def draw(space):
        space.add_spline().apply_construction_tool(curve)

    drawn = read(dxf(tmp_path, draw, units=4 if mm == 1.0 else 1))
    points = np.array([p.xyz[:2] for p in curve.approximate(1500)]) * mm - (0.0, 5.0)
    assert_follows(drawn, points)
    np.testing.assert_allclose(drawn.rows[[0, -1], :2], points[[0, -1]], atol=1e-9)
    within = fine_length(drawn.within, "mm" if mm == 1.0 else "in")
    assert f"Its curves became arcs, at most {within} from what is drawn." in drawn.said


def test_a_weighted_spline_that_is_a_circle_comes_out_round(tmp_path):
    def draw(space):
        space.add_spline().apply_construction_tool(BSpline.from_arc(ConstructionArc((20, 40), 40, -80, 80)))

    rows = read(dxf(tmp_path, draw)).rows
    centre = (20.0, 40.0 * math.sin(math.radians(80.0)))
    np.testing.assert_allclose(np.hypot(*(sampled(rows) - centre).T), 40.0, atol=TOLERANCE)


def test_a_spline_through_fit_points_runs_through_them(tmp_path):
    def draw(space):
        space.add_spline([(x, y, 0) for x, y in CURVE])

    drawn = read(dxf(tmp_path, draw))
    assert farthest(np.array(CURVE) - (0.0, 5.0), sampled(drawn.rows)) <= TOLERANCE + 1e-4


def test_a_spline_with_a_kink_keeps_it(tmp_path):
    curve = BSpline(
        [(30, 0), (35, 10), (40, 15), (45, 20), (45, 30), (42, 40), (40, 50)],
        order=4,
        knots=[0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2],
    )

    def draw(space):
        space.add_spline().apply_construction_tool(curve)

    drawn = read(dxf(tmp_path, draw))
    assert np.hypot(*(drawn.rows[:, :2] - (45.0, 20.0)).T).min() < 1e-9
    assert_follows(drawn, np.array([p.xyz[:2] for p in curve.approximate(1500)]))


def test_part_of_an_ellipse_is_followed(tmp_path):
    def draw(space):
        space.add_ellipse((10, 50), (0, -50), 0.8, 0.2, math.pi / 2)

    drawn = read(dxf(tmp_path, draw))
    t = np.linspace(0.2, math.pi / 2, 4000)
    points = np.column_stack((10 + 40 * np.sin(t), -50 * np.cos(t) + 50 * math.cos(0.2)))
    assert_follows(drawn, points)


def test_the_example_drawing_is_the_one_the_script_writes():
    assert FILE.read_text("utf-8") == tumbler_text()


def test_the_example_drawing_is_read(tmp_path):
    drawn = read(FILE, LAYER)
    assert_follows(drawn, np.array([p.xyz[:2] for p in tumbler().approximate(1500)]) * 25.4)
    profile = Profile(drawn.rows)
    assert profile.fold() is None
    assert profile.radii(0.0, profile.top)[1] * 2.0 == pytest.approx(4.494 * 25.4, abs=0.02)
    hollow = min(edge.radius for edge in profile.edges() if edge.bulge > 0.0)
    assert hollow > 0.8 * 25.4  # on the wall's side: a wall of any use fits inside


# Stood on its foot


def test_a_profile_left_of_the_axis_is_mirrored(tmp_path):
    drawn = read(dxf(tmp_path, cup(CUP * (-1.0, 1.0, -1.0))))
    assert_is_the_cup(drawn)
    assert drawn.said[-1] == "Mirrored: it was drawn left of the axis."


def test_a_profile_from_the_rim_down_is_reversed(tmp_path):
    drawn = read(dxf(tmp_path, cup(backwards(CUP))))
    assert_is_the_cup(drawn)
    assert drawn.said[-1] == "Reversed: it was drawn from the rim down."


@pytest.mark.parametrize(("lift", "said"), [(12.7, "down by 1/2 in"), (-25.4, "up by 1 in")])
def test_the_foot_comes_to_height_0(tmp_path, lift, said):
    rows = np.add(CUP, (0.0, lift, 0.0)) / (25.4, 25.4, 1.0)
    drawn = read(dxf(tmp_path, cup(rows), units=1))
    assert_is_the_cup(drawn)
    assert drawn.said[-1] == f"Moved {said}, so that its foot stands at height 0."


def test_the_axis_may_stand_elsewhere(tmp_path):
    rows = np.add(CUP, (254.0, 0.0, 0.0)) / (25.4, 25.4, 1.0)
    drawn = read(dxf(tmp_path, cup(rows), units=1), axis=10.0)
    assert_is_the_cup(drawn)
    assert drawn.said[0].startswith("Axis at x = 10 in of the drawing: foot ")
    right = read(dxf(tmp_path, cup(CUP * (-1, 1, -1) + (100.0, 0, 0))), axis=100.0)
    assert_is_the_cup(right)


@given(
    cuts=st.lists(st.integers(1, 8), unique=True, max_size=4),
    seed=st.randoms(use_true_random=False),
    turn=st.lists(st.booleans(), min_size=5, max_size=5),
)
def test_a_chain_cut_and_shuffled_comes_back_whole(cuts, seed, turn):
    rows = np.column_stack((30.0 + np.arange(10.0) ** 1.3, np.arange(10.0) * 7.0, np.linspace(-0.4, 0.5, 10)))
    rows[-1, 2] = 0.0
    ends = [0, *sorted(cuts), 9]
    pieces = [rows[a : b + 1] * 1.0 for a, b in pairwise(ends)]
    for piece in pieces:
        piece[-1, 2] = 0.0
    pieces = [backwards(piece) if turned else piece for piece, turned in zip(pieces, turn, strict=False)]
    seed.shuffle(pieces)
    whole, gap = joined(pieces)
    np.testing.assert_allclose(whole if whole[0, 1] < whole[-1, 1] else backwards(whole), rows, atol=1e-12)
    assert gap == 0.0


@given(seed=st.integers(0, 10**6), degree=st.integers(1, 5), clamped=st.booleans(), weighted=st.booleans())
def test_bezier_pieces_are_the_b_spline(seed, degree, clamped, weighted):
    """Against Cox and de Boor's basis functions, summed."""
    random = np.random.default_rng(seed)
    count = degree + 1 + int(random.integers(0, 5))
    control = random.uniform(-50.0, 50.0, (count, 2))
    weights = random.uniform(0.5, 2.0, count) if weighted else np.ones(count)
    knots = np.sort(random.uniform(0.0, 10.0, count + degree + 1))
    if clamped:
        knots[: degree + 1], knots[-degree - 1 :] = knots[0], knots[-1]
    homogeneous = np.column_stack((control * weights[:, None], weights))
    pieces = bspline_pieces(homogeneous, knots, degree)
    breaks = np.unique(knots[degree : count + 1])
    assert len(pieces) == len(breaks) - 1
    for piece, a, b in zip(pieces, breaks, breaks[1:], strict=False):
        t = np.array((0.1, 0.5, 0.9))
        basis = (
            np.array([[cox(knots, i, degree, a + (b - a) * s) for i in range(count)] for s in t]) * weights
        )
        expected = basis @ control / basis.sum(axis=1)[:, None]
        np.testing.assert_allclose(piece.at(t), expected, atol=1e-8)
        step = 1e-5
        slope = (piece.at(t + step) - piece.at(t - step)) / (2.0 * step)
        np.testing.assert_allclose(piece.derivative(t), slope, rtol=1e-4, atol=1e-3)


def cox(knots, i, degree, u):
    if degree == 0:
        return float(knots[i] <= u < knots[i + 1])
    total = 0.0
    if knots[i + degree] > knots[i]:
        total += (u - knots[i]) / (knots[i + degree] - knots[i]) * cox(knots, i, degree - 1, u)
    if knots[i + degree + 1] > knots[i + 1]:
        above = knots[i + degree + 1]
        total += (above - u) / (above - knots[i + 1]) * cox(knots, i + 1, degree - 1, u)
    return total


@given(start=st.floats(-7, 7), sweep=st.floats(0.01, 6.2), down=st.booleans())
def test_elliptic_pieces_lie_on_the_ellipse(start, sweep, down):
    centre, p, q = np.array((3.0, 4.0)), np.array((5.0, 1.0)), np.array((-1.0, 2.0))
    sweep = -sweep if down else sweep
    pieces = elliptic_pieces(centre, p, q, start, sweep)
    points = np.vstack([piece.at(np.linspace(0.0, 1.0, 9)) for piece in pieces])
    cos, sin = np.linalg.solve(np.column_stack((p, q)), (points - centre).T)
    np.testing.assert_allclose(cos**2 + sin**2, 1.0, atol=1e-12)
    turned = np.unwrap(np.arctan2(sin, cos))
    assert turned[-1] - turned[0] == pytest.approx(sweep, abs=1e-9)


def test_a_bezier_whose_handle_lies_on_its_end_has_a_direction_there(tmp_path):
    path = svg(tmp_path, '<path d="M 30 100 C 30 100 60 60 50 20"/>')
    drawn = read(path)
    t = np.linspace(0.0, 1.0, 1500)
    curve = np.array(
        [(z.real, 100.0 - z.imag) for z in map(parse_path("M 30 100 C 30 100 60 60 50 20").point, t)]
    )
    assert_follows(drawn, curve)


# What a DXF is refused for


def test_no_drawing_library_is_loaded_before_a_drawing_is_read():
    code = "import sys, jigs.asked.drawn.profile; sys.exit('ezdxf' in sys.modules or 'svgelements' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60).returncode == 0


def test_the_tolerance_is_kept_by_the_arcs_themselves():
    """The reader hands curves on as they are: what it states is what the arcs measure."""
    piece = bspline_pieces(
        np.array(((30, 0, 1), (60, 30, 1), (30, 60, 1), (50, 90, 1.0))), np.repeat((0.0, 1.0), 4), 3
    )
    rows = biarcs(piece[0], TOLERANCE)
    assert farthest(sampled(rows, 15), piece[0].at(np.linspace(0, 1, 4000))) <= TOLERANCE + 1e-4
