"""Boards at hand and boards to buy: what is taken, what is said, what is refused."""

import re
from dataclasses import replace
from math import inf

import pytest

from jigs.checks.wood.stock import stock_findings
from jigs.job_wood import Board
from jigs.lengths import parse_length
from jigs.plan.wood.stock import Shortage
from jigs.solving.wood.boards import wood_classes
from tests.jigs.wood.wood_jobs import ALL, lots_of, plan_of, stocked, with_boards, with_stock

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS
THICK = LOT.thickness


def board(width=150.0, length=2000.0, count=1, thickness=THICK, species="maple"):
    return Board(species, thickness, width, length, count)


def planned(*boards, lots=LOTS, **stock):
    job = with_stock(PLAN.job, boards=boards, **stock)
    return stocked(job, lots)


def codes(findings):
    return [finding.code for finding in findings]


@pytest.mark.parametrize("name", ALL)
def test_every_job_gets_all_its_pieces_and_no_plan_is_under_its_bound(name):
    plan = plan_of(name)
    lots = lots_of(plan)
    classes, findings = stocked(plan.job, lots)
    cut = {lot.number: 0 for lot in lots}
    for of in classes:
        assert 0 < of.bound <= of.area * (1 + 1e-9)
        assert (of.bought_area, of.area) <= (of.first_fit_bought + 1e-6, of.first_fit + 1e-6)
        for sawn in of.boards:
            for strip in sawn.strips:
                cut[strip.lot] += sawn.count * strip.strips * strip.pieces
    assert all(cut[lot.number] >= lot.wanted for lot in lots)
    assert not [finding for finding in findings if finding.severity == "refused"]


@pytest.mark.parametrize("name", ALL)
def test_no_strip_is_left_shorter_than_the_hold_down_needs(name):
    plan = plan_of(name)
    lots = {lot.number: lot for lot in lots_of(plan)}
    for of in stocked(plan.job, tuple(lots.values()))[0]:
        for strip in (strip for sawn in of.boards for strip in sawn.strips):
            assert strip.left >= lots[strip.lot].held - 1e-6


def test_boards_at_hand_that_are_enough_are_taken_and_none_is_bought():
    (of,), findings = planned(board(count=2))
    assert [taken.bought for taken in of.taken] == [False]
    assert of.bought_area == 0
    assert not findings


def test_boards_at_hand_are_taken_where_that_saves_a_bought_one_and_the_rest_is_said():
    """Bought boards give one strip each, and two strips are wanted."""
    (of,), findings = planned(board(width=75, length=1900), bought_width=70.0)
    assert sorted((taken.bought, taken.count) for taken in of.taken) == [(False, 1), (True, 1)]
    (note,) = findings
    assert (note.code, note.severity) == ("not-enough-boards", "note")
    assert "buy 1 of" in note.remedy
    assert sum(taken.count for taken in planned(bought_width=70.0)[0][0].taken) == 2
    (of,), findings = planned(board(width=75, length=1900, count=2), bought_width=70.0)
    assert not any(taken.bought for taken in of.taken)
    assert not findings


def test_where_one_must_be_bought_anyhow_no_second_one_is():
    (of,), findings = planned(board(width=70, length=600))
    assert [taken.count for taken in of.taken if taken.bought] == [1]
    assert [finding.code for finding in findings] == ["not-enough-boards"]


def test_where_nothing_is_listed_buying_is_no_note():
    classes, findings = planned()
    assert classes[0].taken[0].bought
    assert not findings


def test_bought_boards_are_thicker_by_what_planing_takes():
    (of,), _ = planned(planing=4.0)
    assert of.taken[0].thickness == pytest.approx(THICK + 4)


def test_a_board_as_wide_as_the_strip_is_taken_as_it_is():
    ready = board(width=LOT.width + 0.4, length=2500, count=3)
    (of,), _ = planned(ready)
    assert all(sawn.ready for sawn in of.boards)
    assert {strip.width for sawn in of.boards for strip in sawn.strips} == {LOT.width + 0.4}
    assert of.volumes.kerf < planned(board(count=2))[0][0].volumes.kerf


def test_a_board_narrower_than_the_strip_is_not_taken():
    (of,), _ = planned(board(width=LOT.width - 0.1, count=9))
    assert all(taken.bought for taken in of.taken)


@pytest.mark.parametrize("unknown", [{"width": None}, {"length": None}, {"width": None, "length": None}])
def test_boards_of_unknown_size_are_left_out_with_a_warning_until_it_is_given(unknown):
    (of,), findings = planned(board(**unknown, count=4))
    assert all(taken.bought for taken in of.taken)
    warning = next(finding for finding in findings if finding.code == "board-without-size")
    assert (warning.severity, warning.key) == ("warning", "stock.boards")
    assert all(name in warning.remedy for name in unknown)
    assert "board-without-size" not in codes(planned(board(count=4))[1])


