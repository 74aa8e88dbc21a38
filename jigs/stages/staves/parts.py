"""The sled that cuts both edges of staves, and its two stops. Plan coordinates as in its layout."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from jigs.forms.vessel.plan import VesselPlan
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.lines import broken
from jigs.parts.mirror import mirrored
from jigs.parts.part import Dimension, EdgeAngle, EdgeGap, Line, Part
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part
from jigs.parts.sleds import hold_down
from jigs.parts.sleds.angles import show_degrees
from jigs.parts.sleds.stop import FAMILY
from jigs.parts.sleds.strip_sled import (
    BRUSH,
    base_outline,
    exit_block,
    fence,
    grip,
    grip_slots,
    pin_dimensions,
    runner,
    screws,
)
from jigs.stages.staves.layout import STOP_GAP, StaveSledLayout
from jigs.words.lengths import show_length

HANDED = ("stave-base", "stave-fence", "stave-hold", "stave-stop-1", "stave-stop-2", "stave-exit-block")
BLADE = "blade, piece's side"
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
    parts = [
        _base(plan, sled),
        fence(
            plan,
            sled,
            "stave-fence",
            ("STAVE FENCE", "← STOP  WASTE →"),
            sled.fence_ends,
            hold_down.openings(sled.hold, sled.fittings, sled.slide, sled.height, mirror=True),
        ),
        hold_down.slide(plan, FAMILY, "stave-hold", sled.hold, "stave", (_hold_note(plan, sled),)),
        hold_down.finger(plan, FAMILY, "stave-finger", sled.hold, "stave", 1, True),
        hold_down.cam(plan, FAMILY, "stave-cam", 1),
        hold_down.lever(plan, FAMILY, "stave-lever", 1),
        _stop(plan, sled, 1),
        _stop(plan, sled, 2),
        exit_block(plan, sled, "stave-exit-block"),
        runner(plan, sled, "stave-runner", screws(sled, _taken(sled))),
        grip(plan, "stave-handle"),
    ]
    own = [replace(part, family=FAMILY) for part in parts]
    turned = plan.job.workshop.saw.tilts == "left"
    return [mirrored(part) if turned and part.name in HANDED else part for part in own]


def _hold_note(plan: VesselPlan, sled: StaveSledLayout) -> str:
    clear = show_length(-sled.foot[1], plan.job.unit)
    return f"Put the finger on the stave, {clear} from the blade, before you switch the saw on."


def _slots(sled: StaveSledLayout) -> list[Contour]:
    half = sled.play / 2
    own = [rectangle(x - half, -sled.sheet, x + TAB + half, sled.play) for x in sled.tabs]
    return [*own, *grip_slots(sled)]


def _pins(sled: StaveSledLayout) -> list[Contour]:
    return [circle(pin, sled.fittings.pin / 2) for pin in sled.pins]


def _taken(sled: StaveSledLayout) -> list[Contour]:
    return [*_slots(sled), *_pins(sled)]


def _base(plan: VesselPlan, sled: StaveSledLayout) -> Part:
    outline, taken, job = base_outline(sled), _taken(sled), plan.job
    holes = [*taken, *screws(sled, taken)]
    lines = tuple(broken(Line(((0.0, sled.cut_end), (0.0, sled.far_edge)), BLADE), holes))
    text = (
        job.title.upper(),
        "STAVE SLED",
        f"BLADE TILT {degrees(sled.tilt):.4g}°",
        f"BLADE TILTS {job.workshop.saw.tilts.upper()}",
        "HOLD-DOWN ON THE STAVE",
        "WASTE SIDE STAYS FREE",
        *SAW_CAUTION,
        "↓ OPERATOR",
    )
    wall, side = (sled.tabs[0] + TAB / 2, -sled.sheet), (sled.right_edge, sled.operator_edge + 5)
    return cut_part(
        plan,
        FAMILY,
        "stave-base",
        "carries staves past the tilted blade",
        outline,
        holes,
        (*lines, *lettered(outline, holes, lines, text, near=(sled.left_edge, sled.operator_edge))),
        (
            Dimension("fence to blade", 90.0, EdgeAngle(wall, side)),
            *pin_dimensions(sled.fittings, sled.pins),
        ),
        (BRUSH,),
        making=(f"Drawn for a blade whose top tilts to the {job.tilts_text}, away from the stave.",),
    )


def _stop(plan: VesselPlan, sled: StaveSledLayout, cut: int) -> Part:
    """In the base's coordinates: toe, corner, side."""
    toe, corner, end = sled.stop_corner(cut)
    left = sled.stop_left
    outline = polygon([(left, STOP_GAP), (toe[0], STOP_GAP), toe, corner, end, (left, end[1])])
    holes = _pins(sled)
    width = sled.wide if cut == 1 else sled.narrow
    which = "WIDE END ↓" if cut == 1 else "NARROW END ↓"
    says = (f"STAVE STOP {cut}", which, f"TAPER {show_degrees(sled.taper)}", *SAW_CAUTION)
    probe = EdgeAngle(((toe[0] + corner[0]) / 2, (toe[1] + corner[1]) / 2),
                      ((corner[0] + end[0]) / 2, (corner[1] + end[1]) / 2))  # fmt: skip
    tip = (toe[0], (STOP_GAP + toe[1]) / 2)
    wide = show_length(width, plan.job.unit, exact=True)
    return cut_part(
        plan,
        FAMILY,
        f"stave-stop-{cut}",
        f"what a stave lies in for its {'first' if cut == 1 else 'second'} edge, on the side that is held",
        outline,
        holes,
        lettered(outline, holes, (), says),
        (
            Dimension("toe to side", 90.0 + (degrees(sled.taper) if cut == 2 else 0.0), probe),
            Dimension("toe's end to rear", toe[0] - left, EdgeGap(tip, (left, end[1] / 2))),
            *pin_dimensions(sled.fittings, sled.pins),
        ),
        (USE[cut - 1], f"The outer face then is {wide} wide at the end on the toe."),
    )  # fmt: skip
