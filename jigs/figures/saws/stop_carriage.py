"""The stop's carriage of the sled for flat rings, cut through along the blade: x away from the operator, y the height
over the base."""

from __future__ import annotations

from geometry.hardware.sled_sizes import ARM_FOOT
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Item, box
from jigs.figures.told import labelled
from jigs.stages.flat_segments.layout.carriage import SHOE, StopCarriage
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout

BESIDE = 22.0  # mm of the base shown past all else
BOLT, HEAD, NUT = 3.0, 8.0, 7.0  # mm: of a bolt half its width and half its head's, and the height of its nut


def side(layout: PlanAngleLayout, own: StopCarriage, suffix: str) -> Figure:
    """Of the sled with this end to its parts' names."""
    t = layout.sheet
    _, low, _, high = own.plate
    guide = own.guide[3] - own.guide[1]
    items: list[Item] = [
        box(low - BESIDE, -t, high + guide + BESIDE, 0.0, fill="jig"),
        box(-own.reach, 0.0, ARM_FOOT, t, fill="metal"),
        *(box(y - SHOE / 2, 0.0, y + SHOE / 2, t, fill="pale") for y in own.shoes),
        box(high, 0.0, high + guide, t, fill="pale"),
        box(low, t, high, 2 * t, fill="pale"),
        *(_bolt(y, -t, 2 * t) for y in own.shoes),
        *(box(y - HEAD, 2 * t, y + HEAD, 2 * t + NUT, fill="grey") for y in own.shoes),
        _bolt(0.0, 0.0, 2 * t),
        box(-HEAD, 2 * t, HEAD, 2 * t + NUT, fill="grey"),
        box(own.pin[1] - BOLT, 0.3 * t, own.pin[1] + BOLT, 2 * t + 2 * NUT, fill="ink"),
    ]
    far, near = own.shoes
    items += [
        labelled("carriage", f"plan-angle-carriage{suffix}", (0.5 * far, 1.5 * t), "right"),
        labelled("stop's arm", f"plan-angle-stop{suffix}", (0.4 * own.pin[1], 0.5 * t), "left"),
        Callout("bolt that the arm turns on", (0.0, 2 * t + NUT), "right"),
        Callout("pin that backs the arm", (own.pin[1], 2 * t + 1.5 * NUT), "left"),
        labelled("shoe", f"plan-angle-shoe{suffix}", (near - 0.3 * SHOE, 0.5 * t), "left"),
        Callout("bolt in its slot, nut", (near, 2 * t + NUT - 2), "left"),
        labelled("shoe", f"plan-angle-shoe{suffix}", (far + 0.3 * SHOE, 0.5 * t), "right"),
        labelled("guide", f"plan-angle-guide{suffix}", (high + guide / 2, 0.7 * t), "right"),
        labelled("base", f"plan-angle-base{suffix}", (low - BESIDE / 2, -t / 2), "left"),
    ]
    return Figure(
        f"building.flat-sled{suffix}-stop",
        "The stop's carriage from the side",
        "The arm lies on the base between two shoes as thick as it is. The carriage lies over all three; two bolts "
        "from the base clamp it. The far shoe slides along the guide.",
        tuple(items),
        height=75.0,
    )


def _bolt(y: float, low: float, high: float) -> Item:
    return box(y - BOLT, low, y + BOLT, high + NUT, fill="metal")
