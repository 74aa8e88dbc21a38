"""A half on its truing carrier, from above: the axis is the origin, the planned line y = 0.

A half of a flat ring on its truing board too: x from the board's middle, y from its front edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, pi, sin

from geometry.plane.edges import on_circle
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, Shape, area, box, disc, line, polygon
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, labelled
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan


def carrier(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The half clamped, its ends at the abrasive."""
    own = plan.truing
    blank, t, wide = own.blank, own.sheet, own.half_width
    bar = own.bar_length / 2
    foot = own.foot_start
    first = own.cheeks[0]
    items: tuple[Item, ...] = (
        box(-wide, -own.abrasive - t, wide, -own.abrasive, fill="pale"),
        box(-foot + 3, -own.abrasive, foot - 3, 0.0, fill="blade"),
        area(parts["truing-carrier"].outline, fill="jig"),
        *_half(plan),
        *(_cheek(plan, index) for index in range(len(own.cheeks))),
        box(-bar, own.bolt - 12, bar, own.bolt + 12),
        disc((0.0, own.bolt), 4.0, fill="metal"),
        line((-wide - 6, 0.0), (wide + 6, 0.0), dashes=CENTRE_LINE),
        Dimension((0.0, 0.0), (own.swing, 0.0), by_calliper(show, own.swing), -16.0),
        labelled("sanding board", "truing-board", (-wide + 12, -own.abrasive - t / 2), "left"),
        Callout("abrasive", (-foot + 20, -own.abrasive / 2), "left"),
        Callout("planned line", (wide + 4, 0.0), "right"),
        labelled("carrier", "truing-carrier", (wide - 8, own.depth - 12), "right"),
        labelled("cheek", "truing-cheek", own.place(first, blank.outer_radius + 12, first.offset), "right"),
        labelled("bar and bolt", "truing-bar", (0.0, own.bolt), "left"),
        Callout("half", (-blank.centre * cos(0.5), blank.centre * sin(0.5)), "left"),
    )
    return Figure(
        "glue_up.truing",
        "A half on the truing carrier, from above",
        "The half lies on a flat on the carrier, its rim against the stops, the bar clamped across it. Both ends are "
        "sanded until the carrier's feet meet the bare board: then they lie on the planned line.",
        items,
        height=115.0,
    )


def _half(plan: TorusPlan) -> Iterator[Shape]:
    blank = plan.truing.blank
    w = blank.half_wedge
    for k in range(plan.truing.half):
        corners = [
            on_circle(radius / cos(w), angle)
            for radius, angle in (
                (blank.inner_radius, 2 * k * w),
                (blank.outer_radius, 2 * k * w),
                (blank.outer_radius, 2 * (k + 1) * w),
                (blank.inner_radius, 2 * (k + 1) * w),
            )
        ]
        yield polygon([(x, y - plan.truing.behind) for x, y in corners], fill="wood")


def _cheek(plan: TorusPlan, index: int) -> Shape:
    own = plan.truing
    cheek = own.cheeks[index]
    a, b, half = own.blank.outer_radius, own.cheek_end, own.sheet / 2
    places = ((a, -half), (b, -half), (b, half), (a, half))
    return polygon([own.place(cheek, r, cheek.offset + across) for r, across in places], fill="pale")


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
        labelled("upright", "ring-truing-face", (-half + 8, -FACE / 2), "left"),
        Callout("abrasive", (-half + 20, 0.0), "left"),
        labelled("board", "ring-truing-board", (half - 8, truing.depth - 8), "right"),
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
