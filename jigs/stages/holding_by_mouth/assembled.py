"""A vessel's two mountings put together: the stack on its waste block, then the vessel by its mouth.

The lathe's axis is z, away from the headstock.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, pi, sin

from geometry.plane.contour import circle, polygon, rectangle, regular_polygon
from jigs.parts.assembly import (
    ALONG,
    UP,
    Assembly,
    Place,
    plate_of_work,
    put_together,
    turned_work,
    wedge_of_work,
)
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.stack.plan import Layer, StackPlan
from jigs.stages.waste_block.plan import WasteBlock

Member = tuple[Part, Place]
TURNED_OVER = Place(x=ALONG, y=(0.0, -1.0, 0.0))


def assembled(plan: VesselPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """No second mounting where the foot is finished by hand."""
    found = tuple(_first_mountings(plan, parts))
    plug = plan.reversing.plug
    if plug is None:
        return found
    body: list[Member] = [(turned_work("vessel", plan.section.contour), TURNED_OVER)]
    if plug.bolt is None:  # the wood that the foot is turned from
        under = rectangle(0.0, plan.stack.bottom, plan.section.foot_radius, 0.0)
        body.append((turned_work("under-the-foot", under), TURNED_OVER))
    title = "mounting B: the vessel held by its mouth"
    return (
        *found,
        *put_together("mounting-b", title, parts, {"mouth-plug-section": (TURNED_OVER,)}, tuple(body)),
    )


def _first_mountings(plan: VesselPlan, parts: Mapping[str, Part]) -> Iterator[Assembly]:
    """The stack as glued on its waste block; of a vessel in parts each of them, its joint away from the block."""
    if plan.halves is None:
        work = _stacked(plan.stack, plan.waste)
        yield from put_together("mounting-a", "mounting A: the stack on its waste block", parts, {}, work)
        return
    for tier in plan.halves.tiers:
        title = f"mounting A: the {tier.name} part's rings on their waste block"
        yield from put_together(f"mounting-a-{tier.name}", title, parts, {}, _stacked(tier.stack, tier.waste))


def _stacked(stack: StackPlan, waste: WasteBlock) -> tuple[Member, ...]:
    block = plate_of_work("waste-block", circle((0.0, 0.0), stack.waste_across[1] / 2), waste.thickness)
    below = (block, Place((0.0, 0.0, stack.bottom - waste.thickness)))
    return (below, *(member for layer in stack.layers for member in _ring(stack, layer)))


def _ring(stack: StackPlan, layer: Layer) -> Iterator[Member]:
    """Whole, or piece by piece where gaps stand between its segments and where it is of staves, which lean."""
    ring, name = layer.ring, f"ring-{layer.number}"
    at, turned = (0.0, 0.0, ring.bottom), layer.turned
    if not ring.segments:
        yield plate_of_work(name, circle((0.0, 0.0), ring.outer), ring.height), Place(at)
        return
    if layer.kind == "staves":
        stave = wedge_of_work(f"{name}-stave", stack.cut_through(layer), 2 * pi / ring.segments)
        for k in range(ring.segments):
            a = layer.turned + 2 * pi * k / ring.segments
            yield stave, Place(x=(cos(a), sin(a), 0.0), y=UP)
        return
    if layer.kind == "open":
        yield from _segments(layer, at)
        return
    core = layer.filled.core
    holes = (regular_polygon(ring.segments, core, turned).cw(),) if core else ()
    outline = regular_polygon(ring.segments, ring.outer, turned)
    yield plate_of_work(name, outline, ring.height, holes), Place(at)


def _segments(layer: Layer, at: tuple[float, float, float]) -> Iterator[Member]:
    ring, outer = layer.ring, layer.ring.outer_edge / 2
    inner, near = ring.inner_edge / 2, ring.outer - ring.depth
    outline = polygon([(near, -inner), (ring.outer, -outer), (ring.outer, outer), (near, inner)])
    piece = plate_of_work(f"ring-{layer.number}-segment", outline, ring.height)
    for k in range(ring.segments):
        a = layer.turned + 2 * pi * k / ring.segments
        yield piece, Place(at, (cos(a), sin(a), 0.0), (-sin(a), cos(a), 0.0))
