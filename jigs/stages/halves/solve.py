"""The two halves, worked out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from geometry.bodies.lots import lower_lot, upper_lot
from geometry.bodies.section import Section
from geometry.statics.stem import bending
from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.gauging.solve.vessel import gauge_plan
from jigs.stages.halves.plan import MOST_SEAT, HalvesPlan, JointRing, Lot, Name
from jigs.stages.held.strength import SIDE
from jigs.stages.sizes.solve.vessel import sizes_plan
from jigs.stages.solids.slim import waste_across
from jigs.stages.stack.plan import Layer, StackPlan
from jigs.stages.waste_block.solve import waste_block
from jigs.words.counting import ring_list
from jigs.words.findings import Finding, RefusedSoon
from jigs.words.lengths import MM_PER_INCH

LEAST_WASTE = 1.0  # mm over the rim
LOOSE = 0.1  # mm round the centring ring, and over it
CLEAR = 0.3  # mm by which it stays behind the finished inside
THICK = 4.0  # mm; 3/16 in inches
PLACES = 60  # heights at which a lot's strength is looked at
BESIDE_FLOOR = 5.0  # mm, least from the floor to the joint


def halves_plan(
    job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges
) -> HalvesPlan | None:
    """`gauges` are the whole vessel's, through its mouth. None for a vessel that is built in one.

    Raises Refused for a ring that cannot end the lower half.
    """
    ring = job.halves.ring
    if ring is None:
        return None
    joints = joints_of(section, stack)
    if ring not in joints:
        raise RefusedSoon([_no_ring(job, joints)])
    joint, waste = joints[ring], max(LEAST_WASTE, stack.top - section.height)
    below = [layer for layer in stack.layers if layer.number <= ring]
    above = [_turned_over(layer, stack.top) for layer in reversed(stack.layers) if layer.number > ring]
    low, high = lower_lot(section, joint), upper_lot(section, joint, waste)
    floor = stack.floating.base.opening if stack.floating else 0.0
    upper = _lot(job, "upper", high, replace(_stack(stack, high, above), floating=None))
    return HalvesPlan(
        ring=ring,
        joint=joint,
        lower=_lot(job, "lower", low, _stack(stack, low, below, floor)),
        upper=_with_mouth(upper, section.height + waste, gauges),
        centring=_ring(job, section, joint),
    )


def _with_mouth(upper: Lot, foot: float, gauges: VesselGauges) -> Lot:
    """The upper half; what its own gauges leave and those through the mouth reach later is guided too."""
    left, mouth = upper.gauges.unguided, gauges.reach
    if left is None or mouth is None or foot - left[1] < mouth.low:
        return upper
    return replace(upper, gauges=replace(upper.gauges, unguided=None))


def joints_of(section: Section, stack: StackPlan) -> dict[int, float]:
    """The rings that may end the lower half, and the heights of their upper faces: in the hollow, over its floor."""
    floor = section.inner.bottom + BESIDE_FLOOR
    kept = [layer for layer in stack.layers[:-1] if floor < layer.ring.top < section.height - BESIDE_FLOOR]
    return {layer.number: layer.ring.top for layer in kept}


def _turned_over(layer: Layer, top: float) -> Layer:
    return replace(layer, ring=replace(layer.ring, bottom=top - layer.ring.top))


def _stack(stack: StackPlan, section: Section, layers: Sequence[Layer], opening: float = 0.0) -> StackPlan:
    """The whole stack's plan with these rings alone."""
    return replace(
        stack,
        layers=tuple(layers),
        bottom=layers[0].ring.bottom,
        top=layers[-1].ring.top,
        largest_radius=max(layer.ring.radius for layer in layers),
        waste_across=waste_across(section, layers[0], opening),
        stemmed=False,
    )


def _lot(job: VesselJob, name: Name, section: Section, stack: StackPlan) -> Lot:
    gauges = gauge_plan(job, section, stack)
    stress, weakest = _loaded(section, stack)
    return Lot(
        name=name,
        section=section,
        stack=stack,
        gauges=gauges,
        sizes=sizes_plan(job, section, stack, gauges),
        waste=waste_block(job, stack),
        stress=stress,
        weakest=weakest,
    )


def _loaded(section: Section, stack: StackPlan) -> tuple[float, float]:
    """The most that a push at the open end does to the rings, hollowed and not yet turned outside; and where."""
    found = []
    for layer in stack.layers:
        low, high = max(layer.ring.bottom, 0.0), min(layer.ring.top, section.height)
        for z in np.linspace(low, high, max(2, PLACES // len(stack.layers)), endpoint=False).tolist():
            inner = section.inner.radius_at(z) if z >= section.inner.bottom else 0.0
            found.append((bending(SIDE, section.height - z, layer.ring.outer, inner), z))
    return max(found)


def _ring(job: VesselJob, section: Section, joint: float) -> JointRing:
    """As wide as the wall leaves it beside the least glue face."""
    thick = THICK if job.unit == "mm" else 3 * MM_PER_INCH / 16
    deep = thick / 2 + LOOSE
    inner, outer = section.inner.radius_at(joint), section.outer.radius_at(joint)
    low, high = joint - deep, joint + deep
    thin = min(section.outer.radii(low, high)[0], outer)
    seat = min(MOST_SEAT, thin - inner - job.rings.least_glue)
    wide = section.inner.radii(max(low, section.inner.bottom), high)
    return JointRing(
        outer=inner + seat - LOOSE,
        inner=wide[1] + CLEAR,
        thickness=thick,
        rebate=inner + seat,
        depth=deep,
        left=thin - inner - seat,
        ledge=inner + seat - wide[1] - CLEAR,
    )


def _no_ring(job: VesselJob, joints: dict[int, float]) -> Finding:
    have = f"ring {job.halves.ring} does not end in the hollow, well over its floor and under its rim"
    remedy = f"end the lower half with one of {ring_list(list(joints))}" if joints else "leave [halves] out"
    return job.finding("halves-ring", have, key="halves.ring", remedy=remedy)
