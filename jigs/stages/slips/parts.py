"""The box in which slips are cut to length by hand: base with fence, and a hold-down that is sawn through."""

from __future__ import annotations

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import circle, rectangle
from jigs.forms.vessel.plan import VesselPlan
from jigs.parts.labels import ENGRAVED
from jigs.parts.lines import broken
from jigs.parts.part import Dimension, EdgeGap, HoleDiameter, Line, Part
from jigs.parts.places import lettered, lettered_or_untitled
from jigs.parts.sheet import cut_part, with_tabs
from jigs.parts.sleds.stop import FAMILY
from jigs.stages.slips.layout import BESIDE, FENCE, SlipBox
from jigs.words.lengths import show_length


def slip_box(plan: VesselPlan) -> list[Part]:
    """Base, fence, sacrificial hold-down; none where there are no slips."""
    box = plan.slip_box
    return [] if box is None else [_base(plan, box), _fence(plan, box), _hold(plan, box)]


def slip_lines(plan: VesselPlan, box: SlipBox) -> tuple[Line, ...]:
    """Where the block stands for each length of slip, named by its rings."""
    slips = [lot for lot in plan.wood.lots if lot.way == "slit" and lot.piece == "spacer"]
    found: dict[float, set[int]] = {}
    for lot in slips:
        found.setdefault(round(lot.longer, 2), set()).update(lot.rings)
    return tuple(
        Line(
            ((x, 0.0), (x, box.tallest)), f"slip, rings {' '.join(map(str, sorted(found[x])))}", witness=True
        )
        for x in sorted(found)
    )


def _base(plan: VesselPlan, box: SlipBox) -> Part:
    (left, right), (low, high), half = box.ends, box.sides, box.play / 2
    outline, r = rectangle(left, low, right, high), plan.job.fittings.bolt_hole / 2
    slots = [rectangle(x - half, -box.sheet, x + TAB + half, box.play) for x in box.tabs]
    holes = [*slots, *(circle(place, r) for place in box.bolts)]
    saw = Line(((0.0, low + 3), (0.0, high - 3)), "saw")
    lines = (*broken(saw, holes), *slip_lines(plan, box))
    shortest, longest = (show_length(mm, plan.job.unit) for mm in (box.shortest, box.longest))
    text = ("SLIP BOX, HAND SAW ONLY", "BLOCK AT ITS LINE")
    return cut_part(
        plan,
        FAMILY,
        "slip-box-base",
        "slips between segments are cut to length on it by hand",
        outline,
        holes,
        (*lines, *lettered(outline, holes, lines, (plan.job.title.upper(), *text), height=ENGRAVED)),
        (*(Dimension(f"hole for bolt {i}", 2 * r, HoleDiameter(p)) for i, p in enumerate(box.bolts, 1)),),
        (
            f"Clamp a block at the line of the slip's length, {shortest} to {longest} from the saw's line, its face "
            "against the slip's end. Hold the slip flat against the fence by its long end.",
        ),
    )


def _fence(plan: VesselPlan, box: SlipBox) -> Part:
    left, right = box.ends
    outline = with_tabs([(right, 0.0), (right, FENCE), (left, FENCE), (left, 0.0)], box.tabs, box.sheet)
    saw = (Line(((0.0, 3.0), (0.0, FENCE - 3)), "saw"),)
    return cut_part(
        plan,
        FAMILY,
        "slip-box-fence",
        "what slips lean on; fingers stay behind it",
        outline,
        (),
        (*saw, *lettered_or_untitled(outline, (), plan.job.title.upper(), ("SLIP FENCE", "FINGERS BEHIND"))),
        (Dimension("foot to top", FENCE, EdgeGap((left + 2, 0.0), ((left + right) / 2, FENCE))),),
    )


def _hold(plan: VesselPlan, box: SlipBox) -> Part:
    (left, right), r = box.hold, plan.job.fittings.bolt_hole / 2
    outline = rectangle(left, 1.0, right, box.tallest + BESIDE - 5)
    holes = [circle(place, r) for place in box.bolts]
    saw = (Line(((0.0, 3.0), (0.0, box.tallest)), "saw"),)
    return cut_part(
        plan,
        FAMILY,
        "slip-box-hold",
        "lies over the slip and is sawn through with it",
        outline,
        holes,
        (*saw, *lettered(outline, holes, saw, ("SLIP HOLD",))),
        tuple(Dimension(f"hole for bolt {i}", 2 * r, HoleDiameter(p)) for i, p in enumerate(box.bolts, 1)),
        (
            "Lay the hold-down over the slip on both sides of the cut and tighten both wing nuts. Saw through "
            "hold-down and slip into the base. Renew it when it no longer holds both.",
            "Put a slip of the same thickness under its front edge: it keeps it level.",
        ),
        quantity=2,
    )
