"""A floating base: ring 2 bored, the groove turned, the disc fitted, ring 2 glued over it. The operations."""

from __future__ import annotations

from math import sqrt

from geometry.records import replace
from jigs.plans.vessel import VesselPlan
from jigs.stages.floating_base.parts import floating
from jigs.stages.glue_up.operation import DRY_FIT, glue_up, stages_of
from jigs.stages.lathe.uneven import alone_at_most
from jigs.stages.stack.plan import FloatingDisc
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.lathe import speeds
from jigs.work.minutes import CHECKED, CROSSCUT, GAUGED, MOUNTED, each
from jigs.work.model import Check, Operation, Rack, Stage, at_bench, at_lathe, right_if, uses
from jigs.work.paper_block import CIRCLE, SAW, block_goods, on_block, on_ring_block, ring_block

BORED, ID = "floating_ring", "floating_base"


def bored(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Ring 2, before the stack takes the lathe; nothing where no base floats."""
    return [_bore(plan, plan.stack.floating)] if plan.stack.floating else []


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Groove, disc, and ring 2 over them; nothing where no base floats."""
    if disc := plan.stack.floating:
        return [_groove(plan, disc, rack), *_disc(plan, disc, rack), _drop(plan, disc)]
    return []


def _opening(disc: FloatingDisc) -> Quantity:
    return ruled("opening", "Openings, across", 2 * disc.base.opening)


def _bore(plan: VesselPlan, disc: FloatingDisc) -> Operation:
    layer = next(layer for layer in plan.stack.layers if layer.number == 2)
    ring = layer.ring
    return at_lathe(
        f"{BORED}.bore",
        "Bore the opening of ring 2 round, which becomes the lip over the base.",
        how=(
            SAW,
            CIRCLE,
            "Glue ring 2 by its upper face to the block, its corners on the circle, brown paper between.",
            "True its lower face: it closes the groove.",
            "Bore the opening straight through.",
            "Clamp the block and split the ring off along the paper with a wide chisel; sand the paper off.",
        ),
        makes=(1, "ring"),
        rings=(2,),
        settings=(_opening(disc), *on_ring_block(plan, [ring], alone_at_most(plan.job, [layer]))),
        uses_up=block_goods(plan, "ring 2", ring_block([ring])),
        checks=right_if(
            "hole",
            "Lathe stopped: inside calliper at both ends of the hole, the same",
            if_not="narrower at one end: take that end down; wider than set: the lip holds less of the tongue",
        ),
        cautions=("lathe.paper", "lathe", "chisel"),
        minutes=MOUNTED + GAUGED + CROSSCUT,
        hours=plan.wood.glue.clamp_time,
    )


def _groove(plan: VesselPlan, disc: FloatingDisc, rack: Rack) -> Operation:
    return at_lathe(
        f"{ID}.groove",
        "Bore ring 1 on its waste block and turn the groove into its upper face.",
        how=(
            "Bore the opening down to the waste block.",
            "Turn the groove from the opening outwards, its floor flat, its wall upright.",
            "Rub wax on the groove's floor, none on the face outside it.",
        ),
        makes=(1, "ring"),
        rings=(1,),
        settings=(
            _opening(disc),
            calliper("groove", "Groove, across", 2 * disc.base.groove),
            calliper("groove-depth", "Groove, down from the upper face of ring 1", disc.base.depth),
            *speeds(plan.waste.speed),
        ),
        jigs=uses(rack.named("groove-gauge"), notes=True),
        trial="a groove in a scrap ring",
        checks=right_if(
            "groove",
            "Lathe stopped: groove gauge in at both steps, its arms on the face, on every side",
            if_not="it stands up: the groove is shallow or narrow there; too deep: face the ring down by as much",
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=MOUNTED + 2 * GAUGED,
    )


def _disc(plan: VesselPlan, disc: FloatingDisc, rack: Rack) -> tuple[Operation, ...]:
    across = 2 * disc.base.tongue
    return (
        at_lathe(
            f"{ID}.disc",
            "Turn the floating base to its groove, on a waste block of its own.",
            how=(
                "Measure its moisture first: the groove is made for the moisture stated.",
                SAW.replace("the faceplate", "a second faceplate"),
                "Glue the base's square by a face to the block, brown paper between.",
                "Turn the tongue round, its upper face flat, then rebate it so that the field stands up.",
                "Split it off along the paper. Turn a recess in the waste block in which the field fits tight.",
                "Press the field into it, the tailstock up on a soft pad, and turn the lower face.",
            ),
            makes=(1, "disc"),
            rings=(1,),
            settings=(
                Quantity("species", "Disc of", disc.species, "text"),
                Quantity("moisture", "Moisture as fitted", f"{plan.job.floating.moisture:g} %", "text"),
                calliper("disc", "Thickness", disc.base.thickness),
                calliper("tongue", "Tongue, across", across),
                calliper("tongue-thickness", "Tongue, thickness", disc.base.tongue_thickness),
                calliper("field", "Field over the tongue, across", 2 * disc.base.field),
                *on_block(plan, across, sqrt(2) * across),
            ),
            uses_up=block_goods(plan, "the base", across),
            jigs=uses(rack.named("tongue-gauge"), notes=True),
            trial="a disc of scrap, tried in the groove",
            checks=(
                Check(
                    "tongue",
                    "Lathe stopped: calliper across the tongue, twice; tongue gauge on all round",
                    if_not="tight: another light cut; small by more than the room: make another",
                ),
                Check(
                    "turns",
                    "In the groove it turns freely, its tongue under the face of ring 1",
                    if_not="it binds: look where wax or wood shines, and ease that place",
                ),
            ),
            cautions=("lathe.paper", "lathe", "lathe.gauge"),
            minutes=2 * MOUNTED + 2 * GAUGED,
            hours=plan.wood.glue.clamp_time,
        ),
        at_bench(
            f"{ID}.finish",
            "Sand and finish the base all over, its edges too.",
            how=("No tool and no cloth reaches its edge later.", "Let it dry fully before it is laid in."),
            makes=(1, "disc"),
            rings=(1,),
            settings=(Quantity("coats", "Coats", plan.wood.finish.coats, "count"),),
            checks=right_if(
                "dry", "Nothing comes off on a cloth", if_not="give it longer; wet finish is glue"
            ),
            cautions=("finish.rags", "finish.fumes"),
            minutes=each(plan.wood.finish.coats, CHECKED, 5),
            hours=plan.wood.finish.coats * plan.wood.finish.coat_hours,
        ),
    )


def _drop(plan: VesselPlan, disc: FloatingDisc) -> Operation:
    (stage,) = [stage for stage in stages_of(plan, "stack") if 2 in stage.rings]
    second = plan.stack.layers[1]
    told = glue_up(
        plan,
        replace(stage, rings=(2,), count=1),
        ID,
        "drop",
        "Lay the base in dry and glue ring 2 over it; no glue touches the base.",
        "ring",
        how=(
            "Lay the base in its groove, slips of card round its tongue so that it lies in the middle; draw them out.",
            "Spread glue on ring 1 outside the groove only, a finger's breadth off its edge.",
            "Set ring 2 on, slips of card between its lip and the base's field all round.",
            "Press it with the tailstock, a ring of scrap between, so that nothing presses on the base.",
            "Take the slips out before the glue sets, and push the base to and fro by hand.",
        ),
        settings=(
            calliper("room", "Room round the tongue, to either side", disc.base.room),
            calliper("height", "Ring 2, high", second.ring.height),
            ruled("stack", "Both rings, from the waste block", second.ring.top - plan.stack.bottom),
        ),
        checks=(
            DRY_FIT,
            Check(
                "slides",
                "The base slides by hand to every side and rattles when you shake it; it never drops out",
                if_not="lift ring 2 off while the glue is wet, and clean the groove",
            ),
        ),
    )
    return replace(told, place="lathe", cautions=("lathe.unplugged", *told.cautions))


BORE: Stage[VesselPlan] = Stage(BORED, "Bore the ring over the base", bored)
STAGE: Stage[VesselPlan] = Stage(ID, "Fit the floating base", operations, jigs=(floating,))
