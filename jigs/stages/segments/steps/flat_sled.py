"""Segments of flat rings on their own sled, which a torus job may ask for beside its own work."""

from __future__ import annotations

from jigs.plans.torus import TorusPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import SETTING
from jigs.work.model import Check, Operation
from jigs.work.rack import Rack, uses


def flat_sled(plan: TorusPlan, rack: Rack, stage: str) -> list[Operation]:
    """Nothing where the job asks for none."""
    layout = plan.cutting.plan_angle
    if layout is None:
        return []
    return [
        Operation(
            f"{stage}.flat-sled",
            "table saw",
            "For flat rings beside this one: cut their segments on the sled with two fences.",
            how=(
                "Set the blade upright; the joint plate fills the angle between the fences.",
                "Push the strip to the stop, all levers down, pin out, stop swung clear, then cut.",
                "Slide the strip across to the other fence, the same face up, for the next cut.",
            ),
            settings=(
                Quantity("mitre", "Each fence off square", layout.mitre, "angle"),
                Quantity("stop", "Stop from the blade's kept side, square to it", layout.stop),
                ruled("blade-height", "Blade above the table", layout.saw_height),
            ),
            jigs=uses((part for part in rack.named("plan-angle") if part.notes), notes=True),
            trial="a scrap strip: two segments, then a whole ring of them",
            checks=(
                Check(
                    "edge",
                    "Calliper over the outer edge",
                    (calliper("outer-edge", "Outer edge as cut", layout.outer_edge),),
                    "move the stop by the error",
                ),
            ),
            cautions=("table-saw.stop", "saw.bin", "table-saw"),
            minutes=SETTING,
        )
    ]
