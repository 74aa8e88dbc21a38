"""The box for slips from above: a slip in it, its block, the hold-down. Places are its layout's."""

from __future__ import annotations

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, box, disc, line
from jigs.figures.told import Show, by_rule, labelled
from jigs.stages.slips.layout import BESIDE, SlipBox

IN_HAND = 40.0  # mm of the slip shown past the base
BLOCK = 24.0


def slip_box(own: SlipBox, show: Show) -> Figure:
    """The longest slip against its block."""
    (left, right), (low, high) = own.ends, own.sides
    start, end = own.hold
    over = own.tallest + BESIDE - 5
    corners = [(start, 1.0), (end, 1.0), (end, over), (start, over), (start, 1.0)]
    return Figure(
        "building.slip-box",
        "The slip box from above",
        "The slip lies flat against the fence, its end at the clamped block. The hold-down lies over both sides of the "
        "cut and is sawn through with it, by hand.",
        (
            box(left, low, right, high, fill="jig"),
            box(left, -own.sheet, right, 0.0, fill="pale"),
            box(left - IN_HAND, 0.0, own.longest, own.tallest, fill="wood"),
            box(own.longest, -0.5, own.longest + BLOCK, own.tallest + 6, fill="other wood"),
            line(*corners, width=0.4),
            *(disc(bolt, 3.3, fill="metal") for bolt in own.bolts),
            line((0.0, low - 6), (0.0, high + 6), paint="blade", width=0.5),
            Dimension((0.0, low), (own.longest, low), by_rule(show, own.longest), -7.0),
            line((own.longest, 0.0), (own.longest, low), paint="grey"),
            labelled("fence", "slip-box-fence", (left + 8, -own.sheet / 2), "left"),
            labelled("base", "slip-box-base", (left + 8, low + 8), "left"),
            Callout("slip", (left - IN_HAND + 10, own.tallest * 0.6), "left"),
            labelled("hold-down over it", "slip-box-hold", (start + 4, over - 4), "left"),
            Callout("hand saw", (0.0, high + 4), "right"),
            Callout("bolt, wing nut", own.bolts[1], "right"),
            Callout("block, clamped", (own.longest + BLOCK - 5, own.tallest / 2), "right"),
        ),
        height=95.0,
    )
