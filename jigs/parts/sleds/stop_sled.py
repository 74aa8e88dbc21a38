"""A sled with one fence and a stop on two pins before it, which holds a piece for the cut at its end or along its edge.

The trim sled of a layup and the sled of staves are such. Plan coordinates as in their layouts.
"""

from __future__ import annotations

from collections.abc import Sequence

from geometry.hardware.sled_sizes import TAB
from geometry.hardware.stop_sled import StopSled
from geometry.plane.contour import Contour, circle
from jigs.parts.lines import broken
from jigs.parts.part import Line, Part
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate
from jigs.parts.sleds import hold_down, strip_sled
from jigs.parts.sleds.uprights import handle
from jigs.plans.plan import Plan


def holding(
    plan: Plan, sled: StopSled, head: str, end: str, what: str, notes: Sequence[str] = (),
    papered: bool = False,
) -> list[Part]:  # fmt: skip
    """The fence and its hold-down on `what`; names begin with `head` and end in `end`."""
    openings = hold_down.openings(sled.hold, sled.fittings, sled.slide, sled.height, mirror=True)
    says = (f"{head.rpartition('-')[2].upper()} FENCE", "← STOP  WASTE →")
    return [
        strip_sled.fence(plan, sled, f"{head}-fence{end}", says, sled.fence_ends, openings),
        hold_down.slide(plan, f"{head}-hold{end}", sled.hold, what, notes),
        hold_down.finger(plan, f"{head}-finger{end}", sled.hold, what, 1, papered),
        hold_down.cam(plan, f"{head}-cam{end}", 1),
        hold_down.lever(plan, f"{head}-lever{end}", 1),
    ]


def sliding(plan: Plan, sled: StopSled, head: str, end: str) -> list[Part]:
    """Exit block, runner and handle."""
    pins = [circle(pin, sled.fittings.pin / 2) for pin in sled.pins]
    over = strip_sled.screws(sled, [*_slots(sled), *pins])
    return [
        strip_sled.exit_block(plan, f"{head}-exit-block{end}", sled.exit_block, sled.height),
        strip_sled.runner(plan, f"{head}-runner{end}", sled.operator_edge, sled.far_edge, over),
        handle(plan, f"{head}-handle{end}"),
    ]


def base(plan: Plan, sled: StopSled, says: Sequence[str]) -> Plate:
    """What carries all of it past the blade."""
    plate = Plate(plan, strip_sled.base_outline(sled), _slots(sled))
    wall, side = (sled.tabs[0] + TAB / 2, -sled.sheet), (sled.right_edge, sled.operator_edge + 5)
    plate.angle("fence to blade", 90.0, wall, side)
    add_pins(plate, sled)
    plate.holes += strip_sled.screws(sled, plate.holes)
    blade = Line(((0.0, sled.cut_end), (0.0, sled.far_edge)), "blade, piece's side")
    plate.marks += broken(blade, plate.holes)
    plate.letter(*says, *SAW_CAUTION, "↓ OPERATOR", near=(sled.left_edge, sled.operator_edge))
    return plate


def add_pins(plate: Plate, sled: StopSled) -> None:
    """The holes of a stop's two pins."""
    for number, pin in enumerate(sled.pins, 1):
        plate.hole(pin, sled.fittings.pin, f"hole for pin {number}")


def _slots(sled: StopSled) -> list[Contour]:
    return [
        *strip_sled.fence_slots(sled.tabs, sled.sheet, sled.play),
        *strip_sled.grip_slots(sled.handle, sled.sheet, sled.play),
    ]
