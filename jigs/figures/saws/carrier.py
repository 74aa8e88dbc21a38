"""The segment carrier from above, a strip on it; and the tilted blade from the operator's side."""

from __future__ import annotations

from math import cos, pi, sin, tan

from geometry.hardware.sled_sizes import ARM, ARM_FOOT, HANDLE_LENGTH
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, arc, box, disc, line, mirrored, polygon
from jigs.figures.saws.common import HIDDEN, blade, blade_line, feed, hidden, runner
from jigs.figures.told import Show, angle, by_calliper, by_rule, labelled, named
from jigs.plans.torus import TorusPlan
from jigs.stages.segments.layout import CarrierLayout

SHOWN = 150.0  # mm of the base beside the blade
TABLE = 14.0  # mm of the saw's table shown below its top


def set_up(plan: TorusPlan, show: Show) -> Figure:
    """The strip butted to the stop, before the cut."""
    own = plan.cutting.carrier
    left, right = max(own.left_edge, -SHOWN - own.lean), min(own.right_edge, own.stop + SHOWN)
    items = (
        box(left, own.operator_edge, right, own.far_edge, fill="jig"),
        *_bare(own, left, right),
        box(left, 0.0, own.stop, own.width, fill="wood"),
        *_held(own),
        blade_line(0.0, own.operator_edge - 4, own.far_edge),
        line((own.stop, own.operator_edge), (own.stop, own.width), paint="grey", dashes=HIDDEN),
        Dimension(
            (0.0, own.operator_edge), (own.stop, own.operator_edge), by_calliper(show, own.stop), off=-9.0
        ),
        *_named(own, left),
    )
    return Figure(
        "segments.stop",
        "The segment carrier from above, the strip at the stop",
        f"The strip lies against the fence, its end at the stop, {by_calliper(show, own.stop)} from the blade where "
        "it leaves the base. One hold-down presses on the strip, one on the segment. The stop swings clear.",
        mirrored(items) if own.mirrored else items,
        height=120.0,
    )


def built(plan: TorusPlan) -> Figure:
    """All of it, no strip on it."""
    own = plan.cutting.carrier
    left, right, low = own.left_edge, own.right_edge, own.operator_edge
    handle = (own.handle[0], own.handle[1] - own.sheet)
    guide = named("strip, on the rail", "segment-strip") if own.guide else named("runner", "segment-runner")
    items = (
        box(left, low, right, own.far_edge, fill="jig"),
        *_bare(own, left, right),
        box(*handle, handle[0] + HANDLE_LENGTH, handle[1] + own.sheet, fill="pale"),
        *_held(own),
        blade_line(0.0, low - 4, own.far_edge),
        *_named(own, left)[:-1],
        labelled("base", "segment-base", (left + 12, own.far_edge - 12), "left"),
        labelled("handle", "segment-handle", (handle[0] + 20, handle[1] + own.sheet / 2), "left"),
        *(Callout(guide, (sum(sides) / 2, low + 12), "left") for sides in _guided(own, left, right)),
    )
    return Figure(
        "building.segment-carrier",
        "The segment carrier from above",
        "Base, fence, hold-downs, the swinging stop and the handle, each with the code that is engraved on it.",
        mirrored(items) if own.mirrored else items,
        height=120.0,
    )


def _bare(own: CarrierLayout, left: float, right: float) -> tuple[Item, ...]:
    low = own.operator_edge
    far, kept = own.strip_top, -own.lean
    under = [item for sides in _guided(own, left, right) for item in runner(sides, low, own.far_edge)]
    block = () if own.guide else (box(-own.lean - 40, own.cut_end - 20, 40.0, -own.sheet, fill="pale"),)
    ends = (hidden(*own.batten),) if own.guide else ()
    return (
        *under,
        *ends,
        *block,
        box(left + 10, -own.sheet, right - 10, 0.0, fill="pale"),
        blade(far, kept, own.far_edge),
        feed(left - 12, low + 30, low + 80),
    )


def _guided(own: CarrierLayout, left: float, right: float) -> list[tuple[float, float]]:
    """The sides of what guides it, where that is under the base."""
    sides = (own.strip_edge - 30.0, own.strip_edge) if own.guide else own.runner
    return [sides] if left < sides[0] and sides[1] < right else []


