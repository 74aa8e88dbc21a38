"""Rails: every block has its place, no cut meets a neighbour, the hold-down finds wood in the last cut."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from jigs.stages.layup.layout.rail import BETWEEN, LONGEST, BlockRail

rails = st.builds(
    BlockRail,
    blocks=st.integers(1, 400),
    block=st.floats(5, 200),
    thickness=st.floats(8, 60),
    slant=st.floats(1, 6),
    held=st.floats(60, 120),
)


@given(rails)
def test_all_blocks_have_a_place_and_no_rail_is_empty(rail: BlockRail) -> None:
    assert (rail.rails - 1) * rail.each < rail.blocks <= rail.rails * rail.each


@given(rails)
def test_a_rail_is_longer_than_the_table_supports_only_for_a_single_block(rail: BlockRail) -> None:
    assert rail.length <= LONGEST + 1e-9 or rail.each == 1


@given(rails)
def test_one_rail_fewer_would_be_too_long(rail: BlockRail) -> None:
    if rail.rails > 1:
        each = -(-rail.blocks // (rail.rails - 1))
        assert each * (rail.block + rail.gap) + rail.gap + rail.held > LONGEST


@given(rails)
def test_cuts_in_a_gap_touch_neither_block(rail: BlockRail) -> None:
    """Walked along the rail: the cut that frees a block, then the first of the next one."""
    end_of_block = rail.gap + rail.block
    freed = end_of_block + rail.slant
    next_block = end_of_block + rail.gap
    assert freed + BETWEEN <= next_block - rail.slant + 1e-9


@given(rails)
def test_behind_the_last_block_lies_what_is_held_and_the_gap_of_its_cut(rail: BlockRail) -> None:
    last = rail.each * (rail.gap + rail.block)
    assert rail.length - last == pytest.approx(rail.gap + rail.held)


@given(
    st.floats(10, 60),
    st.floats(8, 45),
    st.floats(math.pi / 24, math.pi / 5),
    st.floats(0.8, 4),
    st.integers(2, 5),
)
def test_sawn_block_by_block_every_block_gives_a_whole_segment(
    inner: float, depth: float, tilt: float, kerf: float, count: int
) -> None:
    """Drawn end on, as on the carrier: x along the fence, the outer sides up in the second cut of each block."""
    lean, slant = depth * math.tan(tilt), kerf / math.cos(tilt)
    outer = inner + 2 * lean
    rail = BlockRail(count, outer, depth, slant, held=82.0)
    stop = (outer + inner) / 2
    blade = shapely.Polygon([(0, 0), (-lean, depth), (-lean - slant, depth), (-slant, 0)])
    right = [-rail.gap - k * (outer + rail.gap) for k in range(rail.each)]  # from the free end at x = 0
    blocks = [shapely.box(x - outer, 0, x, depth) for x in right]
    strip = shapely.box(-rail.length, 0, 0, depth)
    for k, corner in enumerate(right):
        for number, where in ((1, corner + slant), (2, corner - stop)):
            cut = affinity.translate(
                blade if number == 2 else affinity.scale(blade, 1, -1, origin=(0, depth / 2)), where
            )
            assert all(cut.intersection(block).area < 1e-9 for block in blocks[k + 1 :])
            parts = sorted(strip.difference(cut).geoms, key=lambda part: part.bounds[0])
            strip, freed = parts[0], parts[-1]
        segment = freed.intersection(blocks[k])
        assert freed.difference(blocks[k]).area < 1e-6
        assert segment.area == pytest.approx(stop * depth)
        assert segment.bounds[2] - segment.bounds[0] == pytest.approx(outer)
    assert strip.bounds[2] - strip.bounds[0] >= rail.held
