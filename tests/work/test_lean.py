"""A rack without sleds: what is in it, and a book that is right about what is used instead."""

from functools import cache
from pathlib import Path

import pytest

from jigs.forms.work import work
from jigs.parts.families import family_of
from jigs.sets.rack import rack
from jigs.work.lean import left_out
from jigs.work.shown import shown_by
from tests.examples import plan_of_example

CONFIGS = Path(__file__).parents[2] / "configs"
NAMES = ("garland", "millwheel", "sorrel", "trellis")
ESSENTIAL = {"coupon", "angles", "gauges", "standing", "sizes", "holding", "mountings"}


@cache
def lean(name):
    plan = plan_of_example(name)
    parts, notes = rack(plan, lean=True)
    without = left_out(parts)
    return plan, parts, without, work(plan, parts, notes, without)


@cache
def full(name):
    plan, parts, _, _ = lean(name)
    return work(plan, parts)


each = pytest.mark.parametrize("name", NAMES)


@each
def test_what_is_left_is_gauges_and_reference_pieces(name):
    _, parts, without, told = lean(name)
    kept = [part for part in parts if part not in without]
    assert {part.family for part in kept} <= ESSENTIAL | {"truing"}
    assert {p.name for p in kept if p.family == "truing"} <= {"end-wedge", "half-check", "half-ring-check"}
    assert all(part in kept for part in parts if part.family in ESSENTIAL and part.name != "sheet-coupon")
    assert [entry.name for entry in told.rack] == [part.name for part in kept]


@each
def test_the_book_names_no_part_that_is_not_made(name):
    _, _, without, told = lean(name)
    names = {part.name for part in without}
    assert without
    assert not [use.part for one in told.operations for use in one.jigs if use.part in names]
    assert not [one.id for one in told.operations if one.stage == "building" and not one.jigs]


@each
def test_every_step_that_used_one_says_what_is_used_instead(name):
    _, _, without, told = lean(name)
    names = {part.name: family_of(part.family).own for part in without}
    by_id = {one.id: one for one in told.operations}
    told_of = 0
    for one in full(name).operations:
        lost = {names[use.part] for use in one.jigs if use.part in names}
        if lost and one.stage not in ("building", "coupon", "printing", "cutting_out") and one.id in by_id:
            own = by_id[one.id]
            told_of += 1
            assert {of.instead for of in lost} <= {*own.how}
            assert all(of.name in own.does for of in lost)
            assert own.settings == one.settings
            assert not shown_by(own)
    assert told_of >= 3


@each
def test_whatever_is_sawn_on_the_turners_own_sled_warns_first_that_it_is_not_proved(name):
    _, _, _, told = lean(name)
    own = [one for one in told.operations if "sled.own" in one.cautions]
    assert own
    assert {one.place for one in own} <= {"table saw", "bandsaw"}
    assert all(one.cautions[0] == "sled.own" for one in own)
    cuts = [one for one in told.operations if one.id.startswith(("flat-segments.cut", "wedge_rings.first"))]
    assert all(one in own for one in cuts)
    assert "sled.own" in {caution.id for caution in told.cautions}
    assert "held-pieces" not in {table.id for table in told.tables}


@each
def test_less_is_bought_and_less_time_is_taken(name):
    _, _, _, told = lean(name)
    whole = full(name)
    assert sum(one.minutes for one in told.operations) < sum(one.minutes for one in whole.operations)
    boards = [[(g.id, g.amount) for g in one.goods if g.group == "boards"] for one in (told, whole)]
    assert boards[0] == boards[1] or len(boards[0]) <= len(boards[1])
    assert sum(1 for g in told.goods) <= sum(1 for g in whole.goods)


@each
def test_the_order_of_the_work_stays(name):
    _, _, _, told = lean(name)
    kept = {one.id for one in told.operations}
    assert [one.id for one in told.operations if one.stage not in ("printing", "cutting_out")] == [
        one.id
        for one in full(name).operations
        if one.id in kept and one.stage not in ("printing", "cutting_out")
    ]