def _held(own: CarrierLayout) -> tuple[Item, ...]:
    """The fingers on strip and segment, the stop's arm with its bolt and its pin."""
    y = own.pivot[1]
    strip = own.hold
    fingers = [(own.strip_hold - b, own.strip_hold - a) for a, b in strip.bearing]
    return (
        *(box(a, 0.0, b, strip.finger_end, fill="grey") for a, b in fingers),
        box(own.segment_foot[0], 0.0, own.segment_foot[1], own.on_segment.finger_end, fill="grey"),
        box(own.stop, y - own.arm_reach, own.stop + ARM, y + ARM_FOOT, fill="metal"),
        disc(own.pivot, 3.0, fill="paper"),
        disc(own.pin, 3.0, fill="ink"),
    )


def _named(own: CarrierLayout, left: float) -> tuple[Callout, ...]:
    y = own.pivot[1] - own.arm_reach
    foot = sum(own.segment_foot) / 2
    finger = sum(own.strip_feet) / 2 if own.hold.fingers == 1 else own.strip_feet[0] + own.sheet / 2
    end = [] if own.guide else [labelled("exit block", "segment-exit-block", (30.0, own.cut_end), "right")]
    return (
        labelled("fence", "segment-fence", (left + 24, -own.sheet / 2), "left"),
        labelled("hold-down", "segment-hold-strip", (finger, own.hold.finger_end * 0.6), "left"),
        labelled("hold-down", "segment-hold-segment", (foot, own.on_segment.finger_end * 0.3), "right"),
        labelled(
            "stop, swings", "segment-stop", (own.stop + ARM / 2, own.pivot[1] - 0.4 * own.arm_reach), "right"
        ),
        Callout("bolt that it turns on", own.pivot, "right"),
        Callout("pin that backs it", (own.pin[0], y + 8), "right"),
        *end,
        Callout("blade, leans over the strip", (own.strip_top, own.far_edge + 30), "left"),
        Callout("strip", (left + 20, own.width * 0.7), "left"),
    )


def tilt(plan: TorusPlan, show: Show) -> Figure:
    """From where the operator stands: table, base, strip, blade."""
    own = plan.cutting.carrier
    turn, t, depth = own.cut.tilt, own.sheet, own.cut.depth
    up = (-sin(turn), cos(turn))
    foot = (t * tan(turn), -t)
    wide = own.cut.kerf / cos(turn)
    tip = (foot[0] + own.blade_height * up[0], foot[1] + own.blade_height * up[1])
    saw = [foot, tip, (tip[0] - wide, tip[1]), (foot[0] - wide, foot[1])]
    reach = max(1.6 * depth, 60.0)
    top = -t + 1.25 * own.blade_height
    strip = [(-reach, 0.0), (-wide, 0.0), (-wide - own.lean, depth), (-reach, depth)]
    kept = [(0.0, 0.0), (own.stop - own.lean, 0.0), (own.stop, depth), (-own.lean, depth)]
    radius = 0.8 * own.blade_height
    items: tuple[Item, ...] = (
        box(-reach - 8, -t - TABLE, reach, -t, fill="metal"),
        box(-reach, -t, reach * 0.8, 0.0, fill="jig"),
        polygon(strip, fill="wood"),
        polygon(kept, fill="wood"),
        polygon(saw, fill="blade"),
        line(foot, (foot[0], top), paint="grey", dashes=HIDDEN),
        arc(foot, radius, pi / 2, pi / 2 + turn),
        Dimension(foot, tip, by_rule(show, own.blade_height), off=-24.0),
        Callout(f"tilt {angle(show, turn)}", _on_arc(foot, radius, turn / 2), "left"),
        Callout("strip", (-reach * 0.8, depth / 2), "left"),
        labelled("base", "segment-base", (-reach * 0.9, -t / 2), "left"),
        Callout("table", (-reach * 0.9, -t - TABLE / 2), "left"),
        Callout("segment", (own.stop * 0.6 - own.lean / 2, depth / 2), "right"),
    )
    return Figure(
        "segments.tilt",
        "The blade's tilt and height, from the operator's side",
        f"The blade leans {angle(show, turn)} from upright over the strip, away from the segment; "
        f"{'its guides stand' if own.guide else 'it is'} {by_rule(show, own.blade_height)} over the table along it.",
        mirrored(items) if own.mirrored else items,
        height=85.0,
    )


def _on_arc(centre: Point, radius: float, turn: float) -> Point:
    """So far to the left of upright."""
    return (centre[0] - radius * sin(turn), centre[1] + radius * cos(turn))
