"""Into how many lengths boards to buy are crosscut: so that no other way buys fewer of them."""

from math import ceil

import pytest
from hypothesis import given, settings

from geometry.cutting_stock import StockSize, first_fit
from jigs.solving.wood.at_hand import in_stock
from jigs.solving.wood.boards import wood_classes
from jigs.solving.wood.kinds import hand_kinds
from tests.jigs.wood.garland_boards import board, planned
from tests.jigs.wood.test_volumes import cases


def fewest_by_first_fit(job, lots):
    """Whole boards bought beside all at hand, however the bought ones are crosscut to lengths that can be held."""
    stock, kerf, hand, counts = (
        job.workshop.stock,
        job.workshop.saw.kerf,
        hand_kinds(job, lots, in_stock(job)),
        [],
    )
    room = stock.bought_width - stock.edge_trim
    widths = [lot.width + stock.strip_clean_up for lot in lots]
    for lengths in range(1, 7):
        each = (stock.bought_length - 2 * stock.end_trim - (lengths - 1) * kerf) / lengths
        fits = [lot for lot, width in zip(lots, widths, strict=True) if width <= room]
        held = all(lot.left_of(each, 1) >= max(stock.least_offcut, lot.held) for lot in fits if lot.held)
        long = all(each >= stock.least_offcut and lot.pieces_in(each) for lot in fits if not lot.held)
        if lengths > 1 and not (held and long):
            break
        yields = tuple(lot.pieces_in(each) if lot in fits else 0 for lot in lots)
        sizes = [StockSize(kind.room, kind.area, kind.count, kind.yields) for kind in hand]
        sizes.append(StockSize(room, stock.bought_width * stock.bought_length / lengths, None, yields))
        found = first_fit(widths, [lot.wanted for lot in lots], kerf, sizes)
        if found is not None:
            counts.append(ceil(sum(p.times for p in found if p.stock == len(hand)) / lengths))
    return min(counts, default=None)


@settings(max_examples=40, deadline=None)
@given(cases())
def test_no_more_boards_are_bought_than_by_first_fit_however_they_are_crosscut(case):
    job, asked = case
    for of in wood_classes(job, asked)[0]:
        lots = [lot for lot in asked if lot.number in of.lots]
        bought = sum(taken.count for taken in of.taken if taken.bought)
        fewest = fewest_by_first_fit(job, lots)
        assert fewest is None or bought <= fewest


def test_beside_boards_at_hand_one_is_bought_uncut_where_its_lengths_would_take_two():
    three = board(width=100, length=820, count=3, thickness=23.0)
    (of,), _ = planned(three, bought_width=70.0, bought_length=1400.0)
    assert {(taken.bought, taken.count, taken.lengths) for taken in of.taken} == {(False, 3, 1), (True, 1, 1)}


@pytest.mark.parametrize("length", [2000.0, 2600.0])
def test_of_plans_that_buy_one_board_that_is_taken_that_uses_most_of_what_is_at_hand(length):
    """Uncut it would give all, and those at hand would stay whole."""
    (of,), _ = planned(board(width=70, length=900, count=2), bought_length=length)
    taken = {taken.bought: taken for taken in of.taken}
    assert (taken[False].count, taken[True].count) == (2, 1)
    assert taken[True].over_length > 300
