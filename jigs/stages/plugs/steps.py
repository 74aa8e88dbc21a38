"""Core plugs: the ring bored, the plug turned to fit, glued in. The operations."""

from __future__ import annotations

from math import sqrt

from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan.steps import Step
from jigs.stages.stack.plan import Layer
from jigs.work.minutes import CHECKED, CROSSCUT, DRY_RUN, GAUGED, MOUNTED, each
from jigs.work.model import Check, Operation, Reading, Stage
from jigs.work.paper_block import CIRCLE, IN_CHUCK, SAW, block_goods, on_block, on_ring_block, ring_block
from jigs.work.rack import Rack
from jigs.work.steps import nth, steps_of

ID = "plugs"
SQUARE = 4.0  # mm by which a plug's square is wider than it


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Nothing where no ring of segments closes over the middle."""
    return [
        found
        for number, step in enumerate(steps_of(plan, "plug"), 1)
        for found in (_bore(plan, step, nth(number)), _turn(plan, step, nth(number)), _glue(plan, step, nth(number)))
    ]  # fmt: skip


def _bore(plan: VesselPlan, step: Step, end: str) -> Operation:
    rings = [layer.ring for layer in _layers(plan, step)]
    return Operation(
        f"{ID}.bore{end}",
        ID,
        "lathe",
        "Bore the middle of each ring that gets a plug round, straight through.",
        how=(
            SAW,
            CIRCLE,
            "Sand one face of the ring flat, and glue it to the block on its circle, brown paper between; leave it in "
            "clamps.",
            "Bore it with a drill of that size in the tailstock, into the block but not through it; without such a "
            "drill from the middle outwards in light cuts. The points of all segments are gone then.",
            "Clamp the block and split the ring off along the paper with a wide chisel.",
        ),
        pieces=step.pieces,
        comes="bored ring",
        rings=step.rings,
        settings=(*step.settings, *on_ring_block(plan, rings)),
        checks=(
            Check(
                "hole",
                "Lathe stopped: inside calliper at both ends of the hole, the same",
                if_not="a hole that narrows: take the high end down; larger than set: the plug is turned to it",
            ),
        ),
        cautions=("lathe.paper", "lathe", "chisel"),
        readings=(Reading("hole", "Hole as bored, across", step.settings[0], len(step.rings)),),
        minutes=each(step.pieces, MOUNTED + GAUGED + CROSSCUT),
        hours=plan.wood.glue.clamp_time * step.pieces,
        uses_up=block_goods(plan, "rings that are bored", ring_block(rings)),
    )


def _turn(plan: VesselPlan, step: Step, end: str) -> Operation:
    plug = max(layer.plug for layer in _layers(plan, step))
    return Operation(
        f"{ID}.turn{end}",
        ID,
        "lathe",
        "Turn each plug to fit the hole that you measured.",
        how=(
            "Saw the block listed, as wide as the plug; hold it in the chuck and face its end flat.",
            "Glue the plug's square by a face to that end, brown paper between, its grain across.",
            "Bring the tailstock's point to the square's middle.",
            "Turn it round and straight; try it in the ring, the lathe stopped, the tailstock drawn back.",
            "Split it off along the paper with a chisel, and sand the paper off.",
        ),
        pieces=step.pieces,
        comes="plug",
        rings=step.rings,
        settings=on_block(plan, plug, sqrt(2) * (plug + SQUARE), IN_CHUCK),
        checks=(
            Check(
                "fits",
                "It slides in by hand and does not rattle",
                if_not="tight: a lighter cut; it rattles: make another, for glue fills no gap",
            ),
        ),
        cautions=("lathe.paper", "lathe", "lathe.gauge"),
        minutes=each(step.pieces, MOUNTED + GAUGED + CROSSCUT),
        hours=plan.wood.glue.clamp_time * step.pieces,
        uses_up=block_goods(plan, "plugs", plug, IN_CHUCK),
    )


def _layers(plan: VesselPlan, step: Step) -> list[Layer]:
    return [layer for layer in plan.stack.layers if layer.number in step.rings]


def _glue(plan: VesselPlan, step: Step, end: str) -> Operation:
    return Operation(
        f"{ID}.glue{end}",
        ID,
        "bench",
        "Glue each plug into its ring.",
        how=(
            "Spread glue round the hole and thinly round the plug.",
            "Push it in with a twist, its grain in line with segment 1, its ends level with the ring's faces.",
            "Wipe it, and lay it on waxed paper to dry; both faces are flattened next.",
        ),
        pieces=step.pieces,
        comes="ring",
        rings=step.rings,
        checks=(
            Check(
                "line",
                "A line of glue all round, on both faces",
                if_not="bore it out when it is dry and turn another plug",
            ),
        ),
        cautions=("bench",),
        minutes=each(step.pieces, DRY_RUN + CHECKED),
        hours=plan.wood.glue.clamp_time,
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Plug the middle", operations)
