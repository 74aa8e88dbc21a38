"""Boards at hand that no piece can be sawn from are named, with the reason and what would do."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.asked.job_wood import Board
from jigs.words.lengths import parse_length
from tests.jigs.wood.wood_jobs import lots_of, plan_of, stocked, with_boards

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS
THICK = LOT.thickness
THIN = replace(LOT, number=2, name="others", thickness=THICK - 12)
GOOD = Board("maple", THICK, 150.0, 2000.0, 9)
CODES = {"board-not-used", "board-of-no-piece", "board-without-size"}


def told(*boards, lots=LOTS, unit="mm"):
    """What is said of boards that are not used."""
    job = replace(with_boards(PLAN.job, *boards), unit=unit)
    return [finding for finding in stocked(job, lots)[1] if finding.code in CODES]


def lengths(text, unit):
    """Every length in a remedy, mm."""
    return [parse_length(length, unit) for length in re.findall(rf"\d[^a-z]*? {unit}\b", text)]


WRONG = {
    "too thin": {"thickness": THICK - 1},
    "too thick": {"thickness": THICK + 9},
    "too narrow": {"width": LOT.width - 5},
    "too short": {"length": 120.0},
    "too narrow and too short": {"width": LOT.width - 5, "length": 120.0},
    "too thin and too narrow": {"thickness": THICK - 1, "width": LOT.width - 5},
    "too thick and too narrow": {"thickness": THICK + 9, "width": LOT.width - 5},
    "too thick and too short": {"thickness": THICK + 9, "length": 120.0},
    "too thick, too narrow and too short": {"thickness": THICK + 9, "width": 40.0, "length": 120.0},
}


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("why", WRONG)
def test_a_board_that_is_not_used_is_named_with_the_reason_and_one_as_told_is_used(why, unit):
    (note,) = told(replace(GOOD, **WRONG[why]), unit=unit)
    assert (note.code, note.severity, note.key) == ("board-not-used", "note", "stock.boards")
    assert f"not used: {why} for " in note.message
    numbers, wrong = lengths(note.remedy, unit), replace(GOOD, **WRONG[why])
    if "narrow" in why or "short" in why:
        *_, width, length = numbers
        assert told(replace(GOOD, width=width, length=length), unit=unit) == []
        less = replace(GOOD, width=width - 1) if "narrow" in why else replace(GOOD, length=length - 1)
        assert len(told(less, unit=unit)) == 1
        wrong = replace(wrong, width=width, length=length)
        numbers = numbers[:-2]
    for thickness in numbers:
        assert told(replace(wrong, thickness=thickness), unit=unit) == []


def test_a_board_between_two_thicknesses_is_too_thin_for_one_and_too_thick_for_the_other():
    (note,) = told(replace(GOOD, thickness=THICK - 3), lots=(LOT, THIN))
    assert "too thin for strips" in note.message
    assert "too thick for strips" in note.message
    for thickness in lengths(note.remedy, "mm"):
        assert told(replace(GOOD, thickness=thickness), lots=(LOT, THIN)) == []


@pytest.mark.parametrize(
    ("name", "remedy"), [("mapel", 'did you mean "maple"?'), ("oak", "pieces are of maple")]
)
def test_boards_of_a_wood_that_no_piece_is_of_are_named_once_with_the_likeliest_cause(name, remedy):
    other = replace(GOOD, species=name)
    (note,) = told(GOOD, other, replace(other, width=40.0))
    assert (note.code, note.severity, note.remedy) == ("board-of-no-piece", "note", remedy)
    assert f"9 of {name} {THICK:.1f} mm thick, 150.0 mm wide" in note.message
    assert f"9 of {name} {THICK:.1f} mm thick, 40.0 mm wide" in note.message


def test_each_entry_is_named_once():
    thin, narrow = replace(GOOD, thickness=THICK - 1), replace(GOOD, width=30.0)
    notes = told(thin, narrow, thin, GOOD)
    assert len(notes) == len({note.message for note in notes}) == 2


def test_boards_that_fit_and_are_not_needed_are_not_spoken_of():
    (of,), findings = stocked(with_boards(PLAN.job, GOOD, replace(GOOD, width=300.0, count=5)), LOTS)
    assert sum(taken.count for taken in of.taken) < 5
    assert findings == []


def test_without_a_size_but_too_thin_a_board_is_told_to_be_too_thin():
    (note,) = told(replace(GOOD, thickness=THICK - 1, width=None, length=None))
    assert (note.code, note.severity) == ("board-not-used", "note")
    assert "too thin" in note.message


def test_a_board_that_is_too_narrow_once_it_is_planed_too_is_not_told_to_be_planed():
    (note,) = told(replace(GOOD, thickness=THICK + 9, width=30.0))
    assert "planed or resawn" not in note.remedy
    (note,) = told(replace(GOOD, thickness=THICK + 9))
    assert "planed or resawn" in note.remedy


def test_of_strips_of_several_thicknesses_those_are_told_that_a_thick_board_lacks_the_least_for():
    wide, narrow = replace(LOT, width=120.0), replace(THIN, width=20.0)
    (note,) = told(replace(GOOD, thickness=THICK + 9, width=100.0), lots=(wide, narrow))
    assert f"too thick for strips {narrow.thickness:.1f} mm thick" in note.message
    (thickness,) = lengths(note.remedy, "mm")
    assert told(replace(GOOD, thickness=thickness, width=100.0), lots=(wide, narrow)) == []


def test_of_strips_as_thick_the_smallest_is_told_that_a_thick_board_is_too_narrow_for():
    wide, narrow = replace(LOT, width=120.0), replace(LOT, number=2, width=60.0)
    for lots in ((wide, narrow), (narrow, wide)):
        (note,) = told(replace(GOOD, thickness=THICK + 9, width=50.0), lots=lots)
        _, most, width, length = lengths(note.remedy, "mm")
        assert 60.0 <= width < 120.0
        assert told(replace(GOOD, thickness=most, width=width, length=length), lots=lots) == []


def test_of_a_thick_board_of_unknown_size_it_is_told_how_wide_and_long_it_has_to_be():
    (note,) = told(replace(GOOD, thickness=THICK + 9, width=None, length=None))
    assert "too thick for strips" in note.message
    _, most, width, length = lengths(note.remedy, "mm")
    assert told(replace(GOOD, thickness=most, width=width, length=length)) == []


@settings(max_examples=40, deadline=None)
@given(
    st.floats(-8, 8).map(lambda over: THICK + over),
    st.floats(LOT.width - 4, LOT.width + 12),
    st.floats(100, 400),
)
def test_a_board_is_named_just_when_no_number_of_them_would_be_taken(thickness, width, length):
    one = Board("maple", thickness, width, length, 4000)
    classes, findings = stocked(with_boards(PLAN.job, one), LOTS)
    taken = any(not taken.bought for of in classes for taken in of.taken)
    assert ("board-not-used" in [finding.code for finding in findings]) is not taken
