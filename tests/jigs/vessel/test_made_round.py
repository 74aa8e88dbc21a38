"""What is made round or cut short: on what, from how large a blank, and how it is held."""

import pytest

from jigs.forms.solve import solve
from tests.jigs.vessel.test_middle import plan_of
from tests.jigs.vessel.test_stems import goblet, upright
from tests.work.reading import work_for

SOLID = 'base = "solid"\n'
BAND = "[bandsaw]\nheight = 200\n"


def told(plan, of):
    return [one for one in work_for(plan).operations if one.id.startswith(of)]


@pytest.mark.parametrize(
    ("planned", "machines"),
    [
        (upright, {"lathe"}),  # no bandsaw
        (
            lambda: solve(goblet(heights="[13, 90, 16]", more="upright = [2]\n" + BAND)),
            {"lathe"},
        ),  # too small for it
        (lambda: plan_of(more=SOLID), {"lathe"}),
        (lambda: plan_of(more=SOLID + BAND), {"bandsaw"}),
        (lambda: plan_of(more=SOLID + "[bandsaw]\nheight = 15\n"), {"lathe"}),  # too low
    ],
)
def test_a_disc_is_bandsawn_only_where_there_is_one_and_it_is_large(planned, machines):
    discs = told(planned(), "solids.disc")
    assert {one.place for one in discs} == machines


def test_a_job_without_a_bandsaw_is_told_nothing_of_one():
    operations = work_for(upright()).operations
    assert "bandsaw" not in {one.place for one in operations}
    assert not [one.id for one in operations if "bandsaw" in f"{one.does} {one.how}".lower()]


def test_a_disc_is_sawn_from_a_square_that_the_circle_lies_inside_of():
    plan = upright()
    (base,) = (lot for lot in plan.wood.lots if lot.piece == "base" and 1 in lot.rings)
    assert base.longer == base.count * base.width == 2 * plan.stack.layers[0].ring.outer + 4.0


def test_short_pieces_are_crosscut_by_hand_and_a_length_to_hold_is_counted():
    plan = plan_of(more='base = "segmented"\ncore_plug = 30')
    (plug,) = (lot for lot in plan.wood.lots if lot.piece == "plug")
    (square,) = told(plan, "pieces.square")
    assert (square.place, square.rings) == ("bench", plug.rings)
    assert square.setting("set-aside").value == plug.held > 0
    assert plug.strip_length(plug.wanted) >= plug.count * plug.longer + plug.held


def test_long_pieces_are_crosscut_at_the_table_saw():
    plan = plan_of(more=f"{SOLID}[stock]\nleast_offcut = 150\n")
    lots = [lot for lot in plan.wood.lots if lot.way == "square"]
    long = [lot for lot in lots if lot.longer >= plan.job.workshop.stock.least_offcut]
    at_saw = [one for one in told(plan, "pieces.square") if one.place == "table saw"]
    assert sum(one.pieces for one in at_saw) == sum(lot.wanted for lot in long) > 0
    by_hand = [one for one in told(plan, "pieces.square") if one.place == "bench"]
    assert sum(one.pieces for one in by_hand) == sum(lot.wanted for lot in lots if lot not in long)
