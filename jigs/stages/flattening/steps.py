"""Flat rings brought to their heights: the operations."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.grouping import grouped
from jigs.plans.vessel import VesselPlan
from jigs.stages.stack.plan import Layer
from jigs.words.quantity import calliper, ring_list
from jigs.work.model import Check, Operation, Rack, Stage
from jigs.work.steps import FLAT, flattened

ID = "flattening"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Each ring has a height of its own; open rings are flattened where they stand in the stack."""
    closed = [layer for layer in plan.stack.to_make if layer.kind == "segments"]
    return [_flatten(plan, closed)] if closed else []


def _flatten(plan: VesselPlan, closed: Sequence[Layer]) -> Operation:
    heights = grouped(closed, lambda layer: round(layer.ring.height, 2)).values()
    return flattened(
        ID,
        "faces",
        "Flatten both faces of every ring, the second parallel to the first, down to its height.",
        (len(closed), "ring"),
        tuple(layer.number for layer in closed),
        plan.job.rings.flattening,
        tuple(
            calliper(
                f"height.{same[0].number}",
                f"Height of {ring_list([layer.number for layer in same])}",
                same[0].ring.height,
            )
            for same in heights
        ),
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
