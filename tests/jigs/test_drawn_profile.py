"""Profiles read from drawings: DXF as ezdxf writes it, SVG as text."""

import math
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.math import BSpline, ConstructionArc, closed_uniform_bspline
from hypothesis import given, settings
from hypothesis import strategies as st
from svgpathtools import parse_path

from geometry.arcs import points_along
from geometry.biarcs import biarcs
from geometry.profile import Profile
from jigs.drawn.bezier import bspline_pieces, elliptic_pieces
from jigs.drawn.chain import backwards, joined
from jigs.drawn_profile import TOLERANCE, read_drawing
from jigs.wrong import Wrong
from tests.jigs.tumbler_drawing import FILE, LAYER, tumbler, tumbler_text

ROOT = Path(__file__).parents[2]
# A foot of 60 mm, a straight side, a quarter circle outwards and a straight neck: x, y, bulge.
CUP = np.array(((30.0, 0.0, 0.0), (40.0, 25.0, math.tan(math.pi / 8)), (50.0, 35.0, 0.0), (50.0, 60.0, 0.0)))
CURVE = ((30.0, 5.0), (45.0, 20.0), (62.0, 45.0), (40.0, 70.0), (44.0, 95.0))


def dxf(folder, draw, units=4, name="drawing.dxf", version="R2010"):
    document = ezdxf.new(version, units=units)
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    document.saveas(folder / name)
    return folder / name


def cup(rows=CUP, layer="outside", **attributes):
    """Draws the cup as one LWPOLYLINE."""
    return lambda space: space.add_lwpolyline(
        rows, format="xyb", dxfattribs={"layer": layer, **attributes}, close=False
    )


def svg(folder, body, size='width="200mm" height="200mm" viewBox="0 0 200 200"', name="drawing.svg"):
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"'
    (folder / name).write_text(f"<svg {spaces} {size}>{body}</svg>", "utf-8")
    return folder / name


def read(path, layer=None, unit=None, axis=0.0):
    return read_drawing(path, layer, unit, axis)


def refusal(path, layer=None, unit=None, axis=0.0):
    with pytest.raises(Wrong) as caught:
        read_drawing(path, layer, unit, axis)
    return caught.value


def sampled(rows, count=60):
    """Points on every edge of the chain."""
    t = np.linspace(0.0, 1.0, count)
    sweeps = 4.0 * np.arctan(rows[:-1, 2])[:, None]
    return points_along(rows[:-1, None, :2], rows[1:, None, :2], sweeps, t).reshape(-1, 2)


def farthest(points, line):
    """The largest distance from any of the points to a polyline through dense points."""
    a, b = line[:-1], line[1:]
    d = b - a
    length = np.maximum((d**2).sum(axis=1), 1e-30)
    worst = 0.0
    for p in points:
        t = np.clip(((p - a) * d).sum(axis=1) / length, 0.0, 1.0)
        worst = max(worst, float(np.hypot(*(a + t[:, None] * d - p).T).min()))
    return worst


def assert_follows(drawn, points):
    """Both ways, the rows lie within the tolerance of the dense points (whose own chords take the last micron)."""
    assert farthest(sampled(drawn.rows, 11), points) <= TOLERANCE + 1e-4
    assert farthest(points[::13], sampled(drawn.rows)) <= TOLERANCE + 1e-4
    assert 0.0 < drawn.within <= TOLERANCE


def assert_is_the_cup(drawn):
    np.testing.assert_allclose(drawn.rows, CUP, atol=1e-6)
    assert drawn.within == 0.0


# What a DXF may hold


