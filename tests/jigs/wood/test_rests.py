"""Rests of boards for thicker strips: thinner ones are sawn from them where that saves a board to buy."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jigs.asked.job_wood import Board
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.tables import tables
from tests.jigs.wood.test_volumes import agree, cases, lots
from tests.jigs.wood.whole_jobs import plan_of, prepared_of
from tests.jigs.wood.wood_jobs import lots_of, stocked, with_boards
from tests.work.reading import rows

SAVING = ("few spares",)
saving = pytest.mark.parametrize("name", SAVING)


def bought(classes):
    return sum(taken.count for of in classes for taken in of.taken if taken.bought)


def rests_of(classes):
    return [taken for of in classes for taken in of.taken if taken.rest_of is not None]


def bought_thickness_by_thickness(job, asked):
    """Each wood and thickness on its own, the thickest first, from what is at hand and left of it; None where any
    of them lacks something."""
    count = 0
    for thickness in sorted({lot.thickness for lot in asked}, reverse=True):
        own = tuple(lot for lot in asked if lot.thickness == thickness)
        classes, lacking = wood_classes(job, own)
        if lacking:
            return None
        count += bought(classes)
        used = Counter[tuple[object, ...]]()
        for of in classes:
            for taken in of.taken:
                used[of.species, taken.thickness, taken.width, taken.length] += (
                    0 if taken.bought else taken.count
                )
        left = []
        for board in job.workshop.stock.boards:
            taken = min(board.count, used[board.species, board.thickness, board.width, board.length])
            used[board.species, board.thickness, board.width, board.length] -= taken
            left.append(replace(board, count=board.count - taken))
        job = with_boards(job, *left)
    return count


@saving
def test_what_is_left_of_a_thick_board_is_sawn_for_thinner_strips_instead_of_a_second_board(name):
    plan = plan_of(name)
    classes = plan.wood.classes
    assert rests_of(classes)
    assert bought(classes) == bought_thickness_by_thickness(plan.job, lots_of(plan)) - 1
    agree(plan.job, lots_of(plan))


@saving
def test_a_rest_is_taken_from_the_offcuts_that_it_was_among(name):
    classes = plan_of(name).wood.classes
    given = Counter[tuple[object, ...]]()
    for of in classes:
        for rest in of.passed_on:
            given[of.species, of.thickness, rest.thickness, rest.width, rest.length] += rest.count
    taken = Counter[tuple[object, ...]]()
    for of in classes:
        for rest in rests_of([of]):
            assert rest.rest_of > of.thickness
            taken[of.species, rest.rest_of, rest.thickness, rest.width, rest.length] += rest.count
    assert taken == given


@st.composite
def several(draw):
    """A job with any stock, and lots of up to three thicknesses."""
    job, asked = draw(cases())
    thickness = asked[0].thickness
    for under in draw(st.lists(st.sampled_from([0.1, 0.5, 2.0, 5.5, 7.0]), max_size=2, unique=True)):
        if thickness - under > 2:
            asked += draw(lots(thickness - under))
    return job, tuple(
        replace(lot, number=number, name=f"lot {number}") for number, lot in enumerate(asked, 1)
    )


@settings(max_examples=12, deadline=None)
@given(several())
def test_no_more_is_bought_than_thickness_by_thickness_and_all_wood_is_accounted_for(case):
    job, asked = case
    classes = agree(job, asked)
    alone = bought_thickness_by_thickness(job, asked)
    if alone is not None:
        assert {number for of in classes for number in of.lots} == {lot.number for lot in asked}
        assert bought(classes) <= alone


def test_where_no_board_is_saved_none_is_sawn_from_rests():
    """The boards at hand are enough."""
    plan = plan_of("staved")
    boards = [Board(of.species, of.thickness, 150.0, 2000.0, 3) for of in plan.wood.classes]
    classes, _ = stocked(with_boards(plan.job, *boards), lots_of(plan))
    assert not rests_of(classes)
    assert not [of for of in classes if of.passed_on]


def test_a_piece_that_was_set_aside_too_thick_for_thinner_strips_is_not_sawn_for_them():
    """It is as thick as it was bought: the lengths beside it are planed without it."""
    plan = plan_of("bowl")
    thick, thin = sorted(
        (of for of in plan.wood.classes if of.species == "ash"), key=lambda of: -of.thickness
    )
    (taken,), stock = thick.taken, plan.job.workshop.stock
    assert taken.rest > 1000
    assert (
        thick.thickness - thin.thickness
        < stock.planing + stock.planed_down
        < taken.thickness - thin.thickness
    )
    assert not rests_of([thin])


@saving
def test_the_stock_says_which_board_is_left_over_and_what_of(name):
    plan = plan_of(name)
    _, stock, *_, wood = (rows(table) for table in tables(plan))
    rests = rests_of(plan.wood.classes)
    told = [row for row in stock if "left over from thicker boards" in str(row["note"])]
    assert [(row["thickness"], row["width"], row["length"]) for row in told] == [
        (rest.thickness, rest.width, rest.length) for rest in rests
    ]
    passed = [row for row in stock if row["note"] == "sawn for thinner strips"]
    assert len(passed) == sum(len(of.passed_on) for of in plan.wood.classes)
    assert sum(row["boards-bought"] for row in wood) == bought(plan.wood.classes)


@pytest.mark.parametrize("name", [*SAVING, "sorrel", "tumbler"])
def test_boards_that_rests_are_left_of_are_ripped_before_the_rests_are_crosscut_and_planed(name):
    wood = plan_of(name).wood
    made = list(enumerate(prepared_of(plan_of(name))))
    for of in wood.classes:
        for rest in rests_of([of]):
            (above,) = [a for a in wood.classes if (a.species, a.thickness) == (of.species, rest.rest_of)]
            ripped = [k for k, (kind, run) in made if kind == "rip" and set(run.lots) & set(above.lots)]
            own = [k for k, (kind, run) in made if kind != "rip" and set(run.lots) & set(of.lots)]
            assert max(ripped) < min(own)
    kinds = [kind for _, (kind, _) in made]
    assert (kinds == sorted(kinds)) is (name not in SAVING)  # "crosscut" before "mill" before "rip"


@settings(max_examples=12, deadline=None)
@given(several())
def test_a_rest_is_as_thick_as_it_was_when_it_was_set_aside_and_no_more_is_planed_off_it_than_off_a_board(
    case,
):
    job, asked = case
    classes, _ = wood_classes(job, asked)
    for of in classes:
        for rest in rests_of([of]):
            (above,) = [a for a in classes if (a.species, a.thickness) == (of.species, rest.rest_of)]
            rough = {(t.width, t.rest, t.thickness + t.thin) for t in above.taken}
            beside = {(board.left, board.length, above.thickness) for board in above.boards}
            assert (rest.width, rest.length, rest.thickness) in rough | beside
            assert (
                rest.thickness - of.thickness
                <= job.workshop.stock.planing + job.workshop.stock.planed_down + 1e-6
            )
