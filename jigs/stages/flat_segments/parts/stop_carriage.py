"""The stop of a sled for several rings: its arm, the carriage that takes the arm to each setting, the guide.

Arm and carriage have the arm's pivot as origin; x and y run as on the base.
"""

from __future__ import annotations

from geometry.plane.contour import Contour, circle, rectangle
from geometry.plane.contour import outline as contour
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Dimension, HoleDiameter, Line, Part
from jigs.parts.plate import Plate
from jigs.parts.sleds.stop import stop_arm
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.layout.carriage import GUIDE, SHOE, StopCarriage
from jigs.stages.flat_segments.parts.sled import StopOnBase

SCREW_FROM_END = 12.0
SET = (
    "Set the stop with the saw unplugged: raise the blade, pin in. Put the ring's stick between the side of a tooth on "
    "the kept side and the arm's nose, the far shoe on the guide. Tighten both nuts, take the stick out, turn the "
    "blade by hand: it is clear."
)


def carriage_parts(plan: VesselPlan, carriage: StopCarriage, suffix: str) -> list[Part]:
    """Arm, plate, two shoes, guide."""
    arm = stop_arm(plan, f"plan-angle-stop{suffix}", carriage.reach, carriage.nose)
    return [
        arm,
        _plate(plan, carriage, suffix),
        _shoe(plan, carriage, suffix),
        _guide(plan, carriage, suffix),
    ]


def stop_on_base(carriage: StopCarriage, says: tuple[str, ...]) -> StopOnBase:
    """Holes for the two bolts and the guide's screws, the guide's edge, the two ends of the stop's travel."""
    bolts = [circle(place, carriage.fittings.bolt_hole / 2) for place in carriage.bolts]
    left, low, right, _ = carriage.guide
    screws = [
        circle((left + x, low + GUIDE / 2), carriage.fittings.screw_hole / 2) for x in _screws(right - left)
    ]
    ends = {carriage.nearest: "nearest stop", carriage.farthest: "farthest stop"}
    return StopOnBase(
        holes=(*bolts, *screws),
        lines=(
            *(Line(((x, -carriage.span), (x, carriage.span)), name) for x, name in ends.items()),
            Line(((left, low), (right, low)), "guide's edge"),
        ),
        text=(*says, "STOP BY ITS STICK"),
        dimensions=tuple(
            Dimension(f"{name} bolt of the carriage", carriage.fittings.bolt_hole, HoleDiameter(place))
            for name, place in zip(("far", "near"), carriage.bolts, strict=True)
        ),
        notes=(SET,),
    )


def _screws(length: float) -> tuple[float, float]:
    return (SCREW_FROM_END, length - SCREW_FROM_END)


def _slot(carriage: StopCarriage, y: float) -> Contour:
    """Along x, round ends, for a bolt."""
    r, (start, end) = carriage.fittings.bolt_hole / 2, carriage.slot
    return contour((start, y - r), (end, y - r, 1.0), (end, y + r), (start, y + r, 1.0))


def _plate(plan: VesselPlan, carriage: StopCarriage, suffix: str) -> Part:
    slots = [_slot(carriage, y) for y in carriage.shoes]
    plate = Plate(plan, rectangle(*carriage.plate), slots)
    plate.hole((0.0, 0.0), plan.job.fittings.bolt_hole, "pivot")
    plate.hole(carriage.pin, plan.job.fittings.pin, "hole for the stop's pin")
    plate.letter("STOP CARRIAGE", "← BLADE", "PIN OUT, STOP CLEAR, CUT", *SAW_CAUTION)
    return plate.part(
        f"plan-angle-carriage{suffix}",
        "takes the stop's arm to each ring's setting, square to the blade",
        ("Draw the sled back from the blade, then swing the arm by its nose, which shows beside the plate.",),
    )


def _shoe(plan: VesselPlan, carriage: StopCarriage, suffix: str) -> Part:
    """Far and near alike; y = 0 is the middle of the slot."""
    left, _, right, _ = carriage.plate
    plate = Plate(plan, rectangle(left, -SHOE / 2, right, SHOE / 2), [_slot(carriage, 0.0)])
    plate.letter("SHOE", titled=False)
    middle = (left + right) / 2
    plate.gap("across", SHOE, (middle, -SHOE / 2), (middle, SHOE / 2))
    purpose = "carries the carriage's plate on the base, as high as the arm"
    return plate.part(f"plan-angle-shoe{suffix}", purpose, quantity=2)


def _guide(plan: VesselPlan, carriage: StopCarriage, suffix: str) -> Part:
    """Its working edge is y = 0."""
    left, _, right, _ = carriage.guide
    long = right - left
    plate = Plate(plan, rectangle(0.0, 0.0, long, GUIDE))
    for x in _screws(long):
        plate.hole((x, GUIDE / 2), plan.job.fittings.screw_hole)
    plate.letter("GUIDE", "CARRIAGE ↓", titled=False)
    plate.gap("across", GUIDE, (long / 2 - 6, 0.0), (long / 2, GUIDE))
    return plate.part(f"plan-angle-guide{suffix}", "the carriage slides along it")
