"""The gallows on a sled for flat rings: it stands over the segment, which nothing else holds once it is cut off."""

from __future__ import annotations

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, polygon, rectangle
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Line, Part
from jigs.parts.places import lettered_or_untitled
from jigs.parts.plate import Plate
from jigs.parts.sleds.hold_down import UNDER_FOOT, add_bolts, brass, down, openings, paper, rows_note, thinned
from jigs.plans.plan import Plan
from jigs.stages.flat_segments.layout.sled import LEG, UNDER, PlanAngleLayout

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
    under, top, hold, t = layout.height + UNDER, layout.gallows_height, layout.press, layout.sheet
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
    plate.words += lettered_or_untitled(plate.outline, plate.holes, plan.job.title.upper(), says)
    plate.gap("clear under it", under, (near_end + 2, 0.0), ((near + far) / 2, under))
    glue = "Glue its feet into the base, square to it. The hold-down hangs on its face towards the blade."
    return plate.part(
        "plan-angle-gallows", "stands over the segment and carries its hold-down", making=(glue,)
    )


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
