"""A layup's two sleds put together: a stack before a slab is cut from it, and a slab before it is trimmed."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, sin

from geometry.plane.contour import polygon
from jigs.parts.assembly import ALONG, Assembly, Place, Places, plate_of_work, put_together
from jigs.parts.part import Part
from jigs.parts.sleds.placed import HeldBy, Upright, handle, hold_down, joined, layers, runner
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.layup.plan import LayupPlan

TAIL = 40.0  # mm of the stack past its fence


def assembled(plan: Plan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Of every layup."""
    return tuple(
        found
        for layup, jigs in zip(plan.layups, plan.layup_jigs, strict=True)
        for found in (*_sled(jigs.sled, jigs.suffix, parts), *_trim(jigs.trim, layup, jigs.suffix, parts))
    )


def _sled(own: LayupSledLayout, end: str, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """The stack moved on to the pin."""
    s, c, tail, at = sin(own.angle), cos(own.angle), own.fence_end + TAIL, own.beside_blade
    corners = [at(own.width, 0.0), at(own.width, own.stack), own.place(tail, own.stack), own.place(tail, 0.0)]
    stack = plate_of_work("stack", polygon(corners).ccw(), own.height)
    fence = Upright((0.0, 0.0, 0.0), (-s, -c, 0.0), (c, -s, 0.0), own.sheet)
    cam, lever = f"layup-cam{end}", f"layup-lever{end}"
    places = joined(
        [
            _body(own, "layup", end, fence, parts),
            {f"layup-slab-foot{end}": (Place((0.0, 0.0, own.height)),)},
            hold_down(fence, own.hold, own.stack_hold, own.height,
                      HeldBy(f"layup-hold{end}", cam, lever, f"layup-finger{end}")),
            hold_down(fence, own.slab_hold, own.slab_slide, own.height,
                      HeldBy(f"layup-slab-hold{end}", cam, lever, f"layup-slab-finger{end}"), back=True),
        ]
    )  # fmt: skip
    title = "layup sled, a stack on it before a slab is cut"
    return put_together(f"layup-sled{end}", title, parts, places, ((stack, Place()),))


def _trim(own: TrimSledLayout, layup: LayupPlan, end: str, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """A slab against the stop that its end has as it comes from the stack."""
    stop = f"layup-slanted-stop{end}" if own.slanted else f"layup-square-stop-{layup.way.cut}{end}"
    low, high = own.slanted_at(0.0), own.slanted_at(own.width)
    long = own.slab_length - own.run
    corners = [(low, 0.0), (low + long, 0.0), (high + long, own.width), (high, own.width)]
    slab = plate_of_work("slab", polygon(corners), own.height)
    fence = Upright((0.0, 0.0, 0.0), ALONG, (0.0, -1.0, 0.0), own.sheet)
    held = HeldBy(*(f"layup-trim-{one}{end}" for one in ("hold", "cam", "lever", "finger")))
    places = joined(
        [
            _body(own, "layup-trim", end, fence, parts),
            {stop: (Place(),)},
            hold_down(fence, own.hold, own.slide, own.height, held, back=True),
        ]
    )
    title = "layup trim sled, a slab on it before its first cut"
    return put_together(f"layup-trim-sled{end}", title, parts, places, ((slab, Place()),))


def _body(
    own: LayupSledLayout | TrimSledLayout, head: str, end: str, fence: Upright, parts: Mapping[str, Part]
) -> Places:
    slides = runner(own.runner, own.operator_edge, own.sheet, parts.get(f"{head}-runner{end}"))
    return {
        f"{head}-base{end}": (Place((0.0, 0.0, -own.sheet)),),
        f"{head}-fence{end}": (fence.place,),
        f"{head}-handle{end}": handle(*own.handle),
        f"{head}-exit-block{end}": layers(parts.get(f"{head}-exit-block{end}")),
        f"{head}-runner{end}": slides,
    }
