"""A lid's knob turned between centres, the hole bored, the knob glued in. The operations."""

from __future__ import annotations

from math import sqrt

from geometry.lathe.turning import rough_speed_limits
from jigs.plans.vessel import VesselPlan
from jigs.stages.knob.parts import knob_gauge
from jigs.stages.knob.plan import KnobPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.lathe import speeds
from jigs.work.minutes import CHECKED, CLAMPED, GAUGED, MOUNTED
from jigs.work.model import Operation, Rack, Stage, at_bench, at_lathe, right_if, uses

ID, GAUGE = "knob", "knob-gauge"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """All of it; nothing where there is no knob."""
    knob = plan.knob
    return [_turn(knob, rack), _bore(knob), _glue(plan)] if knob else []


def _turn(knob: KnobPlan, rack: Rack) -> Operation:
    return at_lathe(
        f"{ID}.turn",
        "Turn the knob between centres, its tenon towards the headstock.",
        how=(
            "Mark the middle of both ends and set it between centres.",
            "Turn it round, then the tenon to size, the waste beyond it still on the drive.",
            "Cut the shoulder a hair hollow, so that its edge closes on the lid.",
            "Turn the profile to the gauge, downhill, the top last; leave a stub as thick as a pencil there.",
            "Take the rest away and sand the knob.",
            "Take the knob off the lathe, saw the waste off both ends by hand in a bench hook, and sand the top.",
        ),
        makes=(1, "knob"),
        settings=(
            Quantity("species", "Knob of", knob.species, "text"),
            ruled("square", "Square, wide and thick", knob.across),
            ruled("long", "Square, long", knob.long),
            calliper("tenon", "Tenon, across", knob.tenon),
            ruled("length", "Tenon, long", knob.length),
            calliper("widest", "Knob, at its widest", knob.widest),
            ruled("height", "Knob, high over its shoulder", knob.height),
            *speeds(rough_speed_limits(sqrt(2) * knob.across)),
        ),
        jigs=uses(rack.named(GAUGE), notes=True),
        checks=right_if(
            "tenon",
            "Bore scrap with the same bit and measure the hole. Lathe stopped: calliper the tenon at both ends; "
            "it is as wide, or less by the thickness of paper",
            if_not="wider: take a light cut more; narrower: take a bit that fits it, or turn another knob",
        ),
        cautions=("lathe", "lathe.gauge", "lathe.sanding"),
        minutes=MOUNTED + 2 * GAUGED,
    )


def _bore(knob: KnobPlan) -> Operation:
    return at_bench(
        f"{ID}.bore",
        "Bore the hole for the tenon into the middle of the lid's top.",
        how=(
            "Find the middle by arcs drawn with compasses from the top's edge, from four sides.",
            "Clamp the lid on its flange over a soft pad, its top square to the bit.",
            "Take a flat-bottomed bit whose point is shorter than the wood left under the hole; a longer one comes out "
            "inside.",
            "Set the drill's stop to the depth of the full width in scrap first.",
        ),
        settings=(
            calliper("hole", "Hole, across", knob.tenon),
            ruled("deep", "Hole, deep", knob.hole),
            calliper("left", "Wood left under it", knob.left),
        ),
        trial="the depth, in scrap",
        checks=right_if(
            "square",
            "The knob, set in dry, stands upright from two sides and no light shows under its shoulder",
            if_not="ease the hole's edge, or turn the shoulder hollower",
        ),
        cautions=("drill",),
        minutes=2 * CLAMPED,
    )


def _glue(plan: VesselPlan) -> Operation:
    return at_bench(
        f"{ID}.glue",
        "Glue the knob into the lid.",
        how=(
            "Put glue in the hole, none on the shoulder.",
            "Press the knob home and turn it to where the grain looks best.",
            "Clamp lightly over a soft pad, the lid lying on its flange.",
        ),
        settings=(Quantity("clamp-time", "Leave it in clamps", plan.wood.glue.clamp_time, "hours"),),
        checks=right_if(
            "closed", "No light under the shoulder, all round", if_not="press harder while it is wet"
        ),
        cautions=("bench",),
        minutes=CHECKED + CLAMPED,
        hours=plan.wood.glue.clamp_time,
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Turn the knob and glue it in", operations, jigs=(knob_gauge,))