def test_a_polyline_is_read_exactly_with_its_arc(tmp_path):
    drawn = read(dxf(tmp_path, cup()))
    assert_is_the_cup(drawn)
    assert drawn.said == (
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
    assert f"Its curves became arcs, at most {drawn.within:.4f} mm from what is drawn." in drawn.said


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
    assert drawn.said[-1] == "The axis stands at x = 10 in of the drawing."
    right = read(dxf(tmp_path, cup(CUP * (-1, 1, -1) + (100.0, 0, 0))), axis=100.0)
    assert_is_the_cup(right)


@settings(max_examples=40, deadline=None)
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


@settings(max_examples=40, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    degree=st.integers(1, 5),
    clamped=st.booleans(),
    weighted=st.booleans(),
)
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
@settings(max_examples=40, deadline=None)
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


def test_a_drawing_without_a_unit_needs_the_jobs(tmp_path):
    path = dxf(tmp_path, cup(CUP / (25.4, 25.4, 1.0)), units=0)
    wrong = refusal(path)
    assert wrong.code == "no-drawing-unit"
    assert wrong.message == "the drawing does not say its unit: its $INSUNITS is 0 or missing"
    assert 'unit = "mm" or unit = "in"' in wrong.remedy
    drawn = read(path, unit="in")
    assert_is_the_cup(drawn)
    assert "Its unit: in (from the job; the drawing names none)." in drawn.said


def test_an_old_drawing_without_the_header_line_has_no_unit(tmp_path):
    path = tmp_path / "old.dxf"
    path.write_text(
        "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n30\n20\n0\n11\n40\n21\n50\n0\nENDSEC\n0\nEOF\n"
    )
    assert refusal(path).code == "no-drawing-unit"
    np.testing.assert_allclose(read(path, unit="mm").rows, ((30, 0, 0), (40, 50, 0)))


def test_units_that_disagree_are_refused(tmp_path):
    wrong = refusal(dxf(tmp_path, cup(), units=1), unit="mm")
    assert wrong.code == "unit-disagrees"
    assert wrong.message == "the unit is in ($INSUNITS 1) by the drawing and mm by the job"
    assert_is_the_cup(read(dxf(tmp_path, cup(), units=4), unit="mm"))


def test_a_unit_no_one_turns_by_is_refused(tmp_path):
    wrong = refusal(dxf(tmp_path, cup(), units=7))
    assert wrong.code == "no-drawing-unit"
    assert "its $INSUNITS is 7" in wrong.message


def test_several_layers_are_refused_and_listed(tmp_path):
    def draw(space):
        cup(layer="inside")(space)
        cup(layer="outside")(space)

    path = dxf(tmp_path, draw)
    wrong = refusal(path)
    assert wrong.code == "several-layers"
    assert wrong.message == 'lines stand on 2 layers: "inside", "outside"'
    assert_is_the_cup(read(path, "OUTSIDE"))  # names of layers have no case in a DXF
    wrong = refusal(path, "rim")
    assert wrong.code == "no-profile"
    assert wrong.message == 'there is nothing on a layer "rim"; lines stand on "inside", "outside"'


def test_other_things_on_the_layer_are_left_out_and_said(tmp_path):
    def draw(space):
        cup()(space)
        space.add_text("vase", dxfattribs={"layer": "outside"})
        space.add_text("title", dxfattribs={"layer": "frame"})

    drawn = read(dxf(tmp_path, draw))
    assert_is_the_cup(drawn)
    assert drawn.said[-1] == "Left out on that layer: 1 TEXT."


def test_a_drawing_without_lines_is_refused_with_what_it_holds(tmp_path):
    def draw(space):
        space.add_text("vase")
        space.add_point((1, 2))
        space.add_point((1, 3))

    wrong = refusal(dxf(tmp_path, draw))
    assert wrong.code == "no-profile"
    assert wrong.message == "there is no line in the drawing, only 2 POINT, 1 TEXT"
    assert refusal(dxf(tmp_path, lambda space: None)).message == "there is nothing in the drawing"


def rectangle(space):
    space.add_lwpolyline([(10, 0), (20, 0), (20, 30)], close=True)


def full_arc(space):
    space.add_arc((50, 50), 20, 0, 360)


def three_sides(space):
    for a, b in (((10, 0), (20, 0)), ((20, 30), (20, 0)), ((10, 0), (20, 30))):
        space.add_line(a, b)


def closed_spline(space):
    curve = closed_uniform_bspline([(10, 0), (30, 5), (30, 30), (10, 30)])
    space.add_spline().apply_construction_tool(curve)


def shut_polyline(space):
    space.add_lwpolyline([(10, 0), (20, 0), (20, 30), (10, 0)])


def doubled(space):
    cup()(space)
    cup(backwards(CUP))(space)


@pytest.mark.parametrize("draw", [rectangle, full_arc, three_sides, closed_spline, shut_polyline, doubled])
def test_what_is_closed_is_refused(tmp_path, draw):
    wrong = refusal(dxf(tmp_path, draw))
    assert wrong.code == "closed-profile"
    assert wrong.remedy == "Open it: draw only the outside from foot to rim, each line once"


def test_lines_that_do_not_meet_are_refused_with_the_gap(tmp_path):
    def draw(space):
        space.add_line((30, 0), (30, 20))
        space.add_line((30.5, 20), (40, 50))

    wrong = refusal(dxf(tmp_path, draw))
    assert wrong.code == "parts-apart"
    assert "ends at x 30.00, y 20.00, the nearest other at x 30.50, y 20.00" in wrong.message
    assert "0.500 mm away" in wrong.message


def test_a_chain_that_branches_is_refused(tmp_path):
    def draw(space):
        for end in ((30, 0), (40, 50), (60, 20)):
            space.add_line((30, 20), end)

    wrong = refusal(dxf(tmp_path, draw))
    assert wrong.code == "branching-profile"
    assert "x 30.00, y 20.00" in wrong.message


def tilted(space):
    space.add_line((30, 0, 0), (30, 20, 5))


def sideways(space):
    cup(extrusion=(0, 1, 0))(space)


def in_space(space):
    space.add_polyline3d([(30, 0, 0), (30, 20, 5)])


def spline_in_space(space):
    space.add_spline().apply_construction_tool(
        BSpline([(30, 0, 0), (40, 10, 0), (40, 20, 5), (40, 30, 0)], order=4)
    )


@pytest.mark.parametrize("draw", [tilted, sideways, in_space, spline_in_space])
def test_what_does_not_lie_in_the_plane_is_refused(tmp_path, draw):
    assert refusal(dxf(tmp_path, draw)).code == "not-flat"


def test_a_line_without_length_is_refused(tmp_path):
    wrong = refusal(dxf(tmp_path, lambda space: space.add_line((30, 5), (30, 5))))
    assert wrong.message == "a LINE has no length"


def gapped(space):
    knots = [0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2]
    points = [(30, 0), (31, 5), (32, 10), (33, 15), (40, 20), (41, 25), (42, 30), (43, 35)]
    space.add_spline().apply_construction_tool(BSpline(points, order=4, knots=knots))


def short_of_knots(space):
    curve = space.add_spline()
    curve.control_points, curve.knots, curve.dxf.degree = (
        [(30, 0, 0), (31, 5, 0), (32, 9, 0)],
        [0, 0, 1, 1],
        3,
    )


@pytest.mark.parametrize("draw", [gapped, short_of_knots])
def test_a_damaged_spline_is_refused(tmp_path, draw):
    assert refusal(dxf(tmp_path, draw)).code == "broken-entity"


def test_what_the_reader_mends_in_a_file_is_not_printed(tmp_path):
    whole = tumbler_text().replace("ACDBPLACEHOLDER\n  2\nAcDb", "?\n  0\nTRASH\n  2\nAcDb", 1)
    (tmp_path / "mended.dxf").write_text(whole, "utf-8")
    code = (
        "import sys; from pathlib import Path; from jigs.drawn_profile import read_drawing; "
        "print(read_drawing(Path(sys.argv[1]), None, None, 0.0).said[0])"
    )
    command = [sys.executable, "-c", code, str(tmp_path / "mended.dxf")]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert done.stdout == 'Read from mended.dxf, layer "outside": 1 SPLINE.\n'
    assert done.stderr == ""


def test_a_bulge_without_bounds_is_refused(tmp_path):
    rows = [(30, 0, math.inf), (40, 50, 0)]
    assert (
        refusal(dxf(tmp_path, lambda space: space.add_lwpolyline(rows, format="xyb"))).code == "wild-drawing"
    )


@pytest.mark.parametrize("far", [math.nan, math.inf, 1e9])
def test_a_line_to_nowhere_is_refused(tmp_path, far):
    wrong = refusal(dxf(tmp_path, lambda space: space.add_lwpolyline([(30, 0), (40, far)])))
    assert wrong.code == "wild-drawing"


def test_a_damaged_line_on_another_layer_does_no_harm(tmp_path):
    def draw(space):
        cup()(space)
        gapped(space)

    assert_is_the_cup(read(dxf(tmp_path, draw), "outside"))


def test_a_profile_on_both_sides_of_the_axis_is_refused_with_its_reach(tmp_path):
    rows = CUP - (42.0, 0.0, 0.0)
    wrong = refusal(dxf(tmp_path, cup(rows)))
    assert wrong.code == "crosses-axis"
    assert wrong.message == "the line stands on both sides of the axis, from -12.0 mm to 8.0 mm"


def test_an_arc_that_bulges_over_the_axis_is_refused(tmp_path):
    rows = np.array(((5.0, 0.0, -1.0), (5.0, 20.0, 0.0)))
    wrong = refusal(dxf(tmp_path, cup(rows)))
    assert wrong.message == "the line stands on both sides of the axis, from -5.0 mm to 5.0 mm"


@pytest.mark.parametrize("turned", [False, True])
def test_a_profile_that_runs_downward_is_refused_with_the_height(tmp_path, turned):
    rows = np.array(((30.0, 10.0, 0.0), (50.0, 40.0, 0.0), (55.0, 30.0, 0.0), (60.0, 70.0, 0.0)))
    wrong = refusal(dxf(tmp_path, cup(backwards(rows) if turned else rows)))
    assert wrong.code == "runs-downward"
    assert wrong.message == "the profile runs downward at 30.0 mm above its end at the foot"


def test_an_arc_that_dips_under_the_foot_is_refused(tmp_path):
    rows = np.array(((10.0, 0.0, 1.0), (30.0, 0.0, 0.0), (40.0, 40.0, 0.0)))
    wrong = refusal(dxf(tmp_path, cup(rows)))
    assert wrong.code == "runs-downward"
    assert wrong.message == "the profile runs downward at 0.0 mm above its end at the foot"


@pytest.mark.parametrize(
    "content", [b"", b"no drawing\n", b"0\nSECTION\n2\nHEADER\nx\n", b"\x00\xff\xfe" * 40]
)
@pytest.mark.parametrize("name", ["vase.dxf", "vase.svg"])
def test_a_file_that_is_no_drawing_is_refused(tmp_path, name, content):
    (tmp_path / name).write_bytes(content)
    wrong = refusal(tmp_path / name)
    assert wrong.code == "unreadable-drawing"
    assert wrong.message.startswith(f"{name} cannot be read: ")


@pytest.mark.parametrize("name", ["none.dxf", "none.svg"])
def test_a_missing_file_is_refused(tmp_path, name):
    assert refusal(tmp_path / name).code == "unreadable-drawing"


def test_another_sort_of_file_is_refused(tmp_path):
    wrong = refusal(tmp_path / "vase.pdf")
    assert wrong.code == "not-a-drawing"
    assert wrong.remedy == "Give a .dxf or .svg file"


def test_cut_off_drawings_are_refused_or_read_but_nothing_else(tmp_path):
    whole = tumbler_text().encode()
    for end in np.linspace(0, len(whole) - 20, 60).astype(int):
        (tmp_path / "cut.dxf").write_bytes(whole[:end])
        assert refusal(tmp_path / "cut.dxf").remedy


# SVG: y runs down there


def flipped(rows, height=100.0):
    return rows * (1.0, -1.0, -1.0) + (0.0, height, 0.0)


def svg_cup(attributes=""):
    return f'<path id="cup" {attributes} d="M 30 100 L 40 75 A 10 10 0 0 0 50 65 V 40"/>'


@pytest.mark.parametrize(
    ("size", "mm"),
    [
        ('width="200mm" height="200mm" viewBox="0 0 200 200"', 1.0),
        ('width="200mm" height="100mm" viewBox="-3 7 200 100"', 1.0),
        ('width="20cm" viewBox="0 0 200 200"', 1.0),
        ('width="10in" height="10in" viewBox="0 0 10 10"', 25.4),
        ('width="720pt" height="720pt" viewBox="0 0 720 720"', 25.4 / 72.0),
        ('width="960px" height="960px" viewBox="0 0 960 960"', 25.4 / 96.0),
        ('width="960px" height="960px"', 25.4 / 96.0),
        ('width="100mm" height="100mm"', 25.4 / 96.0),
    ],
)
def test_an_svgs_size_says_its_unit(tmp_path, size, mm):
    body = f'<polyline points="{30 / mm},{100 / mm} {40 / mm},{60 / mm} {50 / mm},{40 / mm}"/>'
    drawn = read(svg(tmp_path, body, size))
    np.testing.assert_allclose(drawn.rows, ((30, 0, 0), (40, 40, 0), (50, 60, 0)), atol=1e-6)
    assert drawn.within == 0.0
    assert f"Its unit: {mm:.6g} mm (from the drawing's width, height and viewBox)." in drawn.said


def test_a_path_is_read_exactly_with_its_arc(tmp_path):
    drawn = read(svg(tmp_path, svg_cup()))
    np.testing.assert_allclose(drawn.rows, CUP, atol=1e-6)
    assert drawn.said[-1].startswith("Moved up by 100.0 mm")  # up in the drawing is less y


@pytest.mark.parametrize("size", ["", 'viewBox="0 0 200 200"', 'width="200" height="200"', 'width="100%"'])
def test_an_svg_without_a_size_needs_the_jobs_unit(tmp_path, size):
    path = svg(tmp_path, svg_cup(), size)
    assert refusal(path).message == "the drawing does not say its unit: its width and height have no unit"
    assert_is_the_cup(read(path, unit="mm"))
    np.testing.assert_allclose(read(path, unit="in").rows, CUP * (25.4, 25.4, 1.0), atol=1e-5)


def test_an_svg_whose_unit_is_not_the_jobs_is_refused(tmp_path):
    wrong = refusal(svg(tmp_path, svg_cup()), unit="in")
    assert wrong.code == "unit-disagrees"
    assert wrong.message == "the unit is 1 mm (width, height and viewBox) by the drawing and in by the job"
    assert_is_the_cup(read(svg(tmp_path, svg_cup()), unit="mm"))


def test_an_svg_with_two_scales_is_refused(tmp_path):
    wrong = refusal(svg(tmp_path, svg_cup(), 'width="200mm" height="100mm" viewBox="0 0 200 200"'))
    assert wrong.code == "two-scales"
    assert "1 mm a unit across and 0.5 mm up" in wrong.message


@pytest.mark.parametrize("name", ["outside", "Outside", "layer1", "cup"])
def test_an_svg_layer_is_named_by_its_label_its_id_or_the_elements(tmp_path, name):
    body = (
        f'<g inkscape:label="outside" id="layer1" inkscape:groupmode="layer">{svg_cup()}<text>vase</text></g>'
        '<g inkscape:label="frame"><rect x="1" y="1" width="150" height="150"/></g>'
    )
    path = svg(tmp_path, body)
    drawn = read(path, name)
    assert_is_the_cup(drawn)
    assert drawn.said[0] == 'Read from drawing.svg, layer "outside": 1 path.'
    wrong = refusal(path)
    assert wrong.message == 'lines stand on 2 layers: "frame", "outside"'
    assert refusal(path, "frame").code == "closed-profile"
    assert (
        refusal(path, "rim").message == 'there is nothing on a layer "rim"; lines stand on "frame", "outside"'
    )


def test_transforms_of_groups_and_elements_apply(tmp_path):
    inner = svg_cup(
        'transform="translate(-50 0) scale(-1 1) translate(-50 0)"'
    )  # mirrors twice with the next
    body = f'<g transform="matrix(0 1 1 0 0 0)"><g transform="matrix(0 -1 1 0 0 0)"><g>{inner}</g></g></g>'
    drawn = read(svg(tmp_path, body))
    x = CUP * (1.0, 1.0, 1.0)
    # path x: -50 - (x - 50) = -x; y kept; then (x, y) -> (y, -x) -> (-x, y)
    np.testing.assert_allclose(drawn.rows, x, atol=1e-6)
    assert drawn.within == 0.0


def test_a_mirrored_arc_keeps_its_side(tmp_path):
    drawn = read(svg(tmp_path, svg_cup('transform="scale(-1 1)"')))
    assert_is_the_cup(drawn)
    assert "Mirrored: it was drawn left of the axis." in drawn.said


@pytest.mark.parametrize(
    ("transform", "matrix"),
    [
        ("", ((1, 0, 0), (0, 1, 0))),
        ("translate(5 7) rotate(8) scale(1.2)", None),
        ("skewX(10) scale(1.1 0.9)", None),
        ("matrix(-1 0.1 0.05 1.3 -4 2)", None),
    ],
)
@pytest.mark.parametrize(
    "d",
    [
        "M 40 120 C 70 100 90 70 60 40 S 70 10 72 5",
        "M 40 120 Q 90 80 60 40 T 35 -40",
        "M 40 120 L 50 100 A 60 40 20 0 0 70 40",
        "M 40 120 L 50 100 A 60 60 0 0 1 60 40",
    ],
)
def test_curves_under_transforms_are_followed(tmp_path, d, transform, matrix):
    """Against the same path evaluated by svgpathtools and mapped here."""
    drawn = read(svg(tmp_path, f'<path transform="{transform}" d="{d}"/>'))
    m = np.array(matrix) if matrix else composed(transform)
    t = np.linspace(0.0, 1.0, 1500)
    points = np.array([(p.real, p.imag) for part in parse_path(d) for p in map(part.point, t)])
    x, y = m[:, :2] @ points.T + m[:, 2:]
    expected = np.column_stack((np.abs(x), y.max() - y))
    if drawn.within:
        assert_follows(drawn, expected)
    else:
        assert farthest(expected[::7], sampled(drawn.rows, 400)) < 1e-3
        np.testing.assert_allclose(drawn.rows[[0, -1], :2], expected[[0, -1]], atol=1e-6)
        assert len(drawn.rows) == 3


def composed(transform):
    """The matrix of a list of SVG transforms (SVG 1.1, 7.6)."""
    m = np.eye(3)
    for item in transform.split(")")[:-1]:
        name, _, text = item.strip().partition("(")
        v = [float(number) for number in text.split()]
        step = np.eye(3)
        if name == "translate":
            step[:2, 2] = v
        elif name == "rotate":
            c, s = math.cos(math.radians(v[0])), math.sin(math.radians(v[0]))
            step[:2, :2] = ((c, -s), (s, c))
        elif name == "scale":
            step[0, 0], step[1, 1] = v[0], v[-1]
        elif name == "skewX":
            step[0, 1] = math.tan(math.radians(v[0]))
        else:
            step[:2] = np.array(v).reshape(3, 2).T
        m = m @ step
    return m[:2]


@pytest.mark.parametrize(
    "body",
    [
        '<rect x="10" y="10" width="30" height="40"/>',
        '<circle cx="50" cy="50" r="20"/>',
        '<polygon points="10,10 20,20 20,50"/>',
        '<path d="M 10 10 L 20 20 L 20 50 Z"/>',
        '<path d="M 10 10 C 90 20 90 90 10 10"/>',
    ],
)
def test_a_closed_shape_is_refused(tmp_path, body):
    assert refusal(svg(tmp_path, body)).code == "closed-profile"


def test_lines_of_an_svg_chain_and_stretches_apart_are_refused(tmp_path):
    drawn = read(svg(tmp_path, '<line x1="40" y1="60" x2="30" y2="100"/><path d="M 40 60 L 50 20"/>'))
    np.testing.assert_allclose(drawn.rows, ((30, 0, 0), (40, 40, 0), (50, 80, 0)), atol=1e-9)
    wrong = refusal(svg(tmp_path, '<path d="M 30 100 L 40 60 M 41 60 L 50 20"/>'))
    assert wrong.code == "parts-apart"
    assert "1.000 mm away" in wrong.message


def test_what_does_not_show_is_not_read(tmp_path):
    hidden = '<path style="display:none" d="M 1 1 L 5 5"/><defs><path d="M 2 2 L 5 5"/></defs>'
    body = f"<title>vase</title><desc>a</desc><metadata><a/></metadata>{svg_cup()}{hidden}"
    drawn = read(svg(tmp_path, body))
    assert_is_the_cup(drawn)
    assert not any("Left out" in line for line in drawn.said)


def test_an_svg_without_lines_is_refused_with_what_it_holds(tmp_path):
    assert (
        refusal(svg(tmp_path, "<text>vase</text>")).message == "there is no line in the drawing, only 1 text"
    )


@pytest.mark.parametrize(
    ("body", "size"),
    [
        (svg_cup(), 'width="10mm" height="10mm" viewBox="0 0"'),
        (svg_cup(), 'width="10mm" height="10mm" viewBox="0 0 0 0"'),
        (svg_cup('transform="scale(1 0)"'), 'width="10mm" height="10mm" viewBox="0 0 10 10"'),
        ('<path d="M 1 2 L x 5"/>', 'width="10mm"'),
    ],
)
def test_a_damaged_svg_is_refused_plainly(tmp_path, body, size):
    wrong = refusal(svg(tmp_path, body, size))
    assert wrong.message
    assert wrong.remedy


def test_an_axis_in_an_svg_is_in_its_own_unit(tmp_path):
    path = svg(tmp_path, '<path d="M 4 5 L 5 2"/>', 'width="10in" height="10in" viewBox="0 0 10 10"')
    drawn = read(path, axis=2.0)
    np.testing.assert_allclose(drawn.rows, ((50.8, 0, 0), (76.2, 76.2, 0)), atol=1e-9)
    assert "The axis stands at x = 2 in of the drawing." in drawn.said


def test_no_drawing_library_is_loaded_before_a_drawing_is_read():
    code = "import sys, jigs.drawn_profile; sys.exit('ezdxf' in sys.modules or 'svgelements' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60).returncode == 0


def test_the_tolerance_is_kept_by_the_arcs_themselves():
    """The reader hands curves on as they are: what it states is what the arcs measure."""
    piece = bspline_pieces(
        np.array(((30, 0, 1), (60, 30, 1), (30, 60, 1), (50, 90, 1.0))), np.repeat((0.0, 1.0), 4), 3
    )
    rows = biarcs(piece[0], TOLERANCE)
    assert farthest(sampled(rows, 15), piece[0].at(np.linspace(0, 1, 4000))) <= TOLERANCE + 1e-4
