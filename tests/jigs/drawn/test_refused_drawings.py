"""Drawings that make no profile are refused plainly."""

import math
import subprocess
import sys

import numpy as np
import pytest
from ezdxf.math import BSpline, closed_uniform_bspline

from jigs.asked.drawn.chain import backwards
from tests.jigs.drawn.drawings import CUP, ROOT, assert_is_the_cup, cup, dxf, read, refusal, svg
from tests.jigs.tumbler_drawing import tumbler_text


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
    assert "ends at x 30.00, y 20.00, the nearest other end is at x 30.50, y 20.00" in wrong.message
    assert "0.500 mm away" in wrong.message


def test_lines_that_cross_are_to_be_trimmed(tmp_path):
    """There is no gap to close: each runs on past the other."""

    def draw(space):
        space.add_line((30, 0), (30, 22))
        space.add_line((28, 18), (40, 50))

    wrong = refusal(dxf(tmp_path, draw))
    assert wrong.code == "parts-apart"
    assert "do not meet end to end" in wrong.message
    assert "trim lines that cross" in wrong.remedy


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
        "import sys; from pathlib import Path; from jigs.asked.drawn.profile import read_drawing; "
        "print(read_drawing(Path(sys.argv[1]), None, None, 0.0).said[1])"
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


@pytest.mark.parametrize("back", [45.0, 50.0])
def test_a_level_line_that_runs_back_is_refused_and_a_shelf_is_not(tmp_path, back):
    """Out to 60 and back to less, a fin without thickness; a shelf to 60 has its wood over it."""
    rows = np.array(((35.0, 10.0, 0.0), (50.0, 40.0, 0.0), (60.0, 40.0, 0.0), (60.0, 80.0, 0.0)))
    wrong = refusal(dxf(tmp_path, cup(np.insert(rows, 3, (back, 40.0, 0.0), axis=0))))
    assert wrong.code == "runs-back"
    assert "30.0 mm above" in wrong.message
    assert read(dxf(tmp_path, cup(rows))).rows == pytest.approx(rows - (0.0, 10.0, 0.0))


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
    assert wrong.message == f"{name} cannot be read: it is no whole {name[-3:].upper()}"


@pytest.mark.parametrize("name", ["none.dxf", "none.svg"])
def test_a_missing_file_is_refused(tmp_path, name):
    wrong = refusal(tmp_path / name)
    assert wrong.code == "unreadable-drawing"
    assert wrong.message == f"{name} cannot be read: No such file or directory"
    assert wrong.remedy == "Check its name and folder"


def test_a_folder_is_refused_as_one(tmp_path):
    (tmp_path / "vase.dxf").mkdir()
    assert refusal(tmp_path / "vase.dxf").message == "vase.dxf cannot be read: it is a folder"


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


def test_copies_of_copies_are_refused_before_they_are_drawn(tmp_path):
    use = '<use href="#{0}"/>' * 10
    groups = "".join(f'<g id="g{k}">{use.format(f"g{k + 1}")}</g>' for k in range(12))
    body = f'<defs>{groups}<path id="g12" d="M 30 100 V 40"/></defs><use href="#g0"/>'
    found = refusal(svg(tmp_path, body))
    assert found.code == "too-large"
    assert "elements in it use each other" in found.message


def test_copies_that_go_round_in_a_circle_are_refused(tmp_path):
    round_ = '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'
    found = refusal(svg(tmp_path, round_))
    assert found.code == "too-large"
    assert "no end" in found.message
