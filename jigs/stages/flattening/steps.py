"""Flat rings brought to their heights: the operations."""

from __future__ import annotations

from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan.steps import Step
from jigs.work.flattened import FLAT, flattened
from jigs.work.model import Check, Operation, Stage
from jigs.work.rack import Rack
from jigs.work.steps import steps_of

ID = "flattening"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Each ring has a height of its own; open rings are flattened where they stand in the stack."""
    return [_flatten(step) for step in steps_of(plan, "flatten")]


def _flatten(step: Step) -> Operation:
    return flattened(
        ID,
        "faces",
        "Flatten both faces of every ring, the second parallel to the first, down to its height.",
        (step.pieces, "ring"),
        step.rings,
        step.settings,
        (
            Check("flat", FLAT, if_not="rub again; a joint in the stack closes on flat faces only"),
            Check(
                "height",
                "Calliper over the height at four places: alike, and as set",
                if_not="over: rub on; under: make the next ring higher by as much, or lose it from the rim's allowance",
            ),
        ),
        ("Pencil the measured height on the ring: the stack is made up of these.",),
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Flatten the rings", operations)
