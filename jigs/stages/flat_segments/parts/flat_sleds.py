"""The sleds that cut the segments of flat rings: one for each count of segments; the stop's arm on the
carriage that takes it to each setting, and the sticks that set it.

Arm and carriage have the arm's pivot as origin; x and y run as on the base. A stick is as long as from the blade's kept
side to the arm's nose, along y: the edge y = 0 goes to the blade, the one above it to the stop.
"""

from __future__ import annotations

from math import degrees, pi, sin

from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.contour import outline as contour
from geometry.records import replace
from jigs.parts.part import Dimension, Line, Part
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate
from jigs.parts.probes import HoleDiameter
from jigs.parts.sleds.angles import joint_plate, tilt_plate
from jigs.parts.sleds.stop import RAIL, stop_arm
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.layout.carriage import GUIDE, SHOE, StopCarriage
from jigs.stages.flat_segments.parts.sled import StopOnBase, sled_body
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
from jigs.words.lengths import limit_length
from jigs.words.quantity import ring_numbers


def flat_sleds(plan: VesselPlan) -> list[Part]:
    """Every part of every sled; names end in the count of segments, as in "plan-angle-base-n12"."""
    return [part for sled in plan.saws.sleds for part in _sled(plan, sled)]


def _sled(plan: VesselPlan, sled: FlatSled) -> list[Part]:
    layout, suffix = sled.layout, f"-n{sled.segments}"
    carriage = layout.carriage
    if carriage is None:
        raise ValueError(f"the sled for {sled.segments} segments has no carriage for its stop")
    says = (f"{sled.segments} SEGMENTS", f"FENCES {degrees(layout.mitre):.4g}° OFF SQUARE")
    base, *rest = sled_body(plan, layout, stop_on_base(carriage, says), suffix)
    return [_with_notes(plan, sled, base), *rest, *carriage_parts(plan, carriage, suffix)]


def _with_notes(plan: VesselPlan, sled: FlatSled, base: Part) -> Part:
    held = limit_length(sled.layout.held, plan.job.unit, "least")
    said = (
        f"Stop cutting when less than {held} of strip is left behind the blade: the hold-down no longer holds it.",
        *([RAIL] if any(setting.blocks for setting in sled.settings) else []),
    )
    return replace(base, notes=(*base.notes, *said))


def angle_plates(plan: VesselPlan) -> list[Part]:
    """Joint plates, named as "joint-plate-n12"; the staves' tilt plate."""
    joints = [joint_plate(plan, sled.segments, f"joint-plate-n{sled.segments}") for sled in plan.saws.sleds]
    staves = plan.saws.staves
    if staves is None:
        return joints
    says = (f"{staves.count} STAVES",)
    tilt = tilt_plate(plan, staves.blade_tilt, "stave-tilt-plate", "staves' edges", says)
    return [*joints, tilt]


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


WIDTH = 80.0
# Length that leaves room for the lettering; a shorter stick is a tongue on a head as tall as this.
LEAST = 26.0
TONGUE = 35.0
# mm by which an old stick may leave a ring's apothem short: over 2 sin(mitre) as far as it is out.
RING = 0.019


def stop_sticks(plan: VesselPlan) -> list[Part]:
    """One for each setting of each sled, named by its rings."""
    return [_stick(plan, sled, setting) for sled in plan.saws.sleds for setting in sled.settings]


def _stick(plan: VesselPlan, sled: FlatSled, setting: StopSetting) -> Part:
    short, stop, rings = setting.stop < LEAST, setting.stop, ring_numbers(setting.rings)
    plate, x = Plate(plan, _outline(stop)), (TONGUE if short else WIDTH) / 2
    must = (rings, "↓ BLADE", "← STOP ON TONGUE" if short else "↑ STOP")
    shown = plan.job.show(stop, exact=True).upper()
    more = (*must, f"STOP {shown}", f"{sled.segments} SEGMENTS", *SAW_CAUTION)
    plate.letter(*more, instead=(more, must))
    plate.gap("blade to stop", stop, (x, 0.0), (x, stop))
    return plate.part(
        f"stop-stick-ring-{'-'.join(map(str, setting.rings))}",
        f"sets the stop of the sled for {sled.segments} segments, {rings.lower()}",
        (
            "Hold it square to the blade. The edge BLADE touches the side of a tooth that is set to the kept side, "
            "not the blade's plate.",
        ),
        works_to=min(0.02, RING * 2 * sin(pi / sled.segments)),
    )


def _outline(stop: float) -> Contour:
    if stop >= LEAST:
        return rectangle(0.0, 0.0, WIDTH, stop)
    wide = TONGUE + WIDTH
    return polygon([(0.0, 0.0), (wide, 0.0), (wide, LEAST), (TONGUE, LEAST), (TONGUE, stop), (0.0, stop)])
