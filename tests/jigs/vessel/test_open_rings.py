"""Open segments: what a plug may press, what is wood, what it holds."""

from math import pi

import numpy as np
import pytest

from geometry.blanks.glue_width import GlueFace, stress
from jigs.stages.held.strength import ALLOWED, PUSH
from jigs.stages.holding_by_mouth.solve.statics import most_push
from tests.jigs.vessel.held import held
from tests.jigs.vessel.jobs import planned
from tests.work.reading import table, values, work_for


def test_the_stress_of_a_pushed_face_balances_force_and_moment():
    face, force, arm = GlueFace(14.0, 7.0), 50.0, 11.0
    x = np.linspace(-3.5, 3.5, 20001)
    pull = (
        np.sqrt(stress(face, force, arm) ** 2 - (force / face.area) ** 2) * x / 3.5
    )  # linear across the width
    assert np.trapezoid(pull * x, x) * face.length == pytest.approx(force * arm, rel=1e-6)


def test_a_plug_that_spreads_an_open_mouth_is_refused_with_the_push_it_stands():
    for hold in ("taper", "inside"):
        plan = held("open", hold)
        assert plan.reversing.plug is None
        (barred,) = plan.reversing.barred
        assert barred.fault == "open"
        assert 0.0 < barred.found < barred.works
        assert barred.works >= PUSH


def test_the_push_is_what_the_glue_of_one_segment_stands():
    """By hand for the vase's taper: the top ring's 8 segments, each on two halves of the ring below."""
    closed = held("vase", "taper").reversing.plug
    plan = held("open", "taper")
    top, section = plan.stack.layers[-1].ring, plan.section
    inner, outer = section.wall_at(top.bottom)
    face = GlueFace(2 * ((pi * (inner + outer) / 8) / 2 - 5), outer - inner)
    each = closed.spread / 8
    assert most_push(plan.job, section, plan.stack.layers, closed) == pytest.approx(
        ALLOWED / stress(face, each, section.height - top.bottom)
    )


def test_the_same_vessel_is_held_closed_or_by_a_bolt_that_does_not_spread_it():
    assert held("vase", "taper").reversing.plug is not None
    plan = held("open", "auto")
    assert plan.reversing.plug is None
    assert plan.reversing.hole is not None
    bolted = held("open", "auto", base_hole=plan.reversing.hole).reversing.plug
    assert bolted is not None
    assert bolted.spread == 0.0


def test_gaps_are_no_wood_and_hold_nothing():
    plan = planned("open")
    finished = table(work_for(plan), "finished")
    assert values(finished)["wood"] == pytest.approx(plan.stack.finished_wood)
    assert plan.stack.finished_wood < 0.95 * plan.section.volume
    lowest = next(layer.ring.bottom for layer in plan.stack.layers if layer.kind == "open")
    assert plan.stack.open_from == lowest
    assert values(finished)["open-from"] == lowest
    assert values(finished)["holds"] == plan.stack.capacity
    assert not [row for row in finished.rows if "brim" in str(row[0])]
    hollow = [
        pi * plan.section.wall_at(z)[0] ** 2 for z in np.linspace(plan.section.inner.bottom, lowest, 4001)
    ]
    assert plan.stack.capacity == pytest.approx(
        np.trapezoid(hollow, dx=(lowest - plan.section.inner.bottom) / 4000), rel=2e-3
    )


def test_a_closed_vessel_holds_to_the_brim():
    plan = planned("vase")
    assert plan.stack.open_from is None
    assert plan.stack.capacity == pytest.approx(plan.section.capacity)
    assert plan.stack.finished_wood == pytest.approx(plan.section.volume)
