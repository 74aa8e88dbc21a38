"""Flat rings brought to their heights: the operations."""

from __future__ import annotations

from jigs.forms.vessel.plan import VesselPlan
from jigs.stages.boards.plan.steps import Step
from jigs.work.minutes import FLATTENED, each
from jigs.work.model import Check, Operation, Stage
from jigs.work.rack import Rack
from jigs.work.steps import steps_of

ID = "flattening"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Each ring has a height of its own; open rings are flattened where they stand in the stack."""
    return [_flatten(step) for step in steps_of(plan, "flatten")]


def _flatten(step: Step) -> Operation:
    return Operation(
        f"{ID}.faces",
        ID,
        "bench",
        "Flatten both faces of every ring, the second parallel to the first, down to its height.",
        how=(
            "Scribble pencil over both faces.",
            "Rub the first face on abrasive on a flat board until the pencil is gone.",
            "Rub the second face; press on the side that callipers thicker.",
            "Pencil the measured height on the ring: the stack is made up of these.",
        ),
        pieces=step.pieces,
        comes="ring",
        rings=step.rings,
        settings=step.settings,
        checks=(
            Check(
                "flat",
                "Straight edge across both faces, three ways: no light",
                if_not="rub again; a joint in the stack closes on flat faces only",
            ),
            Check(
                "height",
                "Calliper over the height at four places: alike, and as set",
                if_not="over: rub on; under: make the next ring higher by as much, or lose it from the rim's allowance",
            ),
        ),
        cautions=("bench",),
        minutes=each(2 * step.pieces, FLATTENED),
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Flatten the rings", operations)
