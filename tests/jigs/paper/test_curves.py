"""Contours as cubics lie on their arcs."""

import numpy as np
import pytest
from hypothesis import given
from svgpathtools import parse_path

from geometry.plane.contour import circle
from jigs.paper.full_size import closed_path
from tests.jigs.plates import plates


def drawn(contour):
    return parse_path(closed_path(contour.vertices))


@given(plates())
def test_the_path_has_the_area_and_the_length_of_the_contour(plate):
    for contour in (plate.outline, *plate.holes):
        path = drawn(contour)
        assert path.isclosed()
        assert abs(path.area()) == pytest.approx(abs(contour.area), rel=1e-4, abs=1e-2)
        assert path.length(error=1e-4) == pytest.approx(contour.length, rel=1e-4, abs=1e-2)


@pytest.mark.parametrize("radius", [2.0, 150.0, 1000.0])
def test_a_circle_is_round(radius):
    points = np.array(
        [part.point(t) for part in drawn(circle((10, 20), radius)) for t in np.linspace(0, 1, 20)]
    )
    assert np.abs(np.abs(points - (10 - 20j)) - radius).max() < 1e-6 * radius + 1e-3


def test_an_arc_that_is_all_but_straight_is_one_cubic():
    rows = np.array([(0.0, 0.0, 1e-10), (50.0, 0.0, 0.0), (50.0, 20.0, 0.0), (0.0, 20.0, 0.0)])
    path = parse_path(closed_path(rows))
    assert path.isclosed()
    assert abs(path.area()) == pytest.approx(1000.0, rel=1e-6)
