import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geometry.curves.room import ROUGH, room
from geometry.plane.contour import Contour, circle
from geometry.plane.nearest import distances
from tests.geometry.shapes import contours, points


@given(contours(), st.lists(st.tuples(points, st.floats(1.0, 20.0), st.booleans()), max_size=4))
def test_a_grid_point_is_free_on_the_plate_and_in_no_hole(
    outline: Contour, holes: list[tuple[tuple[float, float], float, bool]]
) -> None:
    """Holes may meet, run either way, and leave the plate; points within ROUGH of an edge may go either way."""
    drawn = [circle(middle, radius) if ccw else circle(middle, radius).cw() for middle, radius, ccw in holes]
    found = room(outline, drawn, pitch=1.0)
    taken = np.diff(np.diff(found.taken, axis=0), axis=1) > 0
    rows, columns = np.indices(taken.shape).reshape(2, -1)
    grid = np.column_stack([found.left + columns, found.bottom + rows])
    outside = np.logical_or.reduce([~outline.contains(grid), *(hole.contains(grid) for hole in drawn)])
    near = np.min([distances(one.table, grid) for one in (outline, *drawn)], axis=0) <= 2 * ROUGH
    assert (taken.ravel() == outside)[~near].all()