@pytest.mark.parametrize(
    ("over", "taken"), [(0.0, True), (2.0, True), (5.9, True), (6.1, False), (-0.1, False)]
)
def test_a_board_at_hand_may_be_thicker_than_a_bought_one_by_3_mm(over, taken):
    (of,), findings = planned(board(thickness=THICK + over, count=3))
    assert any(not one.bought for one in of.taken) is taken
    assert ("thicker-boards" in codes(findings)) is (taken and over > 0)


def test_boards_as_thick_as_planed_are_taken_before_thicker_ones():
    (of,), _ = planned(board(thickness=THICK + 2, count=3), board(count=2))
    assert {taken.thickness for taken in of.taken} == {THICK}


def test_boards_that_serve_two_thicknesses_are_not_taken_twice():
    thin = replace(LOT, number=2, name="others", thickness=THICK - 2)
    classes, _ = planned(board(count=1), lots=(LOT, thin))
    taken = [one for of in classes for one in of.taken if not one.bought]
    assert sum(one.count for one in taken) == 1


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("key", ["bought_width", "bought_length"])
def test_a_board_too_small_is_refused_with_a_size_that_works(key, unit):
    small = {"bought_width": 40.0, "bought_length": 300.0}[key]
    lots = (replace(LOT, longer=400.0, shorter=400.0, mitre=0.0),) if key == "bought_length" else LOTS
    job = replace(with_stock(PLAN.job, **{key: small}), unit=unit)
    classes, (refusal,) = stocked(job, lots)
    assert not classes
    assert (refusal.severity, refusal.key) == ("refused", f"stock.{key}")
    number = re.search(rf"set stock.{key} to at least (.*?),", refusal.remedy).group(1)
    assert not stocked(with_stock(job, **{key: parse_length(number, unit)}), lots)[1]


def test_a_size_that_no_board_may_have_is_refused_without_a_number():
    shortage = Shortage("base", (1,), "maple", 20.0, "length", 1e5)
    (refusal,) = stock_findings(PLAN.job, (), (shortage,))
    assert refusal.severity == "refused"
    assert "at least" not in refusal.remedy


def test_pieces_too_large_for_bought_boards_are_planned_from_larger_ones_at_hand():
    (of,), findings = planned(board(count=3), bought_width=40.0)
    assert not any(taken.bought for taken in of.taken)
    assert not findings


def test_if_those_are_too_few_it_is_refused():
    classes, (refusal,) = planned(board(width=80, length=500), bought_width=40.0)
    assert not classes
    assert refusal.code == "board-too-narrow"


def test_few_pieces_of_many_sizes_are_cut_from_shorter_lengths_and_the_rest_stays_whole():
    plan = plan_of("sorrel")
    classes, _ = stocked(plan.job, lots_of(plan))
    for of in classes:
        (taken,) = of.taken
        assert taken.count == 1
        assert taken.lengths > 1
        assert any(o.width == taken.width and o.length == taken.over_length and o.kept for o in of.offcuts)


def test_offcuts_are_kept_where_they_are_long_and_wide_enough():
    for name in ("sorrel", "tumbler", "garland"):
        plan = plan_of(name)
        least = plan.job.workshop.stock.least_offcut
        offcuts = [o for of in stocked(plan.job, lots_of(plan))[0] for o in of.offcuts]
        assert {o.kept for o in offcuts} == {True, False}
        assert all(o.kept == (o.length >= least and o.width >= 20) for o in offcuts)


def test_the_last_strip_is_cut_no_further_than_wanted_where_the_rest_can_be_kept():
    (of,), _ = planned()
    assert of.volumes.more == 0
    assert max(strip.left for sawn in of.boards for strip in sawn.strips) >= 300


def test_ring_heights_chosen_from_boards_are_not_planed():
    plan = plan_of("tumbler")
    for of in stocked(plan.job, lots_of(plan))[0]:
        for taken in of.taken:
            assert taken.bought or taken.thickness == pytest.approx(of.thickness)


def test_the_same_job_has_the_same_plan():
    plan = plan_of("tumbler")
    assert wood_classes(plan.job, lots_of(plan)) == wood_classes(plan.job, lots_of(plan))


def test_where_first_fit_finds_a_way_its_area_is_a_number():
    job = with_boards(PLAN.job, board(count=2))
    (of,), _ = stocked(job, LOTS)
    assert of.first_fit < inf
