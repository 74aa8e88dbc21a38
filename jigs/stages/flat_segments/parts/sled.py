"""The sled for flat rings: blade upright, two fences the mitre angle off square, one stop for both; over
the segment stands a gallows, for nothing else holds it once it is cut off.

Plan coordinates: x = 0 is the blade's kept side, y runs away from the operator.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees
from typing import TYPE_CHECKING

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.records import Record, replace
from jigs.parts.part import Dimension, Line, Part
from jigs.parts.places import SAW_CAUTION, lettered_titled
from jigs.parts.plate import Plate, tab_room, with_tabs
from jigs.parts.probes import HoleDiameter
from jigs.parts.sleds import hold_down
from jigs.parts.sleds.hold_down import UNDER_FOOT, add_bolts, brass, down, openings, paper, rows_note, thinned
from jigs.parts.sleds.stop import stop_arm
from jigs.parts.sleds.strip_sled import base_outline, exit_block, grip_slots, runner, screws, slot
from jigs.parts.sleds.uprights import handle
from jigs.plans.plan import Plan
from jigs.stages.flat_segments.layout.sled import LEG, PlanAngleLayout

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan

SLACK = "Down on the strip before each cut, the blade at rest; up to slide the strip across."
FLIPPED = "Fit one on each fence; turn the second over before its fingers go in."
SLIDE_ACROSS = (
    "Make the first cut against one fence. Slide the strip across, the same face up; make the next against the other. "
    "While the joint plate fills the angle between the fences, the one makes good the other's error."
)


class StopOnBase(Record):
    """What the stop puts on the sled's base."""

    holes: Sequence[Contour]
    lines: Sequence[Line]
    text: Sequence[str]  # fences and stop, between what the sled is and the cautions
    dimensions: Sequence[Dimension]
    notes: Sequence[str]


def plan_angle_parts(plan: TorusPlan, layout: PlanAngleLayout) -> list[Part]:
    """Every part of the sled with an arm for its stop."""
    stop = stop_arm(plan, "plan-angle-stop", layout.arm_reach, layout.nose)
    *body, grip = sled_body(plan, layout, _fixed_stop(plan, layout))
    return [*body, stop, grip]


def sled_body(plan: Plan, layout: PlanAngleLayout, stop: StopOnBase, suffix: str = "") -> list[Part]:
    """All but the stop: base, exit block, runner, fences, hold-downs, gallows, handle. `suffix` ends every name."""
    parts = [
        _base(plan, layout, stop),
        exit_block(plan, "plan-angle-exit-block", layout.exit_block, layout.height),
        runner(plan, "plan-angle-runner", layout.operator_edge, layout.far_edge, _screws(layout)),
        _fence(plan, layout),
        hold_down.slide(plan, "plan-angle-hold", layout.hold, "strip", (SLACK,), 2, (FLIPPED,)),
        hold_down.finger(plan, "plan-angle-finger", layout.hold, "strip", 4, True),
        gallows(plan, layout),
        press(plan, layout),
        hold_down.cam(plan, "plan-angle-cam", 3),
        hold_down.lever(plan, "plan-angle-lever", 3),
        handle(plan, "plan-angle-handle"),
    ]
    return [replace(part, name=part.name + suffix) for part in parts]


def _fixed_stop(plan: TorusPlan, layout: PlanAngleLayout) -> StopOnBase:
    stop, edge = (plan.job.show(mm, exact=True) for mm in (layout.stop, layout.outer_edge))
    return StopOnBase(
        holes=(
            circle(layout.pivot, layout.fittings.bolt_hole / 2),
            circle(layout.pin, layout.fittings.pin / 2),
        ),
        lines=(Line(((layout.stop, -layout.span), (layout.stop, layout.span)), "stop line", witness=True),),
        text=(f"FENCES {degrees(layout.mitre):.4g}° OFF SQUARE", f"STOP {stop.upper()}"),
        dimensions=(Dimension("hole for the stop's pin", layout.fittings.pin, HoleDiameter(layout.pin)),),
        notes=(
            f"The stop is {stop} from the blade's kept side; the outer edge then comes {edge} long on either fence.",
        ),
    )


def _fence_slot(layout: PlanAngleLayout, side: int, start: float) -> Contour:
    half, t = layout.play / 2, layout.sheet
    places = (
        (start - half, -layout.play),
        (start + TAB + half, -layout.play),
        (start + TAB + half, t),
        (start - half, t),
    )
    return slot([layout.fence(side, *place) for place in places])


def _slots(layout: PlanAngleLayout) -> list[Contour]:
    fences = [_fence_slot(layout, side, start) for side in (1, -1) for start in layout.tabs]
    return [*fences, *gallows_slots(layout), *grip_slots(layout.handle, layout.sheet, layout.play)]


def _screws(layout: PlanAngleLayout) -> list[Contour]:
    return screws(layout, _slots(layout))


