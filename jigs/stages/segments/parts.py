"""The carrier that cuts segments from a strip lying flat, the blade tilted by the mitre angle.

TorusPlan coordinates: x along the fence from the blade's kept side, y away from the operator.
"""

from __future__ import annotations

from math import degrees, tan

from geometry.hardware.sled_sizes import ARM, TAB
from geometry.plane.contour import Contour, rectangle
from geometry.readback.free_edge import FreeEdge
from jigs.parts.lines import broken
from jigs.parts.mirror import mirrored
from jigs.parts.part import Line, Part
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, tab_room, with_tabs
from jigs.parts.sleds import edge_guide, hold_down
from jigs.parts.sleds.stop import RAIL, stop_arm
from jigs.parts.sleds.strip_sled import base_outline, exit_block, fence_slots, grip_slots, runner, screws
from jigs.parts.sleds.uprights import HIGHER, ends_free, handle
from jigs.plans.torus import TorusPlan
from jigs.stages.segments.layout import CarrierLayout

HANDED = (
    "segment-base",
    "segment-fence",
    "segment-hold-strip",
    "segment-hold-segment",
    "segment-stop",
    "segment-exit-block",
)  # mirrored for a blade that tilts the other way
# mm that the apothem to which the segments close may be out: over tan(mitre) as far as the stop is.
CLOSES = 0.09
SUPPORT = 50.0  # depth of the gussets behind the fence
SUPPORT_HEIGHT = 45.0
SUPPORT_TAB = 10.0  # from the fence's rear face to the gusset's tab


def segment_carrier(plan: TorusPlan) -> list[Part]:
    """Base, fence, its supports, hold-downs, the swing-away stop, exit block or rail, handle."""
    layout = plan.cutting.carrier
    upright = [_fence(plan, layout), _support(plan), *_holds(plan, layout), handle(plan, "segment-handle")]
    stop = [stop_arm(plan, "segment-stop", layout.arm_reach), *_packing(plan, layout)]
    parts = [_base(plan, layout), *upright, *stop, *_guides(plan, layout)]
    return [mirrored(part) if part.name in HANDED else part for part in parts] if layout.mirrored else parts


def side(plan: TorusPlan) -> str:
    """To which the blade's top leans over the base; a bandsaw's table tilts down on the right instead."""
    return "left" if plan.cutting.carrier.guide else plan.job.workshop.saw.tilts


def drawn_for(plan: TorusPlan) -> tuple[str, ...]:
    """Whether the saw that the turner has is the one that this is drawn for."""
    if plan.cutting.carrier.guide:
        return ("Drawn for a bandsaw whose table tilts down on the right: its blade leans over the strip.",)
    tilts, assumed = plan.job.workshop.saw.tilts, plan.job.tilt_assumed
    return (
        f"Drawn for a blade whose top tilts to the {tilts}: it leans over the strip, never over the segment.{assumed}",
    )


def _tabs(layout: CarrierLayout) -> tuple[float, ...]:
    """x at which each tab of the fence starts; none where the blade passes."""
    left, right = layout.left_edge + 20, layout.right_edge - 20 - TAB
    middle = layout.strip_feet[0] - TAB
    return (left, middle, right)


def gusset_places(layout: CarrierLayout) -> tuple[float, float]:
    """x of each gusset's middle: beyond the levers' ends."""
    return (layout.left_edge + 35, layout.right_edge - 20)


def _slots(layout: CarrierLayout) -> list[Contour]:
    t, half = layout.sheet, layout.play / 2
    fence = fence_slots(_tabs(layout), t, layout.play)
    rear = -t - SUPPORT_TAB
    gussets = [
        rectangle(x - t / 2 - half, rear - TAB - half, x + t / 2 + half, rear + half)
        for x in gusset_places(layout)
    ]
    return [*fence, *gussets, *grip_slots(layout.handle, t, layout.play)]


def _screws(layout: CarrierLayout, slots: list[Contour]) -> list[Contour]:
    if layout.guide:
        strip = edge_guide.strip_screws(layout.fittings, layout.strip_edge, *along(layout), slots)
        return [*strip, *edge_guide.batten_screws(layout.fittings, layout.batten, slots)]
    return screws(layout, slots)


def along(layout: CarrierLayout) -> tuple[float, float]:
    return (layout.operator_edge + 5, layout.far_edge - 5)


def _base(plan: TorusPlan, layout: CarrierLayout) -> Part:
    slots = _slots(layout)
    plate = Plate(plan, base_outline(layout), [*slots, *_screws(layout, slots)])
    plate.hole(layout.pivot, layout.fittings.bolt_hole)
    plate.hole(layout.pin, layout.fittings.pin, "hole for the stop's pin")
    plate.marks += [piece for line in _base_lines(layout) for piece in broken(line, plate.holes)]
    plate.letter(
        "SEGMENT CARRIER",
        f"BLADE TILT {degrees(layout.cut.tilt):.4g}°",
        f"STOP {plan.job.show(layout.stop, exact=True).upper()}",
        f"BLADE TILTS {side(plan).upper()}",
        "STRIP FLAT, TURNED OVER AFTER EACH CUT",
        "STOP CLEAR BEFORE THE CUT",
        *SAW_CAUTION,
        "↓ OPERATOR",
        near=(layout.left_edge, layout.far_edge),
    )
    return plate.part(
        "segment-base",
        "carries the strip past the tilted blade",
        (*([RAIL] if layout.rail else []), "End every feed when the strip is through."),
        making=(*drawn_for(plan), hold_down.NOT_UNDER),
        works_to=min(0.02, CLOSES * tan(layout.cut.tilt)),
    )


