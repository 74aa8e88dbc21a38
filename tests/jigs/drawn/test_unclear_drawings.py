"""What a drawing leaves open, or holds besides, is said or refused."""

import numpy as np

from tests.jigs.drawn.drawings import CUP, assert_is_the_cup, cup, dxf, read, refusal


def test_a_drawing_without_a_unit_needs_the_jobs(tmp_path):
    path = dxf(tmp_path, cup(CUP / (25.4, 25.4, 1.0)), units=0)
    wrong = refusal(path)
    assert wrong.code == "no-drawing-unit"
    assert wrong.message == "the drawing does not say its unit: its $INSUNITS is 0 or missing"
    assert 'drawing_unit = "mm" or drawing_unit = "in"' in wrong.remedy
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
