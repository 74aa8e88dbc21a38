"""Boards at hand that no piece can be sawn from are named, with what would do."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
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
    "thin": {"thickness": THICK - 1},
    "thick": {"thickness": THICK + 9},
    "narrow": {"width": LOT.width - 5},
    "short": {"length": 120.0},
    "thick, of unknown size": {"thickness": THICK + 9, "width": None, "length": None},
}


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("why", WRONG)
def test_a_board_that_is_not_used_is_named_and_one_as_told_is_used(why, unit):
    (note,) = told(replace(GOOD, **WRONG[why]), unit=unit)
    assert (note.code, note.severity, note.key) == ("board-not-used", "note", "stock.boards")
    low, high, width, length = lengths(note.remedy, unit)
    for thickness in (low, high):
        assert told(Board("maple", thickness, width, length, 9), unit=unit) == []
    assert len(told(Board("maple", low, width - 1, length, 9), unit=unit)) == 1
    assert len(told(Board("maple", low, width, length - 6, 9), unit=unit)) == 1


def test_what_would_do_is_told_for_each_thickness():
    (note,) = told(replace(GOOD, thickness=THICK - 3), lots=(LOT, THIN))
    sizes = lengths(note.remedy, "mm")
    assert len(sizes) == 8
    for low, _, width, length in (sizes[:4], sizes[4:]):
        assert told(Board("maple", low, width, length, 9), lots=(LOT, THIN)) == []


@pytest.mark.parametrize(
    ("name", "remedy"), [("mapel", 'did you mean "maple"?'), ("oak", "pieces are of maple")]
)
def test_boards_of_a_wood_that_no_piece_is_of_are_named_with_the_likeliest_cause(name, remedy):
    (note,) = told(GOOD, replace(GOOD, species=name))
    assert (note.code, note.severity, note.remedy) == ("board-of-no-piece", "note", remedy)
    assert f"9 boards of {name}, {THICK:.1f} mm thick, 150.0 mm wide" in note.message


def test_each_entry_is_named_once():
    thin, narrow = replace(GOOD, thickness=THICK - 1), replace(GOOD, width=30.0)
    notes = told(thin, narrow, thin, GOOD)
    assert len(notes) == len({note.message for note in notes}) == 2


def test_boards_that_fit_and_are_not_needed_are_not_spoken_of():
    (of,), findings = stocked(with_boards(PLAN.job, GOOD, replace(GOOD, width=300.0, count=5)), LOTS)
    assert sum(taken.count for taken in of.taken) < 5
    assert findings == []


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
