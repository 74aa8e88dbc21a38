"""From boards to strips: crosscut first, then planed, then ripped; nothing that is ready as it is is worked on."""

import pytest

from jigs.asked.job_wood import Board
from jigs.stages.boards.at_hand import MEASURED
from jigs.stages.boards.steps.prepared import prepared
from tests.jigs.wood.whole_jobs import ALL, plan_of, prepared_of
from tests.jigs.wood.wood_jobs import lots_of, stocked, with_boards, with_stock
from tests.work.works import work_of

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS
each = pytest.mark.parametrize("name", ALL)


def made(*boards, **stock):
    """The class of the segments, and the runs to its strips."""
    job = with_stock(with_boards(PLAN.job, *boards), **stock)
    (of,) = stocked(job, LOTS)[0]
    return of, dict(prepared(job, LOTS, (of,)))


def board(over=0.0, width=150.0, count=4):
    return Board("maple", LOT.thickness + over, width, 1900.0, count)


def settings(run):
    return {setting.id: setting.value for setting in run.settings}


@each
def test_boards_are_crosscut_to_the_lengths_that_are_sawn_before_any_is_planed_or_ripped(name):
    wood, by_number = plan_of(name).wood, {lot.number: lot for lot in plan_of(name).wood.lots}
    all_of = list(enumerate(prepared_of(plan_of(name))))
    crosscuts = [(k, run) for k, (kind, run) in all_of if kind == "crosscut"]
    boards = [board for of in wood.classes for board in of.boards]
    assert sum(run.pieces for _, run in crosscuts) == sum(board.count for board in boards)
    for of in wood.classes:
        own = [(k, run) for k, run in crosscuts if set(run.lots) == set(of.lots)]
        for (_, run), taken in zip(own, of.taken, strict=True):
            told = settings(run)
            lengths = sorted(taken.lengths, reverse=True)
            named = [s for s in run.settings if s.id.startswith("length.")]
            counted = [int(n) for s in named for n in s.label.split(",")[0].split()[1::2]]
            assert (min(counted), max(counted)) == (1, len(lengths))
            assert {s.value for s in named} <= set(lengths)
            assert tuple(told[f"boards.{of}"] for of in ("thickness", "width", "length")) == (
                taken.thickness,
                taken.width,
                taken.length,
            )
            assert told.get("kept-whole", 0.0) == taken.rest
        later = [k for k, (kind, run) in all_of if kind in ("mill", "rip") and set(run.lots) & set(of.lots)]
        assert max(k for k, _ in own) < min(later)
        assert {by_number[lot].thickness for _, run in own for lot in run.lots} == {of.thickness}


@each
def test_only_lengths_that_are_too_thick_are_planed(name):
    wood = plan_of(name).wood
    thick = [board for of in wood.classes for board in of.boards if board.thickness > of.thickness + MEASURED]
    planed = [run for kind, run in prepared_of(plan_of(name)) if kind == "mill"]
    assert sum(run.pieces for run in planed) == sum(board.count for board in thick)
    assert {lot for run in planed for lot in run.lots} == {cut.lot for board in thick for cut in board.strips}


@pytest.mark.parametrize(("over", "planed"), [(-0.05, 0), (0.0, 0), (0.05, 0), (0.5, 1)])
def test_the_faces_of_boards_as_thick_as_the_strips_are_left_as_they_are(over, planed):
    of, runs = made(board(over))
    assert not any(taken.bought for taken in of.taken)
    assert ("mill" in runs) == bool(planed)


def test_strips_that_are_ready_are_neither_ripped_nor_counted_among_those_that_are():
    of, runs = made(board(width=LOT.width))
    assert all(sawn.ready for sawn in of.boards)
    assert set(runs) == {"crosscut"}
    of, runs = made(board(width=LOT.width, count=1), board(width=LOT.width + 20, count=4))
    ready = [sawn for sawn in of.boards if sawn.ready]
    assert ready
    assert runs["rip"].pieces == sum(
        sawn.count * cut.strips for sawn in of.boards if not sawn.ready for cut in sawn.strips
    )


def test_a_narrow_board_that_is_wider_than_its_strip_has_its_edges_planed():
    of, runs = made(board(width=LOT.width + 0.4))
    assert all(sawn.ready for sawn in of.boards)
    assert set(runs) == {"crosscut", "edges"}
    assert settings(runs["edges"]) == {"width": LOT.width}
    assert runs["edges"].pieces == sum(sawn.count for sawn in of.boards)


def test_boards_whose_ends_are_good_and_that_stay_whole_are_not_crosscut():
    assert "crosscut" in made(board())[1]
    assert "crosscut" not in made(board(), end_trim=0.0)[1]


def test_boards_of_several_sizes_are_crosscut_in_one_operation_each_with_its_lengths():
    told = work_of("tumbler")
    runs = [run for kind, run in prepared_of(plan_of("tumbler")) if kind == "crosscut"]
    crosscuts = [one for one in told.operations if one.id.startswith("boards.crosscut")]
    assert len(crosscuts) < len(runs)
    assert sum(one.pieces for one in crosscuts) == sum(run.pieces for run in runs)
    planned = [s.value for run in runs for s in run.settings if s.id != "end-trim"]
    assert [s.value for one in crosscuts for s in one.settings if s.id != "end-trim"] == planned
    assert all(sum(s.id == "end-trim" for s in one.settings) == 1 for one in crosscuts)
    numbers = [
        s.id for one in crosscuts for s in one.settings if s.id.startswith("boards.") and s.kind == "count"
    ]
    assert numbers == [f"boards.{number}" for number, _ in enumerate(runs, 1)]


def test_what_stays_in_one_piece_is_kept_as_thick_as_it_came():
    plan, told = plan_of("sorrel"), work_of("sorrel")
    (crosscut,) = (one for one in told.operations if one.id.startswith("boards.crosscut"))
    assert any("in one piece, unplaned" in move for move in crosscut.how)
    for number, of in enumerate(plan.wood.classes, 1):
        (taken,) = of.taken
        assert crosscut.setting(f"kept-whole.{number}").value == taken.rest > 0
        aside = (taken.width, taken.rest, taken.thickness)
        assert aside in {(offcut.width, offcut.length, offcut.thickness) for offcut in of.offcuts}
