"""Strips that end too short to hold: what keeps them long, and what helps where nothing does."""

import re
from dataclasses import replace

import pytest

from jigs.solving.wood.kept_long import kept_long
from jigs.words.wood import wood_sections
from tests.jigs.wood.whole_jobs import plan_of, torus


def kept_rows(plan):
    (section,) = [of for of in wood_sections(plan) if of.title == "Offcuts"]
    return {
        row.name: str(row.value)
        for row in section.rows
        if "to keep" in row.name or "from the start" in row.name
    }


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
    ((name, value),) = kept_rows(plan).items()
    assert name.endswith("too short from the start")
    assert "fewer" not in value
    assert "hold-down" in value
    assert "longer lengths of board" in value


def test_a_strip_that_is_kept_long_still_gives_a_piece():
    """On boards of 360 mm it would take all 11 pieces, which is no way to cut them; the last strip gives fewer."""
    told = {length: {kept.fewer for kept in on_boards(length).wood.kept_long} for length in (360, 380)}
    assert told == {360: {None}, 380: {11, 3}}


def test_one_piece_fewer_is_told_in_the_singular():
    """One board gives all of it, cut to the last piece."""
    counts = {}
    for least in (102, 120):
        plan = sawn_up(f"[stock]\nleast_offcut = {least}\n")
        for value in kept_rows(plan).values():
            counts[plan.wood.kept_long[0].fewer] = re.match(r"[\d to]+ pieces?(?= fewer)", value)[0]
    assert counts[1] == "1 piece"
    assert counts[2] == "2 pieces"


@pytest.mark.parametrize("name", ["garland", "sorrel", "bowl", "staved"])
def test_every_strip_that_ends_short_is_counted_in_one_of_the_two(name):
    plan = plan_of(name)
    strips = sum(int(re.search(r"(\d+) strips?", row)[1]) for row in kept_rows(plan) if "strip" in row)
    assert strips == sum(kept.strips for kept in plan.wood.kept_long)


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
