"""Which of several boards that would do is taken, and what is bought beside them."""

from dataclasses import replace

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.boards.solve.boards import widened
from jigs.stages.boards.solve.kinds import rough_thickness
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.wood.garland_boards import LOT, LOTS, PLAN, THICK, board, codes, planned
from tests.jigs.wood.wood_jobs import plan_of, stocked, torus_text, with_boards, with_stock


def test_a_board_without_a_size_that_suits_two_thicknesses_is_warned_of_once():
    thin = replace(LOT, number=2, name="others", thickness=THICK - 2)
    _, findings = planned(board(width=None), lots=(LOT, thin))
    assert codes(findings).count("board-without-size") == 1


def test_a_ready_strip_is_taken_before_a_board_is_ripped_and_keeps_its_thickness_note():
    ready = board(width=LOT.width + 0.4, length=2500, count=3, thickness=THICK + 2)
    (of,), findings = planned(ready, board(count=2, thickness=THICK + 2))
    assert any(sawn.ready for sawn in of.boards)
    assert all(sawn.width == ready.width for sawn in of.boards if sawn.ready)
    assert "thicker-boards" in codes(findings)


def test_the_offcuts_to_keep_are_those_that_were_measured():
    """Kept volume, kept sizes and the shop's least length tell one thing."""
    plan = plan_of("garland")
    for least in (50.0, 300.0, 700.0, 1000.0):
        job = with_stock(plan.job, least_offcut=least, boards=(board(count=2),))
        for of in stocked(job, LOTS)[0]:
            kept = [o for o in of.offcuts if o.length >= least and o.width >= 20]
            assert [o for o in of.offcuts if o.kept] == kept
            volume = sum(o.width * o.length * o.thickness * o.count for o in kept)
            assert of.volumes.kept == pytest.approx(volume)
            assert of.volumes.kept <= of.volumes.offcuts + 1e-6


def job_of(name, more=""):
    text = torus_text(more=more) if name == "torus" else vessel_text(name, more=more)
    return solve(parse(text, "loop.toml"))


def test_boards_are_bought_no_wider_for_pieces_that_a_board_at_hand_gives():
    base = plan_of("platter").wood.lots[0]
    assert base.count == 2
    size = f'species = "cherry", thickness = {base.thickness}, width = 300'
    for length, pieces in ((400, 1), (369, 2)):
        plan = job_of("platter", f"[stock]\nboards = [{{{size}, length = {length}}}]")
        assert plan.wood.lots[0].count == pieces
        (of,) = plan.wood.classes
        assert {taken.width for taken in of.taken if taken.bought} == {150.0}


def test_where_boards_at_hand_are_too_few_bought_ones_are_as_wide_as_a_strip_asks():
    wide = replace(LOT, width=200.0)
    job = with_boards(PLAN.job, board(width=260, length=500))
    assert widened(job, LOTS) == job
    larger = widened(job, (wide,)).workshop.stock
    assert larger.bought_width == 210.0
    assert larger.bought_length == job.workshop.stock.bought_length
    (of,), findings = stocked(with_stock(job, bought_width=larger.bought_width), (wide,))
    assert any(taken.bought for taken in of.taken)
    assert codes(findings) == ["not-enough-boards"]
    many = with_boards(PLAN.job, board(width=260, length=2000, count=9))
    assert widened(many, (wide,)) == many


def test_heights_chosen_from_boards_that_are_too_few_say_what_to_buy_and_that_it_is_planed():
    plan = plan_of("tumbler")
    (note,) = [note for note in plan.notes if note.code == "not-enough-boards"]
    assert (note.severity, note.key) == ("note", "stock.boards")
    of = next(of for of in plan.wood.classes if of.species == "ash")
    at_hand = [board for board in plan.job.workshop.stock.boards if board.species == "ash"]
    same = [board for board in at_hand if abs(board.thickness - of.thickness) < 0.01]
    taken = {taken.bought: taken for taken in of.taken}
    assert taken[False].count == sum(board.count for board in same)  # those of this very thickness first
    assert taken[True].thickness == rough_thickness(plan.job, of.thickness)
    assert f"buy {taken[True].count} of" in note.remedy
    planed = {layer.ring.height + plan.job.rings.flattening for layer in plan.stack.layers}
    listed = [board.thickness for board in plan.job.workshop.stock.boards]
    assert all(min(abs(one - other) for other in listed) < 1e-6 for one in planed)


@pytest.mark.parametrize("size", ["width = 8, length = 600", "width = 200, length = 100"])
def test_heights_are_chosen_from_boards_that_no_strip_fits_and_all_are_bought(size):
    boards = f'[stock]\nboards = [{{species = "maple", thickness = 20, {size}, count = 9}}]'
    text = vessel_text("vase", more=boards).replace('heights = "20 mm"', 'heights = "least wood"')
    plan = solve(parse(text, "vase.toml"))
    assert {layer.ring.height for layer in plan.stack.layers} == {19.7}
    (of,) = plan.wood.classes
    assert all(taken.bought for taken in of.taken)
    (note,) = [note for note in plan.notes if note.code == "not-enough-boards"]
    assert f"buy {of.taken[0].count} of at least 23.0 mm" in note.remedy


def test_of_boards_as_large_the_one_of_that_very_thickness_is_taken_first_however_they_are_listed():
    size = {"width": 75.0, "length": 1900.0}
    thicker, same = board(thickness=THICK + 2, count=2, **size), board(**size)
    for listed in ((thicker, same), (same, thicker)):
        (of,), _ = planned(*listed)
        assert sorted((taken.thickness, taken.count) for taken in of.taken) == [(THICK, 1), (THICK + 2, 1)]
