"""Rails: every block has its place, no cut meets a neighbour, the hold-down finds wood in the last cut."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.block_rail import BETWEEN, LONGEST, BlockRail

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
