"""Thick boards at hand, planed down to match where the job says so."""

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from tests.jigs.vessel.jobs import text

BOARD = '{species = "maple", thickness = 40, width = 200, length = 1500, count = 3}'


def planned(stock: str):
    return solve(parse(text("vase", more=f"[stock]\nboards = [{BOARD}]\n{stock}"), "v.toml"))


def test_much_thicker_boards_stay_whole_as_a_rule():
    taken = [board for kind in planned("").wood.classes for board in kind.taken]
    assert all(board.bought for board in taken)


def test_they_are_planed_down_where_the_job_allows_it_and_every_cubic_millimetre_is_told():
    plan = planned("planed_down = 20")
    kinds = plan.wood.classes
    taken = [board for kind in kinds for board in kind.taken]
    assert not any(board.bought for board in taken)
    assert {board.thickness for board in taken} == {40}
    assert [note.code for note in plan.notes if note.code == "thicker-boards"]
    for kind in kinds:
        own = sum(b.count * b.thickness * b.width * b.length for b in kind.taken)
        assert kind.volumes.stock == pytest.approx(own)
        assert kind.volumes.left == pytest.approx(0, abs=1e-3)
        faces = sum((b.thickness - kind.thickness) * b.width * b.length * b.count for b in kind.boards)
        assert kind.volumes.planed >= faces - 1e-3


def test_no_farther_than_it_says():
    plan = planned("planed_down = 16")  # 40 - 20.3 - 3 of planing is 16.7
    assert all(board.bought for kind in plan.wood.classes for board in kind.taken)
