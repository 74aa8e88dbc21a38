"""Many blanks at once, against each by itself."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.candidates import candidates
from geometry.blanks.sawing import included_angle_error
from geometry.bodies.torus import Blank, least_apothem, segment_cut, wall_left
from geometry.bodies.tube import tube_of

RINGS, SEGMENTS, DEPTHS = (8, 16, 30), (6, 8, 10, 12), (15.0, 22.0)


@given(st.floats(40, 200), st.floats(0.1, 0.8), st.integers(0, 35))
def test_each_is_the_blank_that_it_is_alone(major: float, share: float, pick: int):
    tube = share * (major - 3)
    many = candidates(major, tube_of(tube), 2.0, RINGS, SEGMENTS, DEPTHS, 4.0, 0.7, 0.9)
    assert len(many) == 36
    k = pick
    rings, n = int(many.wedge_rings[k]), int(many.segments[k])
    apothem, centre = least_apothem(major, tube_of(tube + 2.0), rings, n)
    assert (many.apothem[k], many.centre[k]) == pytest.approx((apothem, centre))
    assert many.core[k] == pytest.approx(4.0 if k % 3 == 0 else apothem - DEPTHS[k % 3 - 1])
    core = float(many.core[k])
    assert many.wall[k] == pytest.approx(wall_left(major, tube_of(tube), rings, n, centre, core))
    one = Blank(rings, n, apothem, core, centre, 0.7, 0.9)
    names = (
        "outer_edge",
        "inner_edge",
        "half_wedge",
        "mitre",
        "half_width",
        "thick_edge",
        "thin_edge",
        "swing_radius",
        "volume",
    )
    for name in names:
        assert getattr(many, name)[k] == pytest.approx(getattr(one, name))
    assert many.closing_gap(0.001)[k] == pytest.approx(included_angle_error(one, 0.001))
    cut = segment_cut(one, one.thick_edge + 8, 3.0, 0.0)
    assert many.sawn(4.0, 3.0)[k] == pytest.approx(rings * n * cut.pitch * cut.depth * cut.length)


def test_chosen_ones_keep_their_order_and_a_tube_without_a_hole_is_refused():
    many = candidates(100, tube_of(30), 2, RINGS, SEGMENTS, (), 5.0)
    assert many.chosen(np.array([3, 0])).segments.tolist() == [8, 6]
    assert many.chosen(many.wall > -math.inf).wedge_rings.tolist() == many.wedge_rings.tolist()
    with pytest.raises(ValueError, match="no hole"):
        candidates(30, tube_of(30), 2, RINGS, SEGMENTS, (), 5.0)
