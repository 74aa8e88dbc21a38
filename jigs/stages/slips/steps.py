"""Slips slit off the outside of a board, and cut to length by hand in their box: the operations."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.boards.plan.steps import Step
from jigs.stages.slips.parts import slip_box
from jigs.work.by_ring import batches, merged
from jigs.work.minutes import CROSSCUT, RIPPED, SETTING, each
from jigs.work.model import Check, Operation, Stage
from jigs.work.rack import Rack, uses
from jigs.work.steps import nth, steps_of

ID = "slips"


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """Nothing where the segments touch each other or what stands between them is thick."""
    return [
        *(_slit(step, nth(number)) for number, step in enumerate(steps_of(plan, "slit"), 1)),
        *(_cut(batch, rack, number) for number, batch in enumerate(batches(steps_of(plan, "slips")), 1)),
        *(_leaves(step) for step in steps_of(plan, "leaves")),
    ]


def _slit(step: Step, end: str) -> Operation:
    return Operation(
        f"{ID}.slit{end}",
        ID,
        "table saw",
        "Slit the slips off the outside of a board or a wide strip.",
        how=(
            "You can buy them instead, as veneer of that thickness.",
            "Let every slip fall on the open side of the blade, never between the blade and the fence.",
            "Feather board before the blade, push block over the whole board.",
            "Move the rip fence towards the blade after each slip.",
            "Sand them on a flat board to their thickness.",
        ),
        pieces=step.pieces,
        comes="slip",
        rings=step.rings,
        settings=step.settings,
        trial="one slip off a scrap board",
        checks=(
            Check(
                "thickness",
                "Calliper over the slip at both ends and in the middle",
                step.checks,
                "thick: sand on; thin: it serves as scrap",
            ),
        ),
        cautions=("table-saw.rip", "table-saw"),
        minutes=each(step.pieces, RIPPED, SETTING),
    )


def _leaves(step: Step) -> Operation:
    return Operation(
        f"{ID}.leaves",
        ID,
        "bench",
        "Cut the strips between rings to length by hand, square.",
        how=(
            "Clamp a straight edge square across the strip, over the piece that you keep.",
            "Cut with a knife in many light strokes, or with a veneer saw.",
            "Draw an arrow along the grain on each.",
        ),
        pieces=step.pieces,
        comes="strip",
        rings=step.rings,
        settings=step.settings,
        checks=(
            Check(
                "covers",
                "Lay one on a wedge ring's face, level with its rim and one flat: it covers all of it",
                if_not="cut it longer; what stands out is trimmed after gluing",
            ),
        ),
        cautions=("knife", "table-saw.thin"),
        minutes=each(step.pieces, CROSSCUT / 2, SETTING / 2),
    )


def _cut(steps: Sequence[Step], rack: Rack, number: int) -> Operation:
    step = merged(steps, "slip")
    return Operation(
        f"{ID}.length{nth(number)}",
        ID,
        "bench",
        "Cut the slips to length by hand in their box, never at a machine.",
        how=(
            "Set the block, lay the slip in, the hold-down over it on both sides of the cut.",
            "Tighten both wing nuts and saw through with a fine saw.",
        ),
        pieces=step.pieces,
        comes="slip",
        rings=step.rings,
        settings=step.settings,
        jigs=uses(rack.named("slip-box"), notes=number == 1),
        checks=(
            Check(
                "length",
                "Tape measure along one of each length; both ends square by eye",
                step.checks,
                "short: it must still reach over the joint; they are trimmed after gluing",
            ),
        ),
        cautions=("slip", "hand-saw"),
        minutes=each(step.pieces, CROSSCUT / 2, SETTING / 2 * len(steps)),
    )


STAGE: Stage[Plan] = Stage(ID, "Cut the slips", operations, jigs=(slip_box,))
