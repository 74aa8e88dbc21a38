"""Points along polylines, against the lines themselves."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from geometry.curves.room import dense

COORDINATES = st.tuples(st.integers(-50, 50), st.integers(-50, 50)).map(lambda p: (p[0] / 2, p[1] / 2))
LINES = st.lists(st.lists(COORDINATES, min_size=2, max_size=5), min_size=1, max_size=4)


@given(LINES, st.floats(0.2, 20))
def test_points_lie_on_their_line_no_farther_apart_than_the_step_and_hold_every_corner(lines, step):
    points, owner = dense(lines, step)
    for number, line in enumerate(lines):
        own = points[owner == number]
        shape = LineString(line)
        assert max(shape.distance(Point(p)) for p in own) < 1e-9
        assert np.hypot(*np.diff(own, axis=0).T).max(initial=0.0) <= step + 1e-9
        assert {tuple(p) for p in np.round(line, 9).tolist()} <= {tuple(p) for p in np.round(own, 9).tolist()}


def test_no_lines_have_no_points():
    points, owner = dense([], 1.0)
    assert points.shape == (0, 2)
    assert owner.shape == (0,)
