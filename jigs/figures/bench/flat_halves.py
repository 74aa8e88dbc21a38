"""A half of a flat ring on its truing board, from above: x from the board's middle, y from its front edge."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, pi, sin

from jigs.figures.figure import Callout, Dimension, Figure, Item, Point
from jigs.figures.shapes import area, box, line, polygon
from jigs.figures.told import Show, by_calliper, named
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan

FACE, LINE = 12.0, (5.0, 1.2, 1.0, 1.2)


def flat_half(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Figure | None:
    """The widest ring's; None where no ring has halves."""
    truing = plan.ring_boards.truing
    if truing is None:
        return None
    tip, numbers = truing.tips[0]
    ring = next(layer.ring for layer in plan.stack.layers if layer.number in numbers)
    mu, middle = pi / ring.segments, (0.0, truing.line)
    inner, outer = ring.core / cos(mu), ring.outer / cos(mu)

    def at(radius: float, k: int) -> Point:
        return (middle[0] + radius * cos(2 * k * mu), middle[1] + radius * sin(2 * k * mu))

    half = truing.width / 2
    items: list[Item] = [
        area(parts["ring-truing-board"].outline, fill="jig"),
        box(-half, -FACE, half, 0.0, fill="pale"),
        line((-half, 0.0), (half, 0.0), paint="blade", width=0.6),
        *(
            polygon([at(inner, k), at(outer, k), at(outer, k + 1), at(inner, k + 1)], fill="wood")
            for k in range(ring.segments // 2)
        ),
        line((-half, truing.line), (half, truing.line), dashes=LINE),
        Dimension((0.0, truing.line), (tip, truing.line), by_calliper(show, tip), -16.0),
        Callout(named("upright", "ring-truing-face"), (-half + 8, -FACE / 2), "left"),
        Callout("abrasive", (-half + 20, 0.0), "left"),
        Callout(named("board", "ring-truing-board"), (half - 8, truing.depth - 8), "right"),
        Callout("tip, at its tick", (tip, truing.line), "right"),
        Callout("half", at((inner + outer) / 2, ring.segments // 2 - 1), "left"),
    ]
    return Figure(
        "flat_rings.true",
        "A half ring on the truing board, from above",
        "The half lies flat, both tips at the ticks of its ring, its ends over the front edge. The board slides along "
        "the upright until the abrasive marks all of both ends.",
        tuple(items),
        height=100.0,
    )
