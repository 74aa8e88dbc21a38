"""Pieces cut off square, the longest first: the operations."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.boards.plan.steps import Step
from jigs.work.by_ring import batches, merged
from jigs.work.minutes import CROSSCUT, SETTING, each
from jigs.work.model import Check, Operation, Stage
from jigs.work.rack import Rack
from jigs.work.steps import nth, piece_of, steps_of

ID = "pieces"


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """By hand where a piece is too short to be held at a machine."""
    return [
        _cut(plan, batch, nth(number)) for number, batch in enumerate(batches(steps_of(plan, "square")), 1)
    ]


def _cut(plan: Plan, steps: Sequence[Step], end: str) -> Operation:
    step = merged(steps, "piece", [piece_of(plan, one) for one in steps])
    by_hand = step.machine == "bench"
    return Operation(
        f"{ID}.square{end}",
        ID,
        step.machine,
        "Saw the pieces off square by hand, in a bench hook or a mitre box."
        if by_hand
        else "Cut the pieces off square against the mitre gauge.",
        how=(
            (
                "Clamp the strip to the hook; it is too short to be held at a machine.",
                "Set the strip's last length aside; never saw it up.",
            )
            if by_hand
            else (
                "Clamp each piece to the gauge's fence.",
                "Set the stop on the clamped side, push the strip to it, swing it clear, then cut.",
            )
        ),
        pieces=step.pieces,
        comes="piece",
        rings=step.rings,
        settings=step.settings,
        trial="" if by_hand else "one piece of scrap",
        checks=(
            Check(
                "square",
                "Calliper over the length; a square at both ends",
                (),
                "short: it serves as scrap; long or out of square: trim it",
            ),
        ),
        cautions=("hand-saw",) if by_hand else ("table-saw.stop", "table-saw"),
        minutes=each(step.pieces, CROSSCUT, SETTING / 2 * len(steps)),
    )


STAGE: Stage[Plan] = Stage(ID, "Cut off the square pieces", operations)
