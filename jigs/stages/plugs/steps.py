"""Core plugs: the ring bored, the plug turned to fit, glued in. The operations."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from geometry.grouping import grouped
from jigs.plans.vessel import VesselPlan
from jigs.stages.lathe.uneven import alone_at_most
from jigs.stages.stack.plan import Layer
from jigs.words.quantity import Quantity, ring_list, ruled
from jigs.work.minutes import CHECKED, CROSSCUT, DRY_RUN, GAUGED, MOUNTED, each
from jigs.work.model import Operation, Rack, Reading, Stage, at_bench, at_lathe, right_if
from jigs.work.paper_block import CIRCLE, IN_CHUCK, SAW, block_goods, on_block, on_ring_block, ring_block

ID = "plugs"
SQUARE = 4.0  # mm by which a plug's square is wider than it


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Nothing where no ring of segments closes over the middle."""
    plugged = [layer for layer in plan.stack.to_make if layer.kind == "segments" and layer.plug]
    if not plugged:
        return []
    return [_bore(plan, plugged), _turn(plan, plugged), _glue(plan, plugged)]


def _across(plugged: Sequence[Layer]) -> tuple[Quantity, ...]:
    """The plugs' diameters, by ring where they differ."""
    sizes = grouped(plugged, lambda layer: layer.plug)
    if len(sizes) == 1:
        return (ruled("across", "Across", plugged[0].plug),)
    return tuple(
        ruled(f"across.{same[0].number}", f"Across, {ring_list([layer.number for layer in same])}", plug)
        for plug, same in sizes.items()
    )


def _bore(plan: VesselPlan, plugged: Sequence[Layer]) -> Operation:
    rings, across = [layer.ring for layer in plugged], _across(plugged)
    return at_lathe(
        f"{ID}.bore",
        "Bore a round hole straight through the middle of each ring that gets a plug.",
        how=(
            SAW,
            CIRCLE,
            "Sand one face of the ring flat, and glue it to the block on its circle, brown paper between; leave it in "
            "clamps.",
            "Bore it with a drill of that size in the tailstock, into the block but not through it; without such a "
            "drill from the middle outwards in light cuts. The points of all segments are gone then.",
            "Clamp the block and split the ring off along the paper with a wide chisel.",
        ),
        makes=(len(plugged), "bored ring"),
        rings=tuple(layer.number for layer in plugged),
        settings=(*across, *on_ring_block(plan, rings, alone_at_most(plan.job, plugged))),
        checks=right_if(
            "hole",
            "Lathe stopped: inside calliper at both ends of the hole, the same",
            if_not="a hole that narrows: take the high end down; larger than set: the plug is turned to it",
        ),
        cautions=("lathe.paper", "lathe", "chisel"),
        readings=(Reading("hole", "Hole as bored, across", across[0], len(plugged)),),
        minutes=each(len(plugged), MOUNTED + GAUGED + CROSSCUT),
        hours=plan.wood.glue.clamp_time * len(plugged),
        uses_up=block_goods(plan, "rings that are bored", ring_block(rings)),
    )


def _turn(plan: VesselPlan, plugged: Sequence[Layer]) -> Operation:
    plug = max(layer.plug for layer in plugged)
    return at_lathe(
        f"{ID}.turn",
        "Turn each plug to fit the hole that you measured.",
        how=(
            "Saw the block listed, as wide as the plug; hold it in the chuck and face its end flat.",
            "Where the chuck's jaws do not close so far, saw a wider block and turn its free end down to the plug's "
            "width.",
            "Glue the plug's square by a face to that end, brown paper between, its grain across.",
            "Bring the tailstock's point to the square's middle.",
            "Turn it round and straight; try it in the ring, the lathe stopped, the tailstock drawn back.",
            "Split it off along the paper with a chisel, and sand the paper off.",
        ),
        makes=(len(plugged), "plug"),
        rings=tuple(layer.number for layer in plugged),
        settings=(
            *on_block(plan, plug, sqrt(2) * (plug + SQUARE), IN_CHUCK),
            ruled("jaws", "Chuck's jaws close to, at most", plug, bound="most"),
        ),
        checks=right_if(
            "fits",
            "It slides in by hand and does not rattle",
            if_not="tight: a lighter cut; it rattles: make another, for glue fills no gap",
        ),
        cautions=("lathe.paper", "lathe", "lathe.gauge"),
        minutes=each(len(plugged), MOUNTED + GAUGED + CROSSCUT),
        hours=plan.wood.glue.clamp_time * len(plugged),
        uses_up=block_goods(plan, "plugs", plug, IN_CHUCK),
    )


def _glue(plan: VesselPlan, plugged: Sequence[Layer]) -> Operation:
    return at_bench(
        f"{ID}.glue",
        "Glue each plug into its ring.",
        how=(
            "Spread glue round the hole and thinly round the plug.",
            "Push it in with a twist, its grain in line with segment 1, its ends level with the ring's faces.",
            "Wipe it, and lay it on waxed paper to dry; both faces are flattened next.",
        ),
        makes=(len(plugged), "ring"),
        rings=tuple(layer.number for layer in plugged),
        checks=right_if(
            "line",
            "A line of glue all round, on both faces",
            if_not="bore it out when it is dry and turn another plug",
        ),
        cautions=("bench",),
        minutes=each(len(plugged), DRY_RUN + CHECKED),
        hours=plan.wood.glue.clamp_time,
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Plug the middle", operations)