def _base(plan: Plan, layout: PlanAngleLayout, stop: StopOnBase) -> Part:
    plate = Plate(plan, base_outline(layout), [*_slots(layout), *_screws(layout), *stop.holes])
    x, span = layout.press_foot[0], layout.span
    plate.marks += [
        Line(((0.0, layout.cut_end), (0.0, layout.far_edge)), "blade, kept side"),
        Line(((x, -span), (x, span)), "segment's foot", witness=True),
        *stop.lines,
    ]
    plate.letter(
        "PLAN-ANGLE SLED",
        *stop.text,
        "STOP CLEAR BEFORE THE CUT",
        *SAW_CAUTION,
        "↓ OPERATOR",
        near=(layout.left_edge, layout.far_edge),
    )
    first, second = (layout.fence(side, layout.tabs[0] + TAB / 2, layout.sheet) for side in (1, -1))
    plate.angle("fence to fence", 2 * degrees(layout.mitre), first, second)
    plate.dimensions += stop.dimensions
    return plate.part(
        "plan-angle-base",
        "carries the strip of a flat ring past the upright blade",
        (SLIDE_ACROSS, *stop.notes),
        making=(hold_down.paper(plan, "to its top, wherever strip and segment lie"),),
    )


def _fence(plan: Plan, layout: PlanAngleLayout) -> Part:
    """x along the fence from the blade's line, y the height above the base."""
    start, end, height = layout.fence_start, layout.fence_end, layout.fence_height
    top = [(end, 0.0), (end, height), (start, height), (start, 0.0)]
    plate = Plate(plan, with_tabs(top, layout.tabs, layout.sheet))
    plate.holes += hold_down.openings(layout.hold, layout.fittings, start, layout.height)
    plate.letter("FLAT RING FENCE", "← BLADE  FOOT ↓", *SAW_CAUTION)
    plate.gap("foot to top", height, (start + 5, 0.0), ((start + end) / 2, height))
    return plate.part(
        "plan-angle-fence",
        "what the strip leans on",
        making=(
            "Press it to the walls of its slots that are away from the other fence.",
            hold_down.paper(plan, "to the face that the strip leans on"),
        ),
        quantity=2,
    )


HELD = "Press the segment's own hold-down before every cut: once cut off, the segment touches no fence."
SIDE = "Fit its lever on the side away from the blade, its end towards the operator."
BRASS = (
    "Put brass pins, {across} across, into the lower edge at the marks, nearer the side towards the blade. Leave {out} "
    "out; file it to a point. The blade passes {clear} from them."
)


def _tabs(layout: PlanAngleLayout) -> tuple[float, ...]:
    return tuple(low + (LEG - TAB) / 2 for low, _ in layout.gallows_legs)


def gallows_slots(layout: PlanAngleLayout) -> list[Contour]:
    """Of both feet, in the base."""
    (left, right), half = layout.gallows, layout.play / 2
    return [rectangle(left - half, y - half, right + half, y + TAB + half) for y in _tabs(layout)]


def gallows(plan: Plan, layout: PlanAngleLayout) -> Part:
    """x is the base's y, y the height above the base."""
    (near_end, near), (far, far_end) = layout.gallows_legs
    under, top, hold, t = layout.under, layout.gallows_height, layout.press, layout.sheet
    first, second = _tabs(layout)
    outline = polygon(
        [
            (near_end, 0.0), (first, 0.0), (first, -t), (first + TAB, -t), (first + TAB, 0.0), (near, 0.0),
            (near, under), (far, under), (far, 0.0),
            (second, 0.0), (second, -t), (second + TAB, -t), (second + TAB, 0.0), (far_end, 0.0),
            (far_end, top), (near_end, top),
        ]
    )  # fmt: skip
    plate = Plate(plan, outline, openings(hold, layout.fittings, -hold.middle, layout.height))
    says = ("GALLOWS, FAR →", "FOOT ↓", *SAW_CAUTION)
    plate.words += lettered_titled(plate.outline, plate.holes, plan.job.title.upper(), says)
    plate.gap("clear under it", under, (near_end + 2, 0.0), ((near + far) / 2, under))
    glue = "Glue its feet into the base, square to it. The hold-down hangs on its face towards the blade."
    purpose = "stands over the segment and carries its hold-down"
    return plate.part("plan-angle-gallows", purpose, making=(glue,), works_to=tab_room(plan))


def press(plan: Plan, layout: PlanAngleLayout) -> Part:
    """x from its near end, y the height above its lower edge, which bears on the segment."""
    hold = layout.press
    plate = Plate(plan, rectangle(0.0, 0.0, hold.width, hold.height))
    add_bolts(plate, hold)
    plate.marks += [Line(((x, 0.5), (x, 2.0)), "pin", witness=True) for x in press_pins(layout)]
    plate.letter("HOLD SEGMENT ↓", titled=False)
    return plate.part(
        "plan-angle-press",
        "presses the segment down while it is cut off, on either fence",
        (HELD, *down(plan), *rows_note(hold)),
        making=(SIDE, *thinned(plan, hold), paper(plan, UNDER_FOOT), brass(plan, BRASS)),
    )


def press_pins(layout: PlanAngleLayout) -> list[float]:
    """x of the pins, from the plate's near end."""
    return [layout.press.middle + y for y in layout.press_pin_places]
