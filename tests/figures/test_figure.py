"""A figure on paper: its size, its arcs, its words."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import parse_path

from geometry.plane.contour import circle
from jigs.figures.figure import MARGIN, Figure
from jigs.figures.items import Dimension, Shape, Words, arc, area, polygon
from jigs.figures.laid import dimension_items
from jigs.figures.svg import LINED, PAINTS, figure_svg

SQUARE = polygon([(0, 0), (100, 0), (100, 50), (0, 50)], fill="wood")


def paths(text: str) -> list[str]:
    return [piece.split('"')[0] for piece in text.split('<path d="')[1:]]


def size(text: str) -> tuple[float, float]:
    wide, high = (text.split(f'{name}="')[1].split("mm")[0] for name in ("width", "height"))
    return float(wide), float(high)


@given(st.floats(0.5, 5000), st.floats(0.5, 5000), st.text("abc <&", max_size=30))
def test_a_figure_is_no_larger_than_its_paper(wide: float, high: float, words: str) -> None:
    items = (polygon([(0, 0), (wide, 0), (wide, high)]), Words(words, (wide, high)))
    figure = Figure("x", "x", "x", items)
    shown = size(figure_svg(figure))
    assert shown[0] <= figure.width * 1.01 + 2 * MARGIN
    assert shown[1] <= figure.height * 1.01 + 2 * MARGIN


@given(st.floats(1, 300), st.floats(-0.9, 0.9).filter(lambda bulge: abs(bulge) > 0.01))
def test_arcs_are_drawn_round(chord: float, bulge: float) -> None:
    shape = Shape(((0.0, 0.0, bulge), (chord, 0.0, 0.0)))
    figure = Figure("x", "x", "x", (shape,), width=10000, height=10000)
    path = parse_path(paths(figure_svg(figure))[0])
    radius = figure.scale * chord * (1 + bulge * bulge) / (4 * abs(bulge))
    ends = [path.point(0), path.point(1)]
    middle = (ends[0] + ends[1]) / 2
    up = radius - figure.scale * abs(bulge) * chord / 2
    centre = middle + 1j * up * (1 if bulge > 0 else -1) * (-1)
    far = [abs(path.point(t / 20) - centre) for t in range(21)]
    assert max(far) - min(far) < 0.01 + 1e-4 * radius
    assert far[10] == pytest.approx(radius, abs=0.01 + 1e-4 * radius)


def test_a_dimension_stands_off_its_length_and_reads_from_below_or_the_right() -> None:
    for b in ((50.0, 0.0), (-50.0, 0.0), (0.0, 50.0), (0.0, -50.0)):
        (_, _, shaft, *_), choices = dimension_items(Dimension((0.0, 0.0), b, "50.0 mm"), 1.0)
        assert all(-pi / 2 < words.angle <= pi / 2 for words in choices)
        (x0, y0, _), (x1, y1, _) = shaft.rows
        assert hypot(x1 - x0, y1 - y0) == pytest.approx(50)
        assert hypot(x0, y0) == pytest.approx(8)


def test_whole_circles_and_open_arcs_lie_within_the_bounds() -> None:
    ring = Figure("x", "x", "x", (area(circle((0.0, 0.0), 20.0), fill="wood"),))
    assert ring.bounds(1.0) == pytest.approx((-20, -20, 20, 20))
    half = Figure("x", "x", "x", (arc((0.0, 0.0), 20.0, 0.0, pi),))
    x0, y0, x1, y1 = half.bounds(1.0)
    assert x0 <= -20
    assert x1 >= 20
    assert y1 >= 20
    assert y0 <= 0


def test_what_is_said_is_escaped() -> None:
    text = figure_svg(Figure("x", "<b>", "a & b", (SQUARE, Words("<script>", (0.0, 0.0)))))
    assert "<script>" not in text
    assert "<b>" not in text
    assert text.count("&lt;") == 2


def test_fills_are_told_apart_without_colour() -> None:
    """By how light they are (luma of ITU-R BT.601), those of which the lines do not tell them apart."""
    plain = sorted(_luma(code) for paint, code in PAINTS.items() if paint not in LINED)
    assert min(b - a for a, b in pairwise(plain)) > 0.04


def _luma(code: str) -> float:
    red, green, blue = (int(code[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return 0.299 * red + 0.587 * green + 0.114 * blue