def _base_lines(layout: CarrierLayout) -> tuple[Line, ...]:
    reach = layout.pivot[1] - layout.arm_reach
    lines = [
        Line(((0.0, 3.0), (0.0, layout.far_edge)), "blade, kept side"),
        Line(((layout.stop, reach), (layout.stop, layout.width)), "stop line", witness=True),
    ]
    if not layout.guide:
        lines.append(Line(((0.0, layout.cut_end), (0.0, -layout.sheet - 2)), "blade, kept side"))
    else:
        x, (low, high) = layout.strip_edge, (layout.operator_edge, layout.far_edge)
        lines.append(Line(((x, low), (x, high)), "strip, under the base"))
        lines.append(Line(layout.batten, "batten, under the base"))
    return tuple(lines)


def _fence(plan: TorusPlan, layout: CarrierLayout) -> Part:
    """x as on the base, y the height above it."""
    left, right, height = layout.left_edge + 10, layout.right_edge - 10, layout.fence_height
    hold, depth, middle = layout.hold, layout.cut.depth, (left + right) / 2
    top = [(right, 0.0), (right, height), (left, height), (left, 0.0)]
    plate = Plate(plan, with_tabs(top, _tabs(layout), layout.sheet))
    plate.holes += hold_down.openings(hold, layout.fittings, layout.strip_hold, depth, mirror=True)
    plate.holes += hold_down.openings(hold, layout.fittings, layout.segment_hold, depth)
    plate.letter("SEGMENT FENCE", "FOOT ↓", *SAW_CAUTION)
    plate.gap("foot to top", height, (left + 4, 0.0), (middle, height), "differ")
    return plate.part(
        "segment-fence",
        "what the strip leans on, square to the blade",
        making=(hold_down.paper(plan, "to the face that the strip leans on"),),
        free=(FreeEdge((middle, height), 2.0, HIGHER), *ends_free(left, right, height)),
        works_to=tab_room(plan),
    )


def _support(plan: TorusPlan) -> Part:
    """A gusset behind the fence; x runs back from the fence's rear face."""
    h = min(SUPPORT_HEIGHT, plan.cutting.carrier.fence_height - 5)
    top = [(SUPPORT, 0.0), (SUPPORT, 12.0), (12.0, h), (0.0, h), (0.0, 0.0)]
    plate = Plate(plan, with_tabs(top, (SUPPORT_TAB,), plan.cutting.carrier.sheet))
    plate.letter("GUSSET", "FOOT ↓", titled=False)
    return plate.part("segment-gusset", "holds the fence square to the base", quantity=2)


def _guides(plan: TorusPlan, layout: CarrierLayout) -> list[Part]:
    if layout.guide:
        x, (low, high) = layout.strip_edge, along(layout)
        return [
            edge_guide.rail(plan, "segment-rail"),
            edge_guide.strip(plan, "segment-strip", x, low, high, _slots(layout)),
            edge_guide.batten(plan, "segment-batten", layout.batten, _slots(layout)),
        ]
    block = (-layout.lean - 40, layout.cut_end - 20, 40.0, -layout.sheet)
    over = _screws(layout, _slots(layout))
    left = ("It runs in the slot to the left of the blade.",)
    return [
        exit_block(plan, "segment-exit-block", block, layout.cut.depth),
        runner(plan, "segment-runner", *along(layout), over, left),
    ]


def _holds(plan: TorusPlan, layout: CarrierLayout) -> list[Part]:
    """One on the strip, one on the segment: slides on the fence, fingers, cams and levers."""
    strip, segment = layout.hold, layout.on_segment
    fingers = strip.fingers + segment.fingers
    return [
        hold_down.slide(plan, "segment-hold-strip", strip, "strip"),
        hold_down.slide(plan, "segment-hold-segment", segment, "segment"),
        hold_down.finger(plan, "segment-finger", segment, "strip and the segment", fingers, True),
        hold_down.cam(plan, "segment-cam", 2),
        hold_down.lever(plan, "segment-lever", 2),
    ]


def _packing(plan: TorusPlan, layout: CarrierLayout) -> list[Part]:
    if not layout.packings:
        return []
    plate = Plate(plan, rectangle(-ARM / 2, -ARM / 2, ARM / 2, ARM / 2))
    plate.hole((0.0, 0.0), plan.job.fittings.bolt_hole)
    plate.letter("PACK", titled=False)
    put = "Put it on the pivot bolt, under the arm. With play up or down the arm's tip leaves the stop line."
    purpose = "raises the stop's arm to the strip's top face"
    return [plate.part("segment-stop-packing", purpose, making=(put,), quantity=layout.packings)]
