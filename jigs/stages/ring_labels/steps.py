"""Labels stuck on the rings of a vessel before they are stacked: the operation."""

from __future__ import annotations

from jigs.plans.vessel import VesselPlan
from jigs.words.file_names import LABELS, of_job
from jigs.words.quantity import Quantity
from jigs.work.minutes import MARKING, each
from jigs.work.model import Operation, Rack, Stage, at_bench, right_if

ID = "ring_labels"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """One on each ring that is not glued in the stack; staves have got theirs in their band."""
    rings = tuple(layer.number for layer in plan.stack.to_make if layer.kind in ("segments", "disc"))
    if not rings:
        return []
    return [
        at_bench(
            f"{ID}.stick",
            "Cut out the labels and stick one on each ring.",
            how=(
                f"Print them ({of_job(plan.job.name, LABELS)}) at 100 %.",
                "Stick each on its ring's outer side, arrow up, its tick on the middle of segment 1.",
                "Tie a label on where it says so: the ring has no room for it.",
                "The degrees say where segment 1 stands in the stack, counter-clockwise seen from above.",
            ),
            makes=(len(rings), "ring"),
            rings=rings,
            settings=(Quantity("labels", "Labels", len(rings), "count"),),
            checks=right_if(
                "order",
                "Calliper across and over the height of each ring: as its label says",
                if_not="it is another ring: look which, and swap the labels",
            ),
            minutes=each(len(rings), MARKING, 5),
        )
    ]


STAGE: Stage[VesselPlan] = Stage(ID, "Label the rings", operations)
