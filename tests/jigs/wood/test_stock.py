"""Which boards at hand are taken, which are bought, and what is said of it."""

from dataclasses import replace

import pytest

from tests.jigs.wood.garland_boards import LOT, THICK, board, codes, planned
from tests.jigs.wood.wood_jobs import ALL, lots_of, plan_of, stocked


@pytest.mark.parametrize("name", ALL)
def test_every_job_gets_all_its_pieces_and_no_plan_is_under_its_bound(name):
    plan = plan_of(name)
    lots = lots_of(plan)
    classes, findings = stocked(plan.job, lots)
    cut = {lot.number: 0 for lot in lots}
    for of in classes:
        assert 0 < of.bound <= of.area * (1 + 1e-9)
        assert of.least <= sum(taken.count for taken in of.taken if taken.bought)
        for sawn in of.boards:
            for strip in sawn.strips:
                cut[strip.lot] += sawn.count * strip.strips * strip.pieces
    assert cut == {lot.number: lot.wanted for lot in lots}
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
    assert not any(sawn.bought for sawn in of.boards)
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


def test_bought_boards_are_thicker_by_what_planing_takes_rounded_up():
    (of,), _ = planned(planing=4.0)
    assert THICK + 4 <= of.taken[0].thickness < THICK + 4.5


def test_a_board_as_wide_as_the_strip_is_taken_as_it_is():
    ready = board(width=LOT.width + 0.4, length=2500, count=3)
    (of,), _ = planned(ready)
    assert all(sawn.ready for sawn in of.boards)
    assert {strip.width for sawn in of.boards for strip in sawn.strips} == {LOT.width + 0.4}
    assert of.volumes.kerf < planned(board(count=2))[0][0].volumes.kerf


def test_a_board_narrower_than_the_strip_is_not_taken():
    (of,), _ = planned(board(width=LOT.width - 0.2, count=9))
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
    ("over", "taken"), [(0.0, True), (2.0, True), (5.9, True), (6.1, False), (-0.2, False)]
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
