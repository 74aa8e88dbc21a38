"""A profile from an SVG drawing."""

import math

import numpy as np
import pytest
from svgpathtools import parse_path

from tests.jigs.drawn.drawings import (
    CUP,
    assert_follows,
    assert_is_the_cup,
    farthest,
    read,
    refusal,
    sampled,
    svg,
)


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
    assert drawn.said[1] == 'Read from drawing.svg, layer "outside": 1 path.'
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
    assert drawn.said[0].startswith("Axis at x = 2 in of the drawing: foot ")
