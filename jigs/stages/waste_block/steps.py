"""The first mounting of a vessel: a waste block on the faceplate, the lowest ring glued to it. The operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import faceplate_screws
from jigs.work.lathe import UNTIL, by_two, clear_of_bed, runout_check, screwed, speeds
from jigs.work.minutes import CLAMPED, CROSSCUT, DRY_RUN, GAUGED, MOUNTED, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, at_lathe, right_if, uses
from jigs.work.supplies import block

ID = "waste_block"
WIDE = (
    "A faceplate whose screws lie closer together does not hold this weight: make waste_block in [rings] thicker, so "
    "that longer screws go in, and make the set again."
)
FACED = 2.0  # mm that the block is thicker as it is sawn


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Sawn, screwed to the faceplate, trued, then ring 1 glued on it; nothing where rings stand on it already."""
    if plan.stack.stated:
        return []
    return [_saw(plan), _faceplate(plan), _true(plan), _first_ring(plan, rack)]


def plates(plan: VesselPlan, rack: Rack, rings: set[int]) -> list[Part]:
    """The centring plates of some rings."""
    own = [plate for plate in plan.ring_boards.centring if rings & set(plate.rings)]
    return [rack.part(f"centring-plate-ring-{'-'.join(map(str, plate.rings))}") for plate in own]


def _saw(plan: VesselPlan) -> Operation:
    waste = plan.waste
    return at_bench(
        f"{ID}.saw",
        "Saw a waste block of sound, dry hardwood.",
        how=(
            "Take solid scrap without knots or splits, no plywood: its plies pull apart. No board is listed for it.",
            "Plane one face flat for the faceplate. Leave the block a little thicker than set: its other face is "
            "turned flat on the lathe.",
            "Draw its circle, as wide as listed, and saw the corners off outside it.",
            *clear_of_bed(waste.most, plan.job.workshop.lathe.swing_over_bed),
        ),
        makes=(1, "block"),
        settings=(calliper("thickness", "Waste block, thick, faced", waste.thickness), *_across(plan)),
        checks=right_if(
            "flat", "Straight edge over the planed face: no light", if_not="plane again; it would rock"
        ),
        cautions=("hand-saw",),
        minutes=each(8, CROSSCUT),
        uses_up=block("waste block", waste.thickness + FACED, waste.most),
    )


def _across(plan: VesselPlan) -> Iterator[Quantity]:
    """What its glue needs, and the lowest ring; the ring alone where that is no wider."""
    waste, ring = plan.waste, f"as ring {_first(plan)}"
    if waste.least < waste.most:
        yield ruled("across.least", "Across, at least, for its glue", waste.least, bound="least")
        yield ruled("across.most", f"Across, at most, {ring}", waste.most, bound="most")
    else:
        yield ruled("across.most", f"Across, {ring}", waste.most)


def _faceplate(plan: VesselPlan) -> Operation:
    return at_bench(
        f"{ID}.faceplate",
        "Screw the faceplate to the middle of the waste block's planed face.",
        how=(
            "Bore for every screw, and drive it straight in.",
            "Look at the other face: no point comes through, or the tool meets it.",
            "A block too narrow for the faceplate's holes: screw it to the middle of a board from behind, and the "
            "faceplate to the board's back. Wherever the faceplate's face is named, use the board's front.",
            *((WIDE,) if plan.waste.screws.on else ()),
        ),
        settings=screwed(plan.waste.screws),
        checks=right_if(
            "tight",
            "Every screw bites, and the faceplate lies on the wood all round",
            if_not=f"bore elsewhere; never a longer screw, for ring {_first(plan)} lies next",
        ),
        cautions=("lathe.screws",),
        minutes=each(plan.waste.screws.count, CLAMPED),
        uses_up=(faceplate_screws(plan.waste.screws),),
    )


def _true(plan: VesselPlan) -> Operation:
    waste = plan.waste
    thickness = calliper("thickness", "Waste block, thick", waste.thickness)
    return at_lathe(
        f"{ID}.true",
        "True the waste block: its rim round, its face flat.",
        how=("Turn the rim round.", "Face it to its thickness, flat or a hair hollow in the middle."),
        settings=(*speeds(waste.speed), thickness, *_across(plan)),
        checks=(
            Check(
                "flat",
                "Lathe stopped: straight edge over the face: light in the middle at most",
                if_not="face it again; a crowned face holds by its middle only",
            ),
            Check(
                "thickness",
                "Calliper over the block",
                if_not="thinner: the gauges stand on the faceplate, so the rim loses as much allowance; much thinner: "
                "make another",
            ),
            runout_check(waste.runout, "the block's face and rim", "true it again"),
        ),
        cautions=("lathe", "lathe.gauge", "lathe.stand"),
        readings=(Reading("thickness", "Waste block, thick", thickness),),
        minutes=MOUNTED + GAUGED,
    )


def _first(plan: VesselPlan) -> int:
    """The number of the ring that lies on the block."""
    return plan.stack.layers[0].number


def _first_ring(plan: VesselPlan, rack: Rack) -> Operation:
    first = plan.stack.layers[0]
    glue = plan.wood.glue
    return at_lathe(
        f"{ID}.ring-1",
        f"Glue ring {first.number} to the waste block, in the middle.",
        how=(
            "Lay it on dry, its arrow away from the block: no light between the two." if not plan.stack.upside_down else
            "Lay it on dry, its arrow to the block: no light between the two.",
            "Spread glue on both, wood on wood, no paper.",
            *by_two(first.weighs, UNTIL.format("the tailstock presses it")),
            "Set it in the middle: it stands out over the block's rim alike all round, or is level with it.",
            "Press it with the tailstock, a flat scrap between; feel round the rim again before the glue sets.",
        ),
        makes=(1, "ring"),
        rings=(first.number,),
        settings=(calliper("height", f"Ring {first.number}, high", first.ring.height),),
        jigs=uses(plates(plan, rack, {first.number}), "centres it on the tailstock's point", notes=True),
        checks=right_if(
                "centred",
                "Turn it by hand past a pencil on the rest: it comes as near all round"
                if first.kind == "disc"
                else "Turn it by hand past a pencil on the rest: every corner comes as near",
                if_not="push it over while the glue is wet",
            ),
        cautions=("lathe.unplugged", "bench"),
        minutes=DRY_RUN + plan.job.workshop.glue.open_time,
        hours=glue.clamp_time,
    )  # fmt: skip


STAGE: Stage[VesselPlan] = Stage(ID, "First mounting: on the waste block", operations)
