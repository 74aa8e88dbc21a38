"""Boards a hair under a size count as of it."""

import pytest

from jigs.asked.job_wood import Board
from jigs.stages.boards.at_hand import MEASURED
from tests.jigs.wood.test_volumes import agree
from tests.jigs.wood.wood_jobs import lots_of, plan_of, stocked, with_boards

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS


def board(thin=0.0, narrow=None, count=3):
    """Wide, or as wide as a strip but for `narrow`."""
    width = 150.0 if narrow is None else LOT.width - narrow
    return Board("maple", LOT.thickness - thin, width, 2500.0, count)


def planned(*boards):
    job = with_boards(PLAN.job, *boards)
    agree(job, LOTS)
    return stocked(job, LOTS)


@pytest.mark.parametrize("hair", [0.05, MEASURED])
@pytest.mark.parametrize("under", ["thin", "narrow"])
def test_a_board_a_hair_under_a_size_is_taken(under, hair):
    listed = board(hair) if under == "thin" else board(narrow=hair)
    (of,), notes = planned(listed)
    assert notes == []
    assert not any(taken.bought for taken in of.taken)
    for taken in of.taken:
        assert (taken.thickness, taken.width) == (
            listed.thickness,
            listed.width,
        )  # as it is found in the rack


@pytest.mark.parametrize("listed", [board(MEASURED + 0.02), board(narrow=MEASURED + 0.02)])
def test_one_further_under_it_is_not(listed):
    (of,), notes = planned(listed)
    assert all(taken.bought for taken in of.taken)
    assert "board-not-used" in [note.code for note in notes]


@pytest.mark.parametrize("thin", [0.0, 0.05])
def test_boards_as_thick_as_planed_lose_nothing_off_their_faces(thin):
    (of,), _ = planned(board(thin))
    edges = sum(
        sawn.count * cut.strips * (cut.width - LOT.width) * cut.length * LOT.thickness
        for sawn in of.boards
        for cut in sawn.strips
    )
    assert edges > 0
    assert of.volumes.planed == pytest.approx(edges)
