"""The two sleds of a layup: for slabs off a stack at its angle, and the square one that trims these to pieces.

Plan coordinates as in their layouts.
"""

from __future__ import annotations

from math import degrees

from geometry.hardware.hold_down import PIN_CLEAR
from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, polygon
from jigs.parts.lines import broken
from jigs.parts.part import Line, Part, Point
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, middle
from jigs.parts.sleds import hold_down, stop_sled
from jigs.parts.sleds.angles import show_degrees
from jigs.parts.sleds.strip_sled import base_outline, exit_block, fence, grip_slots, runner, screws, slot
from jigs.parts.sleds.uprights import handle
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.layup.plan import LayupJigs, LayupPlan
from jigs.words.lengths import limit_length, show_length


def layup_sled(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base, fence, hold-downs on stack and slab, exit block, runner, handle; the pin is a 6 mm rod."""
    sled, end = jigs.sled, jigs.suffix
    ends, says = (sled.fence_start, sled.fence_end), ("LAYUP FENCE", "← SLAB  TAIL →")
    holes = [
        *hold_down.openings(sled.hold, sled.fittings, sled.stack_hold, sled.height),
        *hold_down.openings(sled.slab_hold, sled.fittings, sled.slab_slide, sled.height, mirror=True),
    ]
    return [
        _base(plan, layup, jigs),
        fence(plan, sled, f"layup-fence{end}", says, ends, holes),
        hold_down.slide(plan, f"layup-hold{end}", sled.hold, "stack"),
        hold_down.finger(plan, f"layup-finger{end}", sled.hold, "stack", 2),
        hold_down.slide(plan, f"layup-slab-hold{end}", sled.slab_hold, "slab"),
        hold_down.finger(plan, f"layup-slab-finger{end}", sled.slab_hold, "slab", 1),
        _slab_foot(plan, sled, f"layup-slab-foot{end}"),
        hold_down.cam(plan, f"layup-cam{end}", 2),
        hold_down.lever(plan, f"layup-lever{end}", 2),
        exit_block(plan, f"layup-exit-block{end}", sled.exit_block, sled.height),
        runner(plan, f"layup-runner{end}", sled.operator_edge, sled.far_edge, screws(sled, _slots(sled))),
        handle(plan, f"layup-handle{end}"),
    ]


def _slab_foot(plan: Plan, sled: LayupSledLayout, name: str) -> Part:
    """In the base's coordinates, its sides parallel to the blade."""
    foot, corner = sled.slab_foot, sled.beside_blade
    left, right, (low, high) = foot.left, foot.left + foot.width, foot.out
    plate = Plate(
        plan, slot([corner(left, low), corner(right, low), corner(right, high), corner(left, high)])
    )
    plate.marks += [Line(((x - 1.0, y), (x + 1.0, y)), "pin", witness=True) for x, y in sled.slab_pins]
    over = (sled.place(sled.slab_finger, low + 1), sled.place(sled.slab_finger, high - 1))
    if plate.outline.contains(over).all():
        plate.marks.append(Line(over, "finger over it", witness=True))
    middle = (low + high) / 2
    plate.gap("across", foot.width, corner(left, middle), corner(right, middle))
    unit = plan.job.unit
    return plate.part(
        name,
        "presses on the slab, parallel to the blade",
        making=(
            "Glue it under the slab's finger, the finger over its middle, its ends along the fence, its long side "
            f"{limit_length(foot.left, unit, 'least')} from the blade. Set it with the hold-down down on a slab.",
            f"Put two brass pins in at the marks. Leave {show_length(hold_down.PINS_OUT[unit], unit)} out below; "
            f"file it to a point. The blade passes {limit_length(PIN_CLEAR, unit, 'most')} from them.",
        ),
    )


def _fence_slot(sled: LayupSledLayout, start: float) -> Contour:
    half = sled.play / 2
    sides = (-sled.sheet, sled.play)
    places = [(start - half, sides[0]), (start + TAB + half, sides[0])]
    places += [(start + TAB + half, sides[1]), (start - half, sides[1])]
    return slot([sled.place(*place) for place in places])


def _slots(sled: LayupSledLayout) -> list[Contour]:
    return [
        *(_fence_slot(sled, start) for start in sled.tabs),
        *grip_slots(sled.handle, sled.sheet, sled.play),
    ]


def _base(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> Part:
    sled, slots = jigs.sled, _slots(jigs.sled)
    plate = Plate(plan, base_outline(sled), [*slots, *screws(sled, slots)])
    # The fence's slot to the base's right edge, which is parallel to the blade; its foot is below the fence.
    wall, side = sled.place(sled.tabs[-1] + TAB / 2, -sled.sheet), (sled.right_edge, sled.operator_edge + 5)
    plate.angle("fence to blade", degrees(sled.angle), wall, side)
    plate.hole(sled.pin, sled.fittings.pin, "hole for the pin")
    plate.marks += _lines(sled, plate.holes)
    plate.letter(
        f"LAYUP SLED {show_degrees(sled.angle)} TO THE PLIES",
        f"PITCH {plan.job.show(sled.pitch, exact=True).upper()}",
        "PIN OUT BEFORE THE CUT",
        *SAW_CAUTION,
        "↓ OPERATOR",
        near=(sled.left_edge, sled.far_edge),
    )
    purpose = "carries the stack of strips past the upright blade"
    chalk = f"Chalk the face that begins with {layup.names[0]} on every stack."
    return plate.part(f"layup-base{jigs.suffix}", purpose, (chalk,))


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


SPARE_STOP = "The other square stop trims a slab that was cut too wide, the pieces' ends against the fence."
HEAD = "layup-trim"


def trim_sled(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base, fence, hold-down, exit block, runner, handle; a slanted stop and a square one for each side."""
    sled, end = jigs.trim, jigs.suffix
    stops = [_slanted_stop(plan, sled, end)] if sled.slanted else []
    stops += [_square_stop(plan, sled, *side, end) for side in _sides(layup)]
    return [
        _trim_base(plan, layup, jigs),
        *stop_sled.holding(plan, sled, HEAD, end, "piece"),
        *stops,
        *stop_sled.sliding(plan, sled, HEAD, end),
    ]


def _sides(layup: LayupPlan) -> list[tuple[str, float]]:
    """The trimmed side first: its name and length."""
    cut = layup.way.cut
    return [(cut, layup.way.slab_length), ("b" if cut == "a" else "a", layup.way.slab)]


def _trim_base(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> Part:
    length = plan.job.show(jigs.trim.length, exact=True)
    sled = f"LAYUP TRIM SLED, SIDE {layup.way.cut.upper()} {length.upper()}"
    plate = stop_sled.base(plan, jigs.trim, (sled, "HOLD-DOWN ON THE PIECE", "WASTE SIDE STAYS FREE"))
    purpose = "carries slabs past the upright blade, square"
    return plate.part(f"layup-trim-base{jigs.suffix}", purpose, (SPARE_STOP,))


def _stop(plan: Plan, sled: TrimSledLayout, low: Point, high: Point) -> Plate:
    """In the base's coordinates; its working edge runs from `low` at the fence to `high`."""
    return Plate(plan, polygon([(sled.stop_left, low[1]), low, high, (sled.stop_left, high[1])]))


def _finished(plate: Plate, sled: TrimSledLayout, name: str, *says: str) -> Part:
    stop_sled.add_pins(plate, sled)
    plate.letter(*says, "FENCE ↓", *SAW_CAUTION, titled=False)
    return plate.part(name, "what the slab's end butts against, on the side that is held")


def _slanted_stop(plan: Plan, sled: TrimSledLayout, end: str) -> Part:
    low, high = ((sled.slanted_at(y), y) for y in sled.stop_depth)
    plate = _stop(plan, sled, low, high)
    plate.angle("fence to slanted edge", degrees(sled.slant), (sled.stop_left + 5, low[1]), middle(low, high))
    plies = f"PLIES {show_degrees(sled.slant)}"
    return _finished(plate, sled, f"layup-slanted-stop{end}", "FIRST CUT", plies)


def _square_stop(plan: Plan, sled: TrimSledLayout, side: str, length: float, end: str) -> Part:
    low, high = ((-length, y) for y in sled.stop_depth)
    plate, rear = _stop(plan, sled, low, high), (sled.stop_left, sum(sled.stop_depth) / 2)
    plate.gap("edge to rear", -length - sled.stop_left, (-length, rear[1]), rear)
    shown = plan.job.show(length, exact=True).upper()
    return _finished(plate, sled, f"layup-square-stop-{side}{end}", f"STOP {side.upper()}", shown)
