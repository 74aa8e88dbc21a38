"""Ripping at the table saw from above: the board along the rip fence, what presses it, what pushes it."""

from __future__ import annotations

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, box, line, polygon
from jigs.figures.saws.common import blade_line, feed
from jigs.figures.told import Show, by_rule
from jigs.plans.plan import Plan
from jigs.stages.boards.steps.prepared import prepared

LONG, OFFCUT, BLADE = (
    240.0,
    45.0,
    120.0,
)  # mm shown of the board, beside the blade, of the blade above the table
FENCE = 24.0
KERF = 3.0
BLOCK = 110.0  # mm of the push block


def ripping(plan: Plan, show: Show) -> Figure | None:
    """Of the first width that is ripped at the table saw; None where none is."""
    made = prepared(plan.job, plan.wood.lots, plan.wood.classes)
    run = next((run for kind, run in made if kind == "rip"), None)
    if run is None:
        return None
    wide = next(float(q.value) for q in run.settings if q.id == "rip-fence")
    who = f"strip of ring {run.rings[0]}" if len(run.rings) == 1 else "strip"
    left = -KERF - OFFCUT
    low, high = -LONG, 10.0
    board = [(left, low), (wide, low), (wide, high), (left, high)]
    feather = [(left - 55, -30.0), (left, 5.0), (left, -25.0), (left - 55, -75.0)]
    items: tuple[Item, ...] = (
        box(left - 80, low - 30, wide + FENCE + 40, 190.0, fill="jig"),
        box(wide, low - 20, wide + FENCE, 180.0, fill="pale"),
        polygon(board, fill="wood"),
        box(0.3 * wide, low - 20, 0.7 * wide, low - 20 + BLOCK, fill="other wood"),
        polygon(feather, fill="pale"),
        *(line((left - 28, -50.0 + 6 * k), (left, -22.0 + 5 * k), paint="grey") for k in range(5)),
        box(-KERF, 20.0, 0.0, 20.0 + BLADE, fill="blade"),
        box(-KERF - 0.5, 20.0 + BLADE + 4, 0.5, 20.0 + BLADE + 40, fill="metal"),
        blade_line(-KERF / 2, low - 30, 20.0),
        feed(left - 95, low + 40, low + 95),
        Dimension((0.0, 150.0), (wide, 150.0), by_rule(show, wide), 4.0, 40.0),
        Callout("rip fence", (wide + FENCE / 2, 110.0), "right"),
        Callout("push block", (0.5 * wide, low + 40), "right"),
        Callout("board", (left + 10, -100.0), "left"),
        Callout(who, (wide / 2, -60.0), "right"),
        Callout("feather board", (left - 45, -45.0), "left"),
        Callout("blade, guarded", (-KERF / 2, 60.0), "left"),
        Callout("riving knife", (-KERF / 2, 20.0 + BLADE + 20), "left"),
        Callout("table", (left - 70, 180.0), "left"),
    )
    return Figure(
        "boards.rip",
        "Ripping a strip, from above",
        f"The board runs along the rip fence, here set {by_rule(show, wide)} from the blade. A feather board presses "
        "it to the fence before the blade, a push block moves it on.",
        items,
        height=120.0,
    )
