"""The sled that cuts slabs from a stack at the layup's angle. Plan coordinates as in `geometry.layup_sled`."""

from __future__ import annotations

from math import degrees

from geometry.contour import Contour, circle, rectangle
from geometry.layup_sled import LayupSledLayout
from geometry.segment_carrier import HOLD_WIDTH, PIN
from geometry.sled import TAB
from jigs.families.labels import SAW_CAUTION, SAW_NOTES
from jigs.families.layup.saw_parts import (
    BIN,
    FAMILY,
    base_outline,
    exit_block,
    fence,
    grip,
    grip_slots,
    hold,
    runner,
    screws,
    slot,
)
from jigs.families.lines import broken
from jigs.families.places import lettered
from jigs.families.saw_angles import show_degrees
from jigs.families.segment_stop import HOLD_HEIGHT
from jigs.families.sheet import cut_part
from jigs.lengths import show_length
from jigs.part import Dimension, EdgeAngle, HoleDiameter, Line, Part
from jigs.plan import Plan
from jigs.plan.layup.jigs import LayupJigs
from jigs.plan.layup.layup import LayupPlan

HOLD_BOLTS = (14.0, HOLD_WIDTH - 14.0)


def layup_sled(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base, fence, hold-down, exit block, runner, handle; the pin is a 6 mm rod."""
    sled, end = jigs.sled, jigs.suffix
    ends, bolts = (sled.fence_start, sled.fence_end), [sled.hold[0] + x for x in HOLD_BOLTS]
    says = ("LAYUP FENCE", "← SLAB  TAIL →")
    foot = rectangle(0.0, 0.0, HOLD_WIDTH, HOLD_HEIGHT)
    return [
        _base(plan, layup, jigs),
        fence(plan, sled, f"layup-fence{end}", says, ends, bolts),
        hold(plan, f"layup-hold{end}", foot, HOLD_BOLTS, "stack", (_hold_note(plan, sled),)),
        exit_block(plan, sled, f"layup-exit-block{end}"),
        runner(plan, sled, f"layup-runner{end}", screws(sled, _slots(sled))),
        grip(plan, f"layup-handle{end}"),
    ]


def _hold_note(plan: Plan, sled: LayupSledLayout) -> str:
    held = show_length(sled.hold[1], plan.job.unit)
    return (
        "Down on the stack with wing nuts before each cut, while the blade stands still; slack to move it on. Before "
        f"the last cuts glue a scrap of the same section to the stack's tail: {held} of it have to lie along the fence "
        "behind the blade, or there is nothing to hold."
    )


def _fence_slot(sled: LayupSledLayout, start: float) -> Contour:
    half = sled.play / 2
    sides = (-sled.sheet, sled.play)
    places = [(start - half, sides[0]), (start + TAB + half, sides[0])]
    places += [(start + TAB + half, sides[1]), (start - half, sides[1])]
    return slot([sled.place(*place) for place in places])


def _slots(sled: LayupSledLayout) -> list[Contour]:
    return [*(_fence_slot(sled, start) for start in sled.tabs), *grip_slots(sled)]


def _base(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> Part:
    sled, outline = jigs.sled, base_outline(jigs.sled)
    slots = _slots(sled)
    holes = [*slots, *screws(sled, slots), circle(sled.pin, PIN / 2)]
    lines = _lines(sled, holes)
    pitch = show_length(sled.pitch, plan.job.unit, exact=True)
    text = (
        plan.job.title.upper(),
        f"LAYUP SLED {show_degrees(sled.angle)} TO THE PLIES",
        f"PITCH {pitch.upper()}",
        "PIN OUT BEFORE THE CUT",
        *SAW_CAUTION,
        "↓ OPERATOR",
    )
    return cut_part(
        plan,
        FAMILY,
        f"layup-base{jigs.suffix}",
        "carries the stack of strips past the upright blade",
        outline,
        holes,
        (*lines, *lettered(outline, holes, lines, text, near=(sled.left_edge, sled.far_edge))),
        (_angle(sled), Dimension("hole for the pin", PIN, HoleDiameter(sled.pin))),
        (*SAW_NOTES, BIN, *_use(plan, layup, jigs)),
    )


def _angle(sled: LayupSledLayout) -> Dimension:
    """Of the fence's slot to the base's right edge, which is parallel to the blade; its foot is below the fence."""
    wall, side = sled.place(sled.tabs[-1] + TAB / 2, -sled.sheet), (sled.right_edge, sled.operator_edge + 5)
    return Dimension("fence to blade", degrees(sled.angle), EdgeAngle(wall, side))


def _lines(sled: LayupSledLayout, holes: list[Contour]) -> tuple[Line, ...]:
    slab = Line(((sled.width, sled.pin[1] - sled.stack / 2), (sled.width, sled.far_edge)), "slab")
    blade = [
        ((0.0, sled.cut_end), (0.0, sled.far_edge)),
        ((-sled.kerf, sled.cut_end), (-sled.kerf, sled.far_edge)),
    ]
    names = ("blade, slab's side", "blade, stack's side")
    cut = [
        piece for ends, name in zip(blade, names, strict=True) for piece in broken(Line(ends, name), holes)
    ]
    return (*cut, *broken(slab, holes))


def _use(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> tuple[str, ...]:
    unit, sled = plan.job.unit, jigs.sled
    pitch, width = (show_length(mm, unit, exact=True) for mm in (sled.pitch, sled.width))
    strips, pieces = layup.way.strips, layup.way.pieces
    return (
        f"The stack, {strips} strips glued face to face, lies flat: ply edges up, its depth of "
        f"{show_length(sled.height, unit)} upright, its first or last ply against the fence, its tail towards the "
        f"operator. Chalk the face that begins with {layup.names[0]} on every stack.",
        "Prove the fence with a scrap: the two sides of a slab are parallel, and its ends lean "
        f"{show_degrees(sled.angle)} to them.",
        "First cut: the stack's end so far past the blade that the cut takes every strip, hold-down tight. Then move "
        f"it on: a {PIN:g} mm pin in its hole, the sawn end against the pin, hold-down tight, pin out, cut. It moves "
        f"{pitch} along the fence, and each slab is {width} wide, {pieces} of them from a stack.",
        "The pin is drawn before the blade turns: left in, it would trap the slab between itself and the blade. "
        "Nothing else stands on the slab's side.",
        "Clamp a block to the fence behind the stack's tail, or glue abrasive to the fence: the blade pushes the stack "
        "along a slanted fence.",
        f"These cuts run along the pieces' sides {layup.way.cut}; the sides square to them are cut on the trim sled.",
    )
