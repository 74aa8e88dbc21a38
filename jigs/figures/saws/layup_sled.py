"""The slanted sled of a layup from above: bare, and with a stack, its first slab sawn off. Places are the
layout's."""

from __future__ import annotations

from geometry.hardware.sled_sizes import HANDLE_LENGTH
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, box, disc, line, polygon
from jigs.figures.saws.common import bare, wall
from jigs.figures.told import Show, angle, by_calliper, labelled
from jigs.stages.layup.layout.sled import LayupSledLayout

TAIL = 25.0  # mm of the stack shown past the fence


def built(own: LayupSledLayout, suffix: str, show: Show) -> Figure:
    """No stack on it."""
    x, y = own.handle
    return Figure(
        f"building.layup-sled{suffix}",
        "The layup sled from above",
        f"Base, one fence at {angle(show, own.angle)} to the blade, two hold-downs, the pin for the pitch, handle.",
        (
            *_bare(own, own.left_edge, own.operator_edge),
            box(x, y - own.sheet, x + HANDLE_LENGTH, y, fill="pale"),
            *_held(own),
            *_named(own, suffix),
            labelled("runner", f"layup-runner{suffix}", (sum(own.runner) / 2, own.far_edge - 10), "left"),
            labelled("base", f"layup-base{suffix}", (own.left_edge + 10, own.far_edge - 30), "left"),
            labelled("handle", f"layup-handle{suffix}", (x + 20, y - own.sheet / 2), "left"),
        ),
        height=125.0,
    )


def sawn(own: LayupSledLayout, suffix: str, strip: float, number: str, show: Show) -> Figure:
    """The stack moved on to the pin; `strip` is how thick its strips are, `number` ends the picture's id."""
    tail, at = own.fence_end + TAIL, own.beside_blade
    slab = [at(0.0, 0.0), at(own.width, 0.0), at(own.width, own.stack), at(0.0, own.stack)]
    stack = [at(-own.kerf, 0.0), own.place(tail, 0.0), own.place(tail, own.stack), at(-own.kerf, own.stack)]
    outs = [k * strip for k in range(1, round(own.stack / strip))]
    ends = at(own.width, own.stack), at(-own.kerf, own.stack)
    left, low = (
        own.place(tail, own.stack)[0] - 15,
        min(own.place(tail, -own.sheet)[1], own.exit_block[1]) - 15,
    )
    return Figure(
        f"layup.slabs{number}",
        "A slab is sawn off the stack, from above",
        "The stack lies flat, its first ply against the fence, its tail towards you. Its sawn end has met the pin, "
        f"{by_calliper(show, own.pitch)} along the fence past the cut; the pin is out before the blade turns.",
        (
            *_bare(own, max(left, own.left_edge), max(low, own.operator_edge)),
            polygon(slab, fill="other wood"),
            polygon(stack, fill="wood"),
            *(line(at(own.width, out), own.place(tail, out), paint="grey") for out in outs),
            *_held(own),
            Dimension(*ends, by_calliper(show, own.pitch), -7.0),
            *_named(own, suffix),
            Callout("slab", at(own.width * 0.8, own.stack * 0.8), "right"),
            Callout("stack", own.place(tail - 12, own.stack * 0.8), "left"),
        ),
        height=125.0,
    )


def _bare(own: LayupSledLayout, left: float, low: float) -> tuple[Item, ...]:
    fence = wall(own.place, (own.fence_start, own.fence_end), (-own.sheet, 0.0))
    return bare(own, left, low, fence, (-own.kerf, 0.0))


def _held(own: LayupSledLayout) -> tuple[Item, ...]:
    """What presses on the stack, the foot on the slab, the finger over it; the pin."""
    foot, at = own.slab_foot, own.beside_blade
    right = foot.left + foot.width
    (near, far), half = foot.out, own.sheet / 2
    slide = own.stack_hold
    fingers = [(slide + a, slide + b) for a, b in own.hold.bearing]
    over = (own.slab_finger - half, own.slab_finger + half)
    return (
        *(wall(own.place, finger, (0.0, own.hold.finger_end)) for finger in fingers),
        polygon([at(foot.left, near), at(right, near), at(right, far), at(foot.left, far)], fill="grey"),
        wall(own.place, over, (0.0, own.slab_hold.finger_end)),
        disc(own.pin, own.fittings.pin / 2, fill="ink"),
    )


def _named(own: LayupSledLayout, suffix: str) -> tuple[Callout, ...]:
    foot = own.slab_foot
    _, low, right, high = own.exit_block
    finger = own.stack_hold + own.hold.bearing[0][0] + own.sheet / 2
    on_slab = own.beside_blade(foot.left + 0.5 * foot.width, foot.out[1])
    return (
        labelled("fence", f"layup-fence{suffix}", own.place(own.fence_end - 12, -own.sheet / 2), "left"),
        labelled("hold-down", f"layup-hold{suffix}", own.place(finger, own.hold.finger_end - 2), "left"),
        labelled("foot on the slab", f"layup-slab-foot{suffix}", (on_slab[0], on_slab[1] - 3), "right"),
        labelled(
            "hold-down",
            f"layup-slab-hold{suffix}",
            own.place(own.slab_finger, own.slab_hold.finger_end * 0.3),
            "right",
        ),
        Callout("pin, out before the cut", own.pin, "right"),
        labelled("exit block", f"layup-exit-block{suffix}", (right - 8, (low + high) / 2), "right"),
        Callout("blade", (-own.kerf / 2, own.far_edge + 30), "left"),
    )
