"""Strips that end too short to hold: what keeps them long, and what helps where nothing does."""

from dataclasses import replace

import pytest

from jigs.stages.boards.solve.cut_list import kept_long
from jigs.stages.boards.solve.sawn import NARROWEST
from jigs.stages.boards.tables import tables
from tests.jigs.wood.whole_jobs import plan_of, torus
from tests.work.reading import operation, rows, work_for


def kept_rows(plan):
    """Of the table of strips that end short; nothing where none does."""
    return [row for table in tables(plan) if table.id == "kept-long" for row in rows(table)]


def on_boards(length, least=300.0):
    return torus(more=f"[stock]\nbought_length = {length}\nleast_offcut = {least}\n")


def sawn_up(more=""):
    """A torus with so many spares that two strips as long as a board are cut to the last piece."""
    (lot,) = torus().wood.lots
    pieces = 2 * lot.pieces_in(2000.0 - 2 * 20.0)
    return torus(more=f"[spares]\nrings = 0\nleast = {pieces - lot.count}\n{more}")


@pytest.mark.parametrize("length", [300, 320])
def test_strips_that_are_short_from_the_start_are_told_what_helps(length):
    plan = on_boards(length)
    assert plan.wood.kept_long
    assert all(kept.fewer is None and kept.length < 300 for kept in plan.wood.kept_long)
    for row in kept_rows(plan):
        assert row["fewer"] is None
        assert "hold-down" in row["note"]
        assert "longer boards" in row["note"]


def test_a_strip_that_is_kept_long_still_gives_a_piece():
    """On boards of 360 mm it would take all 11 pieces, which is no way to cut them; the last strip gives fewer."""
    told = {length: {kept.fewer for kept in on_boards(length).wood.kept_long} for length in (360, 380)}
    assert told == {360: {None}, 380: {11, 3}}


def test_at_the_saw_it_is_told_how_many_pieces_early_to_stop():
    """One board gives all of it, cut to the last piece."""
    for least, fewer in ((102, 1), (120, 2)):
        plan = sawn_up(f"[stock]\nleast_offcut = {least}\n")
        (kept,) = plan.wood.kept_long
        assert kept.fewer == fewer
        cut = operation(work_for(plan), "segments.mitre")
        assert cut.setting("short-1").value == kept.strips == 2
        assert cut.setting("short-1.fewer").value == fewer
        assert cut.setting("short-1.length").value == kept.length >= least


@pytest.mark.parametrize("name", ["garland", "sorrel", "bowl", "staved"])
def test_every_strip_that_ends_short_is_in_the_table(name):
    plan = plan_of(name)
    told = [(row["lot"], row["strips"], row["fewer"], row["length"]) for row in kept_rows(plan)]
    assert told == [(kept.lot, kept.strips, kept.fewer, kept.length) for kept in plan.wood.kept_long]


@pytest.mark.parametrize("name", ["sorrel", "vase", "bowl", "tumbler", "bottle"])
def test_no_board_is_crosscut_so_short_that_a_strip_cannot_be_held_once_its_first_piece_is_cut(name):
    plan = plan_of(name)
    least, lots = plan.job.workshop.stock.least_offcut, {lot.number: lot for lot in plan.wood.lots}
    assert any(len(taken.lengths) > 1 or taken.rest for of in plan.wood.classes for taken in of.taken)
    assert all(kept.fewer is not None for kept in plan.wood.kept_long)
    for of in plan.wood.classes:
        for strip in (strip for board in of.boards for strip in board.strips if lots[strip.lot].held):
            assert lots[strip.lot].left_of(strip.length, 1) >= least


def test_pieces_that_are_held_themselves_and_a_strips_only_piece_ask_for_no_longer_strip():
    short = on_boards(300)
    (of,) = short.wood.classes
    single = tuple(replace(b, strips=tuple(replace(s, pieces=1) for s in b.strips)) for b in of.boards)
    assert kept_long(short.job, short.wood.lots, (of,))
    held = tuple(replace(lot, held=0.0) for lot in short.wood.lots)
    assert kept_long(short.job, held, (of,)) == ()
    assert kept_long(short.job, short.wood.lots, (replace(of, boards=single),)) == ()


def test_an_offcut_that_is_long_enough_to_hold_is_not_called_too_small_for_it():
    plan = plan_of("sorrel")
    least = plan.job.workshop.stock.least_offcut
    (stock,) = (table for table in tables(plan) if table.id == "stock")
    told = {
        (row["length"] < least, row["width"] < NARROWEST, row["note"])
        for row in rows(stock)
        if row["note"] and row["note"].startswith(("keep", "too"))
    }
    assert (False, True, "too narrow to keep") in told
    assert all(
        note == ("too short to hold safely" if short else "too narrow to keep" if narrow else "keep")
        for short, narrow, note in told
    )
