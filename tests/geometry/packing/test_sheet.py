"""Rectangles on a sheet: where another library lays them, and none over another."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from rectpack.maxrects import MaxRectsBl

from geometry.packing.sheet import Room

sides = st.tuples(st.integers(1, 90), st.integers(1, 90))


@given(sides.map(lambda of: (3 * of[0], 3 * of[1])), st.lists(sides, max_size=25))
@settings(max_examples=100, deadline=None)
def test_rectangles_lie_where_another_library_lays_them_on_the_sheet_and_apart(sheet, wanted):
    own, other = Room(*sheet), MaxRectsBl(*sheet, rot=True)
    laid = [own.lay(*size) for size in wanted]
    theirs = [other.add_rect(*size) for size in wanted]
    assert laid == [found and (found.left, found.bottom, found.right, found.top) for found in theirs]
    there = [box for box in laid if box]
    for left, low, right, high in there:
        assert min(left, low) >= 0
        assert right <= sheet[0]
        assert high <= sheet[1]
    for one, two in combinations(there, 2):
        assert one[0] >= two[2] or two[0] >= one[2] or one[1] >= two[3] or two[1] >= one[3]
