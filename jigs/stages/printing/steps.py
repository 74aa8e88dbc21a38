"""What the printer makes: the operations."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.building.steps.whole import built_here
from jigs.words.quantity import calliper
from jigs.work.minutes import MARKING, each
from jigs.work.model import Check, Operation, Rack, Stage, made
from jigs.work.printing import printed
from jigs.work.steps import by_page
from jigs.work.supplies import filament

ID = "printing"
SIZE = Check(
    "size",
    "Calliper over a straight side: no farther off its drawing than the coupon was",
    if_not="print it again with the coupon's settings",
)


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """Plates that are printed as any are, and those that must be solid."""
    parts = [part for part in rack.parts if part.process == "print" and not part.jig.first]
    solid = [part for part in parts if part.jig.solid]
    plates = [part for part in parts if part not in solid]
    return [
        *(
            _print(plan, rack, f"plates{end}", "Print these gauges and plates.", load)
            for end, load in by_page(plates)
        ),
        *(
            [_print(plan, rack, "solid", "Print solid what is pressed while it serves.", solid)]
            if solid
            else []
        ),
    ]


def _print(plan: Plan, rack: Rack, id: str, does: str, parts: Sequence[Part]) -> Operation:
    printer, later = plan.job.workshop.printer, built_here(plan, rack)
    full = (
        "Fill them solid."
        if id == "solid"
        else "Three walls at least, filled so that the edge stays straight."
    )
    return Operation(
        id=f"{ID}.{id}",
        place="printer",
        does=does,
        how=(
            "Lay each flat on the bed as its file has it, the lettering up; no supports, no scaling.",
            full,
            "Take strings and blobs off the working edge with a blade, not with a file.",
        ),
        makes=(sum(part.quantity for part in parts), "plate"),
        settings=(calliper("layer", "Layer", printer.layer), calliper("nozzle", "Nozzle", printer.nozzle)),
        jigs=made(parts, later),
        checks=(SIZE,),
        cautions=("printer",),
        minutes=each(sum(part.quantity for part in parts), MARKING, MARKING),
        uses_up=filament(plan, parts),
        hours=round(sum(printed(part, printer).hours for part in parts), 1),
    )


STAGE: Stage[Plan] = Stage(ID, "Print the gauges", operations, sort="making", in_a_run=True)
