import numpy as np
import pytest
from hypothesis import given

from geometry.plane.contour import Contour, circle, rectangle
from geometry.plane.edges import Edge
from geometry.plane.loops import chain, cut
from tests.geometry.shapes import contours

STUB = Edge((2.0, -3.0), (2.0, 0.0))


@given(contours())
def test_the_edges_of_a_contour_chain_to_that_contour(c: Contour) -> None:
    (whole,) = chain(cut(c.edges()))
    assert np.allclose(whole.vertices, c.vertices, atol=1e-6)


@pytest.mark.parametrize(
    "c", [rectangle(0.0, 0.0, 4.0, 4.0), circle((2.0, 2.0), 2.0)], ids=["square", "circle"]
)
def test_a_stub_that_ends_on_an_edge_leaves_it_whole(c: Contour) -> None:
    (whole,) = chain(cut([STUB, *c.edges()]))
    assert np.allclose(whole.vertices, c.vertices)


def test_two_squares_that_touch_at_a_corner_are_two_contours() -> None:
    found = chain(cut([*rectangle(0.0, 0.0, 2.0, 2.0).edges(), *rectangle(2.0, 2.0, 5.0, 5.0).edges()]))
    assert [c.area for c in found] == pytest.approx([4.0, 9.0])


def test_a_line_run_to_and_fro_is_no_contour() -> None:
    assert chain(cut([Edge((0.0, 0.0), (5.0, 0.0)), Edge((5.0, 0.0), (0.0, 0.0))])) == ()
    assert chain([]) == ()
