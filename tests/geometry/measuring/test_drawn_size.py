"""Contours drawn for a printer that errs: what it makes of them is to size."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.measuring.drawn_size import DrawnSize, moved
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.offset import offset
from geometry.plane.sample import sample

GAUGE = Contour(
    np.array(
        ((-40, 0, 0), (-30, 0, -math.tan(math.pi / 4)), (30, 0, 0), (40, 0, 0), (40, 50, 0), (-40, 50, 0.0))
    )
)


def region(contour: Contour) -> shapely.Polygon:
    return shapely.Polygon(sample(contour.ccw(), 1e-4))


@pytest.mark.parametrize("contour", [GAUGE, circle((3, 4), 8), rectangle(0, 0, 30, 8)])
@pytest.mark.parametrize("distance", [0.1, -0.1, 0.2])
def test_every_edge_moves_square_to_itself(contour: Contour, distance: float):
    (wanted,) = offset(contour.ccw(), distance, corners="mitre")
    found = moved(contour.ccw(), distance)
    assert len(found) == len(contour)
    assert region(found).hausdorff_distance(region(wanted)) < 0.01 * abs(distance) + 1e-3


own = st.floats(-0.3, 0.3)


@given(own, own, st.floats(0.99, 1.01))
def test_what_the_printer_makes_of_it_is_to_size(outside: float, inside: float, scale: float):
    machine = DrawnSize(outside, inside, scale)
    plate, window = rectangle(0, 0, 80, 60), rectangle(10, 10, 50, 30).cw()
    x0, y0, x1, y1 = machine.outline(plate).bounds
    assert (outside + scale * (x1 - x0), outside + scale * (y1 - y0)) == pytest.approx((80, 60))
    x0, y0, x1, y1 = machine.opening(window).bounds
    assert (inside + scale * (x1 - x0), inside + scale * (y1 - y0)) == pytest.approx((40, 20))
    for contour in (plate, GAUGE):
        back = machine.made_outline(machine.outline(contour))
        assert np.abs(back.points - contour.points).max() < 0.02
    assert machine.made_opening(machine.opening(window)).points == pytest.approx(window.points)


def test_a_printer_that_is_right_changes_nothing():
    assert DrawnSize().exact
    assert DrawnSize().outline(GAUGE).vertices == pytest.approx(GAUGE.vertices)
    assert moved(polygon([(0, 0), (1, 0), (0, 1)]), 0.0).points.tolist() == [[0, 0], [1, 0], [0, 1]]
