"""A lid on its pot, cut through the axis; its knob in the square that it is turned from, and over its hole."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.bodies.section import Section
from jigs.figures.figure import Figure
from jigs.figures.items import Arrow, Callout, Dimension, area, box, line, turned_over, upside_down
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, by_rule
from jigs.figures.turning.vessel import both
from jigs.stages.knob.plan import KnobPlan
from jigs.stages.lid.plan import LidPlan

PAST = 6.0  # mm of the axis past lid and pot
PAST_KNOB = 5.0  # and past a knob and all round it
APART = 6.0  # mm from the tenon's end to the lid, the knob held over its hole


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


def knob(lid: Section, plan: KnobPlan, show: Show) -> Iterator[Figure]:
    """Turned, then set in."""
    yield _turned(plan, show)
    yield _bored(lid, plan, show)


def _turned(plan: KnobPlan, show: Show) -> Figure:
    """Upright, the headstock's end below; the waste shared between both ends."""
    half, tenon, wide = plan.across / 2, plan.tenon / 2, plan.widest / 2
    waste = (plan.long - plan.length - plan.height) / 2
    low, high = -plan.length - waste, plan.height + waste
    return Figure(
        "knob.turn",
        "The knob in its square, cut through the axis",
        "The knob stands in the square that it is turned from, its tenon towards the headstock, waste at both ends.",
        (
            box(-half, low, half, high, fill="waste"),
            *(area(one, fill="wood") for one in both(plan.contour)),
            line((0.0, low - PAST_KNOB), (0.0, high + PAST_KNOB), dashes=CENTRE_LINE),
            Dimension(
                (-tenon, -plan.length), (tenon, -plan.length), by_calliper(show, plan.tenon), -8.0, -waste
            ),
            Dimension((-wide, plan.height), (wide, plan.height), by_calliper(show, plan.widest), 8.0, waste),
            Dimension((-half, -plan.length), (-half, 0.0), by_rule(show, plan.length), 7.0),
            Dimension((-half, 0.0), (-half, plan.height), by_rule(show, plan.height), 7.0),
            Callout("towards the tailstock", (0.0, high), "right"),
            Callout("shoulder", (wide * 0.5, 0.0), "right"),
            Callout("tenon", (tenon, -plan.length / 2), "right"),
            Callout("drive, headstock", (0.0, low), "right"),
        ),
        height=125.0,
    )


def _bored(lid: Section, plan: KnobPlan, show: Show) -> Figure:
    """The lid as it lies on its flange, its top at height 0."""
    tenon, side, lift = plan.tenon / 2, lid.outer.radii(0.0, lid.height)[1], plan.length + APART
    return Figure(
        "knob.bore",
        "The knob over its hole in the lid, cut through the axis",
        "The hole is bored into the middle of the lid's top, square to it and a little deeper than the tenon is long.",
        (
            *(area(upside_down(one), fill="wood") for one in both(lid.contour)),
            box(-tenon, -plan.hole, tenon, 0.0, fill="paper"),
            *(area(one.moved(0.0, lift), fill="other wood") for one in both(plan.contour)),
            line((0.0, -lid.height - PAST_KNOB), (0.0, lift + plan.height + PAST_KNOB), dashes=CENTRE_LINE),
            Arrow((-side * 0.6, lift), (-side * 0.6, APART)),
            Dimension((tenon, -plan.hole), (tenon, 0.0), by_rule(show, plan.hole), -8.0, side - tenon),
            Dimension((-tenon, 0.0), (tenon, 0.0), by_calliper(show, plan.tenon), 4.0),
            Callout("knob", (plan.widest / 4, lift + plan.height / 2), "right"),
            Callout("lid", (0.5 * side, -0.45 * lid.height), "right"),
        ),
        height=125.0,
    )
