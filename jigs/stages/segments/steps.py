"""Segments sawn from strips: the operations."""

from __future__ import annotations

from collections.abc import Mapping

from jigs.plan import Plan
from jigs.plan.wood.steps import Work
from jigs.work.from_step import Told, operations_of
from jigs.work.model import Operation, Stage
from jigs.work.rack import Rack

ID = "segments"
CHECK = "Joint plate over both ends of a segment; calliper over the outer edge"
TOLD: Mapping[Work, Told] = {
    "mitre": Told(
        "mitre",
        "Cut the segments on the carrier; flip the strip after each cut.",
        "segment",
        how=(
            "Pin the stop, push the strip's tip against it, lever down on the strip.",
            "Pin out, swing the stop clear, lever down on the segment; only then cut.",
        ),
        trial="a scrap strip: two segments, then a whole ring of them",
        check=CHECK,
        if_not="light at the outside of the joint plate: tilt the blade more; at the inside: less",
        cautions=("table-saw.stop", "table-saw"),
        setup=20,
        each=1,
    ),
}


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """One for each setting of the stop."""
    return operations_of(plan, rack, ID, TOLD)


STAGE: Stage[Plan] = Stage(ID, "Cut the segments", operations)
