"""How boards are crosscut: so that no usual way, with equal lengths and the widest strips first, buys fewer."""

from math import ceil, inf

import pytest
from hypothesis import given

from jigs.stages.boards.solve.boards import wood_classes
from tests.jigs.wood.garland_boards import board, planned
from tests.jigs.wood.test_volumes import cases
from tests.jigs.wood.wood_jobs import NAMES, VESSELS, plan_of, with_boards


def bought_by_first_fit(lots, kerf, bought, lengths):
    """Boards of so much room and length, each crosscut to so many equal lengths; the widest strips first, each on the
    first length with room for it."""
    each = (bought[1] - (lengths - 1) * kerf) / lengths
    open_ = []
    for lot, wide in sorted(lots, key=lambda one: -one[1]):
        left = lot.wanted
        while left > 0:
            able = (one for one in open_ if one[0] >= wide - 1e-6 and lot.pieces_in(one[1]))
            place = next(able, None)
            if place is None:
                if bought[0] < wide - 1e-6 or not lot.pieces_in(each):
                    return inf
                place = [bought[0], each]
                open_.append(place)
            place[0] -= wide + kerf
            left -= lot.pieces_in(place[1])
    return ceil(len(open_) / lengths)


def fewest_by_first_fit(job, lots):
    """However boards to buy are crosscut to equal lengths that can be held."""
    stock, kerf = job.workshop.stock, job.workshop.saw.kerf
    bought = (stock.bought_width - stock.edge_trim, stock.bought_length - 2 * stock.end_trim)
    wide = [(lot, lot.width + stock.strip_clean_up) for lot in lots]
    counts = []
    for lengths in range(1, 7):
        each = (bought[1] - (lengths - 1) * kerf) / lengths
        held = all(
            lot.left_of(each, 1) >= max(stock.least_offcut + 0.1, lot.held) for lot in lots if lot.held
        )
        if lengths > 1 and not (held and all(lot.pieces_in(each) for lot in lots)):
            break
        counts.append(bought_by_first_fit(wide, kerf, bought, lengths))
    return min(counts)


@given(cases())
def test_no_more_boards_are_bought_than_by_first_fit_however_they_are_crosscut(case):
    job, asked = with_boards(case[0]), case[1]
    for of in wood_classes(job, asked)[0]:
        lots = [lot for lot in asked if lot.number in of.lots]
        bought = sum(taken.count for taken in of.taken if taken.bought)
        assert of.least <= bought <= fewest_by_first_fit(job, lots)


def test_beside_boards_at_hand_one_is_bought_where_equal_lengths_would_take_two():
    three = board(width=100, length=820, count=3, thickness=23.0)
    (of,), _ = planned(three, bought_width=70.0, bought_length=1400.0)
    assert {(taken.bought, taken.count) for taken in of.taken} == {(False, 3), (True, 1)}


@pytest.mark.parametrize("length", [2000.0, 2600.0])
def test_of_plans_that_buy_one_board_that_is_taken_that_uses_most_of_what_is_at_hand(length):
    """Uncut it would give all, and those at hand would stay whole."""
    (of,), _ = planned(board(width=70, length=900, count=2), bought_length=length)
    assert sum(taken.count for taken in of.taken if not taken.bought) == 2
    assert sum(taken.count for taken in of.taken if taken.bought) == 1


def test_lengths_of_one_board_are_unequal_where_that_leaves_more_of_it_whole():
    (of,), _ = planned(bought_width=130.0, bought_length=3000.0)
    (taken,) = of.taken
    assert taken.rest > 300
    assert taken.rest + sum(taken.lengths) + len(taken.lengths) * 3.0 == pytest.approx(3000.0 - 40.0, abs=0.5)


@pytest.mark.parametrize("name", [*NAMES, *VESSELS])
def test_no_board_is_ripped_that_is_too_short_to_be_held_at_the_rip_fence(name: str) -> None:
    plan = plan_of(name)
    ripped = [board for of in plan.wood.classes for board in of.boards if board.strips and not board.ready]
    assert ripped
    assert min(board.length for board in ripped) >= plan.job.workshop.stock.least_offcut
