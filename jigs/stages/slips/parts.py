"""The box in which slips are cut to length by hand: base with fence, and a hold-down that is sawn through."""

from __future__ import annotations

from geometry.plane.contour import rectangle
from jigs.parts.lines import broken
from jigs.parts.part import Line, Part
from jigs.parts.places import lettered_titled
from jigs.parts.plate import Plate, with_tabs
from jigs.parts.sleds.strip_sled import fence_slots
from jigs.plans.plan import Plan
from jigs.stages.slips.layout import BESIDE, FENCE, SlipBox


def slip_box(plan: Plan) -> list[Part]:
    """Base, fence, sacrificial hold-down; none where there are no slips."""
    box = plan.slip_box
    return [] if box is None else [_base(plan, box), _fence(plan, box), _hold(plan, box)]


def slip_lines(plan: Plan, box: SlipBox) -> tuple[Line, ...]:
    """Where the block stands for each length of slip, named by its rings."""
    slips = [lot for lot in plan.wood.lots if lot.slip]
    found: dict[float, set[int]] = {}
    for lot in slips:
        found.setdefault(round(lot.longer, 2), set()).update(lot.rings)
    return tuple(
        Line(
            ((x, 0.0), (x, box.tallest)), f"slip, rings {' '.join(map(str, sorted(found[x])))}", witness=True
        )
        for x in sorted(found)
    )


def _base(plan: Plan, box: SlipBox) -> Part:
    (left, right), (low, high) = box.ends, box.sides
    plate = Plate(plan, rectangle(left, low, right, high), fence_slots(box.tabs, box.sheet, box.play))
    _add_bolts(plate, box)
    plate.marks += broken(Line(((0.0, low + 3), (0.0, high - 3)), "saw"), plate.holes)
    plate.marks += slip_lines(plan, box)
    plate.letter("SLIP BOX, HAND SAW ONLY", "BLOCK AT ITS LINE")
    lengths = dict.fromkeys(plan.job.show(mm) for mm in (box.shortest, box.longest))
    return plate.part(
        "slip-box-base",
        "slips between segments are cut to length on it by hand",
        (
            f"Clamp a block at the line of the slip's length, {' to '.join(lengths)} from the saw's line, its face "
            "against the slip's end. Hold the slip flat against the fence by its long end.",
        ),
    )


def _add_bolts(plate: Plate, box: SlipBox) -> None:
    for number, place in enumerate(box.bolts, 1):
        plate.hole(place, plate.plan.job.fittings.bolt_hole, f"hole for bolt {number}")


def _fence(plan: Plan, box: SlipBox) -> Part:
    left, right = box.ends
    top = [(right, 0.0), (right, FENCE), (left, FENCE), (left, 0.0)]
    plate = Plate(plan, with_tabs(top, box.tabs, box.sheet))
    title, says = plan.job.title.upper(), ("SLIP FENCE", "FINGERS BEHIND")
    plate.words += lettered_titled(plate.outline, (), title, says)
    plate.marks.append(Line(((0.0, 3.0), (0.0, FENCE - 3)), "saw"))
    plate.gap("foot to top", FENCE, (left + 2, 0.0), ((left + right) / 2, FENCE))
    return plate.part("slip-box-fence", "what slips lean on; fingers stay behind it")


def _hold(plan: Plan, box: SlipBox) -> Part:
    left, right = box.hold
    plate = Plate(plan, rectangle(left, 1.0, right, box.tallest + BESIDE - 5))
    _add_bolts(plate, box)
    plate.marks.append(Line(((0.0, 3.0), (0.0, box.tallest)), "saw"))
    plate.letter("SLIP HOLD", titled=False)
    return plate.part(
        "slip-box-hold",
        "lies over the slip and is sawn through with it",
        (
            "Lay the hold-down over the slip on both sides of the cut and tighten both wing nuts. Saw through "
            "hold-down and slip into the base. Renew it when it no longer holds both.",
            "Put a slip of the same thickness under its front edge: it keeps it level.",
        ),
        quantity=2,
    )
