"""Tiles cover what they show, overlap alike, and share crosses with each neighbour."""

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.paper.tiles import OVERLAP, tiling

WINDOWS = ((186.0, 243.0), (273.0, 156.0))  # of A4, upright and lying

sizes = st.tuples(st.floats(1, 1500), st.floats(1, 1500))


@given(sizes)
def test_every_place_lies_on_a_tile_and_neighbours_share_the_overlap(size):
    way = tiling(size, *WINDOWS)
    assert way.window == WINDOWS[way.turned]
    for axis, count in enumerate((way.columns, way.rows)):
        starts = sorted({tile.corner[axis] for tile in way.tiles})
        assert len(starts) == count
        assert starts[0] == 0
        assert starts[-1] + way.window[axis] >= size[axis] - 1e-6
        assert all(b - a == pytest.approx(way.window[axis] - OVERLAP) for a, b in pairwise(starts))


@given(sizes)
def test_no_way_of_the_paper_takes_fewer(size):
    def pages(window):
        counts = [1] * 2
        for axis in (0, 1):
            while counts[axis] * (window[axis] - OVERLAP) + OVERLAP < size[axis] - 1e-6:
                counts[axis] += 1
        return counts[0] * counts[1]

    assert len(tiling(size, *WINDOWS).tiles) == min(pages(window) for window in WINDOWS)


@given(sizes)
def test_neighbours_share_two_crosses_and_no_cross_stands_alone(size):
    tiles = {(tile.column, tile.row): tile for tile in tiling(size, *WINDOWS).tiles}
    for (column, row), tile in tiles.items():
        for beside in ((column + 1, row), (column, row + 1)):
            if beside in tiles:
                assert len(set(tile.crosses) & set(tiles[beside].crosses)) >= 2
    for one, cross in product(tiles.values(), {c for tile in tiles.values() for c in tile.crosses}):
        if cross in one.crosses:
            assert sum(cross in other.crosses for other in tiles.values()) >= 2
