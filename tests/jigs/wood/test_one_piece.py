"""A whole board for a few pieces: what to ask for instead, tried."""

from itertools import product

from hypothesis import given

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.tables import tables
from tests.jigs.vessel.jobs import text
from tests.jigs.wood.test_volumes import agree, cases
from tests.jigs.wood.wood_jobs import with_stock
from tests.work.reading import rows

DOTTED = '["maple", "maple", ["maple", "maple", "maple", "maple", "maple", "ebony"], "maple"]'


def dotted(more=""):
    return solve(
        parse(text("vase", more=more).replace('species = "maple"', f"species = {DOTTED}"), "vase.toml")
    )


@given(cases())
def test_a_piece_that_is_said_to_do_gives_all_and_is_half_a_board_at_most(case):
    job, asked = case
    for of in wood_classes(job, asked)[0]:
        if of.would_do is None:
            continue
        wide, long = of.would_do
        stock = job.workshop.stock
        assert wide * long <= 0.5 * stock.bought_width * stock.bought_length
        lots = tuple(lot for lot in asked if lot.number in of.lots)
        small = with_stock(job, boards=(), bought_width=wide, bought_length=long)
        (alone,) = agree(small, lots)
        assert [(taken.bought, taken.count) for taken in alone.taken] == [(True, 1)]


def test_a_few_pieces_of_a_wood_are_told_what_offcut_to_ask_for():
    plan = dotted()
    of = next(of for of in plan.wood.classes if of.species == "ebony")
    assert of.would_do is not None
    (note,) = [note for note in plan.notes if note.code == "little-wood"]
    (told,) = [row for row in rows(tables(plan)[-1]) if row["species"] == "ebony"]
    assert (told["offcut-width"], told["offcut-length"]) == of.would_do
    (board,) = of.taken
    rough, wide, long = (f"{size:.1f} mm" for size in (board.thickness, *of.would_do))
    assert f"{rough} × {wide} × {long}" in note.remedy
    assert f"ebony, {rough} thick, is" in note.message
    assert note.message.endswith(f"planed to {plan.job.show(of.thickness)}")
    assert note.severity == "note"


def test_no_piece_half_as_large_in_steps_of_5_mm_is_smaller():
    """All that are, by trying each as the only board."""
    plan = dotted()
    lots = tuple(lot for lot in plan.wood.lots if lot.species == "ebony")
    (of,) = wood_classes(plan.job, lots)[0]
    wide, long = of.would_do
    widths, lengths = range(15, int(wide) + 15, 5), range(200, int(long) + 200, 5)
    smaller = [(w, n) for w, n in product(widths, lengths) if w * n < wide * long * 0.999]
    held = max(lot.strip_length(1) + 300 - lot.held for lot in lots) + 2 * plan.job.workshop.stock.end_trim
    for w, n in smaller[::7]:
        small = with_stock(plan.job, boards=(), bought_width=float(w), bought_length=float(n))
        classes, lacking = wood_classes(small, lots)
        bought = sum(taken.count for one in classes for taken in one.taken)
        assert lacking or bought > 1 or n < held


def test_where_a_board_is_well_used_nothing_is_said():
    plan = dotted("[spares]\nleast = 60\n")
    assert all(of.would_do is None for of in plan.wood.classes if of.species == "maple")
