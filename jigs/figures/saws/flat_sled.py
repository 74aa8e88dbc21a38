"""The sled for flat rings from above: two fences, a strip on the nearer one, its tip at the stop."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from math import tan

from geometry.hardware.sled_sizes import ARM, ARM_FOOT, HANDLE_LENGTH
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, box, disc, line, polygon
from jigs.figures.saws.common import HIDDEN, blade, blade_line, feed, runner, wall
from jigs.figures.told import Show, angle, by_calliper, labelled
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
from jigs.words.quantity import ring_list

NEAR = -1  # side of the fence nearer to the operator


def set_up(sled: FlatSled, number: str, show: Show) -> Iterator[Figure]:
    """The strip of the longest segments at its stop, then the one that is tried in scrap. `number` ends their ids: "-2"
    for the second sled."""
    tried = next(setting for setting in sled.settings if sled.smallest in setting.rings)
    yield _at_stop(sled, sled.settings[0], f"flat-segments.sled{number}", show)
    yield _at_stop(sled, tried, f"flat-segments.first{number}", show)


def _at_stop(sled: FlatSled, setting: StopSetting, id: str, show: Show) -> Figure:
    own = sled.layout
    width = setting.strips[0].width if setting.strips else own.depth
    left = own.fence(NEAR, own.fence_end, -width)[0] - 20
    low = min(own.exit_block[1], own.fence(NEAR, own.fence_end, own.sheet)[1]) - 15
    stop = own.stop_for(setting.outer_edge)
    suffix = f"-n{sled.segments}"
    held = own.fence(NEAR, own.fence_start + 30, -width / 2)
    strip = f"strip of {ring_list(setting.rings)}" if len(sled.settings) > 1 else "strip"
    return Figure(
        id,
        f"The {sled.called} from above, the strip at the stop",
        f"Two fences, each {angle(show, own.mitre)} off square. The strip lies on one of them, its tip at the stop, "
        f"{by_calliper(show, stop)} from the blade; after each cut it goes to the other fence, the same face up.",
        (
            box(left, low, own.right_edge, own.far_edge, fill="jig"),
            *_bare(own, left, low),
            *_strip(own, setting.outer_edge, width),
            *_stop(own, stop),
            *_held(own),
            line((stop, low), (stop, -own.span), paint="grey", dashes=HIDDEN),
            Dimension((0.0, low), (stop, low), by_calliper(show, stop), -7.0),
            *_named(own, suffix, stop),
            Callout(strip, own.fence(NEAR, own.fence_end - 14, -width / 2), "left"),
            Callout("segment", (stop * 0.5, own.fence(NEAR, -stop * 0.5, -width * 0.3)[1]), "right"),
            labelled("hold-down", f"plan-angle-hold{suffix}", held, "left"),
        ),
        height=125.0,
    )


def built(own: PlanAngleLayout, suffix: str, id: str, what: str, show: Show) -> Figure:
    """All of it, no strip on it. `suffix` ends its parts' names, `id` is its picture's, `what` its name."""
    left, low = own.left_edge, own.operator_edge
    x, y = own.handle[0], own.handle[1] - own.sheet
    slot = (sum(own.runner) / 2, low + 14)
    return Figure(
        id,
        f"The {what} from above",
        f"Base, two fences, each {angle(show, own.mitre)} off square, the stop, gallows, handle.",
        (
            box(left, low, own.right_edge, own.far_edge, fill="jig"),
            *_bare(own, left, low),
            box(x, y, x + HANDLE_LENGTH, y + own.sheet, fill="pale"),
            *_stop(own, own.stop),
            *_held(own),
            *_named(own, suffix, own.stop),
            labelled("base", f"plan-angle-base{suffix}", (left + 12, own.far_edge - 12), "left"),
            labelled("handle", f"plan-angle-handle{suffix}", (x + 12, y + own.sheet / 2), "left"),
            labelled("runner", f"plan-angle-runner{suffix}", slot, "left"),
            labelled("far fence", f"plan-angle-fence{suffix}", own.fence(1, own.fence_end - 20, 5), "left"),
        ),
        height=125.0,
    )


def _bare(own: PlanAngleLayout, left: float, low: float) -> tuple[Item, ...]:
    far = own.far_edge
    return (
        *(runner(own.runner, low, far) if left < own.runner[0] else ()),
        *(
            wall(partial(own.fence, side), (own.fence_start, own.fence_end), (0.0, own.sheet), "pale")
            for side in (1, NEAR)
        ),
        box(*own.exit_block, fill="pale"),
        blade(-own.kerf, 0.0, far),
        blade_line(0.0, low - 4, far),
        feed(left - 12, low + 25, low + 75),
    )


def _strip(own: PlanAngleLayout, outer: float, width: float) -> tuple[Item, ...]:
    """What lies on the nearer fence: its sawn end butts with its tip, and what the blade parts from it."""
    t = tan(own.mitre)
    far = own.fence_end + 8
    corners = [(-outer, 0.0), (far, 0.0), (far, -width), (-outer + width * t, -width)]
    cut = [own.fence(NEAR, 0.0), own.fence(NEAR, -width * t, -width)]
    return (
        polygon([own.fence(NEAR, *corner) for corner in corners], fill="wood"),
        line(*cut, paint="blade", width=0.5),
    )


def _stop(own: PlanAngleLayout, stop: float) -> tuple[Item, ...]:
    """Its arm, what it turns on, its pin; the carriage over it."""
    carriage = own.carriage
    x, y = (stop + own.nose, own.pivot[1])
    arm = box(stop, y - own.arm_reach, x + ARM / 2, y + ARM_FOOT, fill="metal")
    pin = (x + own.pin[0] - own.pivot[0], own.pin[1])
    marks = (disc((x, y), 3.0, fill="paper"), disc(pin, 3.0, fill="ink"))
    if carriage is None:
        return (arm, *marks)
    x0, y0, x1, y1 = carriage.plate
    plate = [(x + a, y + b) for a, b in ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0))]
    return (
        arm,
        *marks,
        line(*plate, width=0.35),
        box(*carriage.guide, fill="pale"),
        *(disc(bolt, 3.0, fill="metal") for bolt in carriage.bolts),
    )


def _held(own: PlanAngleLayout) -> tuple[Item, ...]:
    """Fingers on either fence, and what presses on the segment under its gallows."""
    fingers = [
        wall(
            partial(own.fence, side),
            (own.fence_start + a, own.fence_start + b),
            (0.0, -own.hold.finger_end),
            "grey",
        )
        for side in (1, NEAR)
        for a, b in own.hold.bearing
    ]
    (near, _), (_, far) = own.gallows_legs
    left, right = own.press_foot
    return (
        *fingers,
        box(left, -own.span, right, own.span, fill="grey"),
        box(own.gallows[0], near, own.gallows[1], far, fill="pale"),
    )


def _named(own: PlanAngleLayout, suffix: str, stop: float) -> tuple[Callout, ...]:
    x, y = stop + own.nose, own.pivot[1]
    _, low, right, high = own.exit_block
    over = (own.gallows[0] + own.sheet / 2, own.gallows_legs[1][1] - 8)
    carriage = own.carriage
    more: tuple[Callout, ...] = ()
    if carriage:
        corner = (x + carriage.plate[2] - 5, y + carriage.plate[3] - 6)
        more = (labelled("carriage", f"plan-angle-carriage{suffix}", corner, "right"),)
    return (
        labelled(
            "fence", f"plan-angle-fence{suffix}", own.fence(NEAR, own.fence_end - 40, own.sheet / 2), "left"
        ),
        labelled("stop, swings", f"plan-angle-stop{suffix}", (x, y - own.arm_reach / 2), "right"),
        Callout("bolt that it turns on", (x, y), "right"),
        labelled("exit block", f"plan-angle-exit-block{suffix}", (right - 8, (low + high) / 2), "right"),
        labelled("gallows", f"plan-angle-gallows{suffix}", over, "right"),
        labelled("press", f"plan-angle-press{suffix}", (sum(own.press_foot) / 2, own.span - 4), "right"),
        Callout("blade", (-own.kerf / 2, own.far_edge + 30), "left"),
        *more,
    )
