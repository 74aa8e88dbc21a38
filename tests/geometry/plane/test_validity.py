import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.contour import Contour, circle, polygon, rectangle
from tests.geometry.shapes import shape
from tests.geometry.validity import problems


def rows(*vertices: tuple[float, float, float]) -> Contour:
    return Contour(np.array(vertices))


@pytest.mark.parametrize(
    "contour",
    [
        rectangle(0, 0, 4, 3),
        circle((1, 2), 3),
        circle((1, 2), 3).reversed(),
        polygon([(0, 0), (5, 0), (10, 0), (5, 8)]),
        rows((0, 0, 1.8), (4, 0, 0), (2, 9, 0)),
        rows((0, 0, 0), (10, 0, 0.4142), (10, 10, -0.9), (0, 10, 0)),
    ],
    ids=[
        "rectangle",
        "circle",
        "clockwise circle",
        "vertex on a straight side",
        "large arc",
        "arcs both ways",
    ],
)
def test_a_simple_contour_has_no_problems(contour: Contour) -> None:
    assert problems(contour) == ()


@pytest.mark.parametrize(
    ("contour", "message"),
    [
        (polygon([(0, 0), (3, 2), (3, 0), (0, 2.5)]), "edges 0 and 2 meet"),
        (polygon([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)]), "edges 0 and 2 meet at (5, 0)"),
        (polygon([(0, 0), (10, 0), (10, 5), (15, 5), (10, 5), (0, 5)]), "meet at (10, 5)"),
        (polygon([(0, 0), (10, 0), (6, 0), (5, 5)]), "edges 0 and 1 meet at (6, 0)"),
        (rows((0, 0, 0), (10, 0, 0), (10, 4, -1.0), (0, 4, 0)), "edges 0 and 2 meet"),
        (rows((0, 0, 0), (10, 0, 0), (10, 5, -1.0), (0, 5, 0)), "edges 0 and 2 meet at (5, 0)"),
        (rows((-5, 9, 0.8), (5, 9, 0), (5, 10, -1.0), (-5, 10, 0)), "edges 0 and 2 meet"),
        (polygon([(0, 0), (10, 0), (10, 0), (5, 5)]), "edge 1 has no length"),
        (polygon([(0, 0), (10, 0)]), "it encloses no area"),
    ],
)
def test_what_is_wrong_is_named(contour: Contour, message: str) -> None:
    assert message in "; ".join(problems(contour))


@given(st.integers(0, 2**32 - 1), st.integers(3, 6))
def test_crossings_are_found_where_a_dense_polygon_crosses_itself(seed: int, n: int) -> None:
    low, high = (-20.0, -20.0, -0.9), (20.0, 20.0, 0.9)
    c = Contour(np.random.default_rng(seed).uniform(low, high, (n, 3)))
    assert bool(problems(c)) == (not shape(c, 1500).is_valid)
