"""What every set-up shows: the blade's line, what is fed, what lies under the base."""

from __future__ import annotations

from jigs.figures.items import Arrow, Item, Point, Shape
from jigs.figures.shapes import box, line
from jigs.plans.torus import TorusPlan

CENTRE_LINE = (5.0, 1.2, 1.0, 1.2)
HIDDEN = (1.8, 1.2)
BLADE_SHOWN = 45.0  # mm of the blade beyond the base


def blade(left: float, right: float, y: float) -> Shape:
    """Beyond a base whose far edge is there, before the cut."""
    return box(left, y, right, y + BLADE_SHOWN, fill="blade")


def blade_line(x: float, low: float, high: float) -> Shape:
    """Where the cut runs."""
    return line((x, low), (x, high), paint="blade", width=0.3, dashes=CENTRE_LINE)


def hidden(*points: Point) -> Shape:
    """What lies under something."""
    return line(*points, paint="grey", dashes=HIDDEN)


def runner(sides: tuple[float, float], low: float, high: float) -> tuple[Item, ...]:
    """Under the base, in the mitre slot."""
    return tuple(hidden((x, low), (x, high)) for x in sides)


def feed(x: float, low: float, high: float) -> Arrow:
    """Away from the operator, beside the base."""
    return Arrow((x, low), (x, high), "feed")


def outward(plan: TorusPlan) -> str:
    """What of the ring lies against the stop."""
    return "corner" if plan.blank.arris_out else "flat"
