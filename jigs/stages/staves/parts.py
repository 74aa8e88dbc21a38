"""The sled that cuts both edges of staves, and its two stops. Plan coordinates as in its layout."""

from __future__ import annotations

from math import degrees

from geometry.hardware.stop_sled import STOP_GAP
from geometry.plane.contour import polygon
from jigs.parts.mirror import mirrored
from jigs.parts.part import Part
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, middle
from jigs.parts.sleds import stop_sled
from jigs.parts.sleds.angles import show_degrees
from jigs.parts.sleds.strip_sled import BRUSH
from jigs.plans.vessel import VesselPlan
from jigs.stages.staves.layout import StaveSledLayout

HEAD = "stave"
HANDED = ("stave-base", "stave-fence", "stave-hold", "stave-stop-1", "stave-stop-2", "stave-exit-block")
USE = (
    "Put a board as it was ripped with its wide end on the toe, its edge along the stop, the outside face up. Lever "
    "down, tug at it, cut. Cut all first edges first.",
    "Turn the piece end for end, the same face up, its narrow end on the toe, its sawn edge along the stop. Lever "
    "down, tug at it, cut.",
)


def stave_sled(plan: VesselPlan) -> list[Part]:
    """Base, fence, hold-down, both stops, exit block, runner, handle; none without staves."""
    if plan.saws.staves is None:
        return []
    sled = plan.saws.staves.layout
    clear = plan.job.show(-sled.foot[1])
    note = f"Put the finger on the stave, {clear} from the blade, before you switch the saw on."
    parts = [
        _base(plan, sled),
        *stop_sled.holding(plan, sled, HEAD, "", "stave", (note,), True),
        *(_stop(plan, sled, cut) for cut in (1, 2)),
        *stop_sled.sliding(plan, sled, HEAD, ""),
    ]
    turned = plan.job.workshop.saw.tilts == "left"
    return [mirrored(part) if turned and part.name in HANDED else part for part in parts]


def _base(plan: VesselPlan, sled: StaveSledLayout) -> Part:
    tilts = plan.job.workshop.saw.tilts
    says = (
        "STAVE SLED",
        f"BLADE TILT {degrees(sled.tilt):.4g}°",
        f"BLADE TILTS {tilts.upper()}",
        "HOLD-DOWN ON THE STAVE",
        "WASTE SIDE STAYS FREE",
    )
    drawn = f"Drawn for a blade whose top tilts to the {tilts}, away from the stave.{plan.job.tilt_assumed}"
    plate = stop_sled.base(plan, sled, says)
    return plate.part("stave-base", "carries staves past the tilted blade", (BRUSH,), making=(drawn,))


def _stop(plan: VesselPlan, sled: StaveSledLayout, cut: int) -> Part:
    """In the base's coordinates: toe, corner, side."""
    toe, corner, end = sled.stop_corner(cut)
    left = sled.stop_left
    outline = polygon([(left, STOP_GAP), (toe[0], STOP_GAP), toe, corner, end, (left, end[1])])
    plate = Plate(plan, outline)
    turned = degrees(sled.taper) if cut == 2 else 0.0
    plate.angle("toe to side", 90.0 + turned, middle(toe, corner), middle(corner, end))
    tip = (toe[0], (STOP_GAP + toe[1]) / 2)
    plate.gap("toe's end to rear", toe[0] - left, tip, (left, end[1] / 2))
    stop_sled.add_pins(plate, sled)
    on_toe, width, which = (("WIDE", sled.wide, "first"), ("NARROW", sled.narrow, "second"))[cut - 1]
    taper = f"TAPER {show_degrees(sled.taper)}"
    plate.letter(f"STAVE STOP {cut}", f"{on_toe} END ↓", taper, *SAW_CAUTION, titled=False)
    wide = plan.job.show(width, exact=True)
    return plate.part(
        f"stave-stop-{cut}",
        f"what a stave lies in for its {which} edge, on the side that is held",
        (USE[cut - 1], f"The outer face then is {wide} wide at the end on the toe."),
    )
