"""A lid on its pot, both cut through the axis, and the flange in the mouth, larger."""

from __future__ import annotations

from geometry.bodies.section import Section
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, area, line, turned_over
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper
from jigs.figures.turning.vessel import both
from jigs.stages.knob.plan import KnobPlan
from jigs.stages.lid.plan import LidPlan

PAST = 6.0  # mm of the axis past lid and pot


def on_pot(lid: Section, plan: LidPlan, knob_plan: KnobPlan | None, show: Show) -> Figure:
    """The pot upright, the lid as it lies on it."""
    pot, flange, mouth = plan.pot_section, plan.fit.flange, plan.pot_mouth / 2
    top = plan.lies + plan.step
    placed = turned_over(lid.contour, top)
    knob = [one.moved(0.0, top) for one in both(knob_plan.contour)] if knob_plan else []
    high = top + (knob_plan.height if knob_plan else 0.0)
    side = max(lid.outer.radii(0.0, lid.height)[1], pot.outer.radii(0.0, pot.height)[1])
    end = plan.lies - plan.seat
    return Figure(
        "lid.on",
        f"The lid on its pot, {plan.pot}, cut through the axis",
        f"The lid lies on the pot's {plan.rests}, all round. Between flange and mouth stands the gap of its fit.",
        (
            *(area(one, fill="other wood") for one in both(pot.contour)),
            *(area(one, fill="wood") for one in both(placed)),
            *(area(one, fill="other wood") for one in knob),
            line((0.0, -PAST), (0.0, high + PAST), dashes=CENTRE_LINE),
            Dimension((-flange, end), (flange, end), by_calliper(show, 2 * flange), -8.0),
            Dimension(
                (-mouth, pot.height),
                (mouth, pot.height),
                by_calliper(show, 2 * mouth),
                8.0,
                high - pot.height + PAST,
            ),
            Callout("lid", (side * 0.5, plan.lies + 0.6 * plan.step), "right"),
            Callout(plan.rests, ((mouth + min(lid.rim_radius + 2, side)) / 2, plan.lies), "right"),
            Callout("pot", ((pot.outer.radius_at(pot.height / 3)) - 2, pot.height / 3), "right"),
        ),
        height=125.0,
    )
