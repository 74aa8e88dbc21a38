"""What is told twice of one thing agrees, and two things have two names."""

from math import radians, tau

import pytest

from geometry.lathe.mountings import Arc
from geometry.statics.hoop import bending
from jigs.asked.jobfile import load
from jigs.figures.turning.holding_plan import span_text
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.render.lines import shown
from jigs.stages.held.strength import ALLOWED
from jigs.stages.solids.slim import at_joint
from tests.conftest import VESSELS
from tests.work.works import work_of


@pytest.mark.parametrize("path", VESSELS, ids=lambda path: path.stem)
def test_the_waste_block_is_as_wide_by_the_gauge_as_by_the_order_of_turning(path):
    plan = solve(load(path))
    least, most = plan.stack.waste_across
    assert 0 < least <= most < 2 * plan.gauges.body.stand
    moment = at_joint(plan.job, plan.section, plan.stack.layers)
    assert least == most or bending(1.0, moment, least / 2, 0.0) == pytest.approx(ALLOWED)
    notes = [note for part in parts_of(plan) for note in part.notes if "beside the waste block" in note]
    assert notes
    assert all(f"at most {plan.job.show(most)} across" in note for note in notes)


@pytest.mark.parametrize("name", ["sorrel", "tumbler"])
def test_the_least_push_that_holds_is_rounded_alike_in_its_step_and_its_table(name):
    work = work_of(name)
    steps = [q for one in work.operations for q in one.settings if q.id in ("pull", "push")]
    (table,) = (one for one in work.tables if one.id == "held")
    (row,) = (cell for _, cell in table.rows if cell.id == "pull")
    assert {shown(one, "in") for one in steps if one.value == row.value} == {shown(row, "in")}


@pytest.mark.parametrize(
    ("start", "end", "text"),
    [
        (-35, 215, "325° over 0° to 215°"),
        (246, 294, "246° to 294°"),
        (262, 392, "262° over 0° to 32°"),
        (300, 360, "300° to 360°"),
        (359.8, 370, "0° to 10°"),
    ],
)
def test_angles_round_the_tube_run_from_0_to_360(start, end, text):
    assert span_text(Arc(radians(start), radians(end))) == text


@pytest.mark.parametrize("name", ["garland", "quoit", "millwheel"])
def test_no_angle_round_the_tube_is_negative_or_over_a_turn(name):
    told = work_of(name)
    (holding,) = [table for table in told.tables if table.id == "mountings"]
    ends = [end for row in holding.rows for cell in row if isinstance(cell, tuple) for end in cell]
    turned = [q.value for one in told.operations for q in one.settings if q.id in ("turn.from", "turn.to")]
    assert len(ends) >= 2 * 5
    assert len(turned) >= 6
    assert all(0 <= angle <= tau for angle in (*ends, *turned))
