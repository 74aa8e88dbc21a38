"""Boards to lengths, to thickness, to strips: the operations."""

from __future__ import annotations

from collections.abc import Mapping

from jigs.plan import Plan
from jigs.plan.wood.steps import Work
from jigs.work.from_step import Told, operations_of
from jigs.work.model import Operation, Stage
from jigs.work.rack import Rack

ID = "boards"
TOLD: Mapping[Work, Told] = {
    "crosscut": Told(
        "crosscut",
        "Crosscut the boards to rough lengths, by hand or at a crosscut saw that carries the whole board.",
        "length",
        how=(
            "Cut off splits at the ends first.",
            "Keep the left-over length in one piece, unplaned.",
        ),
        check="Tape measure along each length: none shorter than listed",
        if_not="take the piece from another board",
        cautions=("hand-saw",),
        setup=5,
        each=2,
    ),
    "mill": Told(
        "mill",
        "Plane the lengths flat, then to thickness.",
        "length",
        trial="one scrap board",
        check="Calliper at both ends and in the middle; no light under a straight edge",
        if_not="plane again, both faces by turns",
        cautions=("planer",),
        setup=10,
        each=6,
    ),
    "rip": Told(
        "rip",
        "Rip strips along the grain, then plane both edges to width.",
        "strip",
        trial="one strip of scrap",
        check="Calliper along the strip; both edges square",
        if_not="reset the rip fence from the blade; a strip that is too narrow serves as scrap for the trials",
        cautions=("table-saw",),
        setup=10,
        each=3,
    ),
    "edges": Told(
        "edges",
        "Plane the edges of the narrow boards to width.",
        "strip",
        trial="one strip of scrap",
        check="Calliper along the strip; both edges square",
        if_not="plane again",
        cautions=("planer",),
        setup=5,
        each=2,
    ),
}


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """One for each setting of a machine."""
    return operations_of(plan, rack, ID, TOLD)


STAGE: Stage[Plan] = Stage(ID, "Prepare the boards", operations)
