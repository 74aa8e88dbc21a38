"""A lid's knob: in the square that it is turned from, and over the hole that it is glued into."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.bodies.section import Section
from jigs.figures.figure import Figure
from jigs.figures.items import Arrow, Callout, Dimension, area, box, line, upside_down
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, by_rule
from jigs.figures.turning.vessel import both
from jigs.stages.knob.plan import KnobPlan

PAST = 5.0  # mm of the axis past all else
APART = 6.0  # mm from the tenon's end to the lid, the knob held over its hole


def figures(lid: Section, plan: KnobPlan, show: Show) -> Iterator[Figure]:
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
            line((0.0, low - PAST), (0.0, high + PAST), dashes=CENTRE_LINE),
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
            line((0.0, -lid.height - PAST), (0.0, lift + plan.height + PAST), dashes=CENTRE_LINE),
            Arrow((-side * 0.6, lift), (-side * 0.6, APART)),
            Dimension((tenon, -plan.hole), (tenon, 0.0), by_rule(show, plan.hole), -8.0, side - tenon),
            Dimension((-tenon, 0.0), (tenon, 0.0), by_calliper(show, plan.tenon), 4.0),
            Callout("knob", (plan.widest / 4, lift + plan.height / 2), "right"),
            Callout("lid", (0.5 * side, -0.45 * lid.height), "right"),
        ),
        height=125.0,
    )
