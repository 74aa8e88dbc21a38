"""Pieces cut off square, the longest first: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.plans.plan import Plan
from jigs.stages.boards.runs import Run, batches, by_length, merged, piece_of, run_of
from jigs.words.quantity import Quantity, ruled
from jigs.work.minutes import CROSSCUT, SETTING, each
from jigs.work.model import Operation, Rack, Stage, right_if
from jigs.work.steps import nth

ID = "pieces"


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """By hand where a piece is too short to be held at a machine."""
    return [_cut(plan, batch, nth(number)) for number, batch in enumerate(batches(list(_runs(plan))), 1)]


def _runs(plan: Plan) -> Iterator[Run]:
    """One for each length; those whose strip has to keep a length to be held by are too short for the table saw."""
    for same in by_length(lot for lot in plan.wood.lots if lot.way in ("square", "bevelled")):
        held, long = max(lot.held for lot in same), ruled("length", "Length", same[0].longer)
        if held:
            yield run_of(
                "bench", same, (long, ruled("set-aside", "Keep of each strip, at least", held, bound="least"))
            )
        else:
            gauge = Quantity("gauge", "Mitre gauge off square", 0.0, "angle")
            yield run_of("table saw", same, (gauge, Quantity("stop", "Stop to blade", long.value)))


def _cut(plan: Plan, runs: Sequence[Run], end: str) -> Operation:
    run = merged(runs, "piece", [piece_of(plan, one) for one in runs])
    by_hand = run.place == "bench"
    return Operation(
        f"{ID}.square{end}",
        "Saw the pieces off square by hand, in a bench hook or a mitre box."
        if by_hand
        else "Cut the pieces off square against the mitre gauge.",
        run.place,
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
        makes=(run.pieces, "piece"),
        rings=run.rings,
        settings=run.settings,
        trial="" if by_hand else "one piece of scrap",
        checks=right_if(
            "square",
            "Calliper over the length; a square at both ends",
            (),
            "short: it serves as scrap; long or out of square: trim it",
        ),
        cautions=("hand-saw",) if by_hand else ("table-saw.stop", "table-saw"),
        minutes=each(run.pieces, CROSSCUT, SETTING / 2 * len(runs)),
    )


STAGE: Stage[Plan] = Stage(ID, "Cut off the square pieces", operations)
