"""The parts of a vessel and their joints, worked out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi

import numpy as np

from geometry.blanks.staves import StaveBand
from geometry.bodies.section import Section
from geometry.bodies.tiers import LEFT, lower_tier, upper_tier
from geometry.lathe.inside_reach import neck
from geometry.records import replace
from geometry.statics.hoop import bending
from jigs.asked.vessel_job import BETWEEN, VesselJob
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.gauging.solve.vessel import gauge_plan, unguided_inside
from jigs.stages.halves.plan import (
    LOWER,
    MOST_SEAT,
    UPPER,
    HalvesPlan,
    JointRing,
    Judged,
    Load,
    Tier,
    TierJoint,
)
from jigs.stages.lathe.uneven import vessel_spun
from jigs.stages.sizes.solve.vessel import mouth_sizes
from jigs.stages.solids.slim import bent_as_glued, bent_at, waste_across
from jigs.stages.stack.plan import Layer, StackPlan, ring_at
from jigs.stages.waste_block.solve import waste_block
from jigs.words.findings import Finding, RefusedSoon
from jigs.words.lengths import MM_PER_INCH
from jigs.words.quantity import ring_list

LEAST_WASTE = 1.0  # mm over a part's top: of its own wood, or what is turned into the block
LOOSE = 0.1  # mm round the centring ring, and over it
CLEAR = 0.3  # mm by which it stays behind the finished inside
THICK = 4.0  # mm; 3/16 in inches
PLACES = 60  # heights at which a tier's strength is looked at
# mm of what is done already, on which gauges through the mouth touch. Common practice, no source.
OVERLAP = 10.0
BESIDE_FLOOR = 5.0  # mm, least from the floor to the joint


def halves_plan(
    job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges
) -> HalvesPlan | None:
    """`gauges` are the whole vessel's, through its mouth. None for a vessel that is built in one.

    Raises Refused for a ring that cannot end a part.
    """
    rings = job.halves.ring
    if rings is None:
        return None
    heights = joints_of(section, stack)
    if wrong := [ring for ring in rings if ring not in heights]:
        raise RefusedSoon([_no_ring(job, wrong[0], list(heights))])
    joints = _joints(job, section, stack, rings)
    tiers = [_tier(job, section, stack, joints, k, name) for k, name in enumerate(_names(joints))]
    tiers[:2] = _alike(*tiers[:2])
    return HalvesPlan((*tiers[:-1], _with_mouth(tiers[-1], gauges)), joints)


def through_mouth(gauges: VesselGauges, halves: HalvesPlan | None) -> VesselGauges:
    """Of a vessel in parts the inside is done by their own gauges: those through its mouth go as far as these leave."""
    upper = halves.tiers[-1] if halves else None
    if upper is None or gauges.reach is None:
        return gauges
    if upper.bore is None:
        return replace(gauges, reach=None, stages=tuple(replace(one, inside=None) for one in gauges.stages))
    low = max(gauges.reach.low, upper.joint.height + upper.bore[0] - OVERLAP)
    stages = (
        replace(one, inside=one.inside and one.inside.between(low, one.inside.top)) for one in gauges.stages
    )
    return replace(gauges, reach=replace(gauges.reach, low=low), stages=tuple(stages))


def judged_at(
    job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges, rings: Sequence[int]
) -> tuple[tuple[TierJoint, ...], Iterator[Judged]]:
    """What a `halves_plan` with these rings would be judged by; each part is worked out when it is asked for."""
    joints = _joints(job, section, stack, rings)
    return joints, _judged(job, section, stack, joints, gauges)


def _names(joints: Sequence[TierJoint]) -> tuple[str, ...]:
    return LOWER, *BETWEEN[: len(joints) - 1], UPPER


def _judged(
    job: VesselJob, section: Section, stack: StackPlan, joints: Sequence[TierJoint], gauges: VesselGauges
) -> Iterator[Judged]:
    for k, name in enumerate(_names(joints)):
        own, tier, load = _alone(job, section, stack, joints, k)
        left = unguided_inside(job, own, tier)
        if left and k == len(joints) and _reached_later(own, joints[-1], left, gauges):
            left = None
        yield Judged(name, own.height, load, left, neck(own.inner) if left else None)


def _joints(
    job: VesselJob, section: Section, stack: StackPlan, rings: Sequence[int]
) -> tuple[TierJoint, ...]:
    found, heights = list[TierJoint](), joints_of(section, stack)
    whole = vessel_spun(job, stack.layers).speed
    for k, ring in enumerate(rings):
        height, last = heights[ring], k == len(rings) - 1
        below = lower_tier(section, height)
        own, centring = [one for one in stack.layers if one.number <= ring], _ring(job, section, height)
        found.append(
            TierJoint(
                of="halves" if last else f"{BETWEEN[k]}_halves",
                mark=f"-{k + 1}" if len(rings) > 1 else "",
                ring=ring,
                height=height,
                below=below,
                centring=centring,
                opened=_loaded(job, below, own, stack.staves, found),
                closed=_closed(job, section, stack, ring, centring.rebate),
                speed=whole if last else min(whole, _speed(job, stack, rings[k + 1])),
            )
        )
    return tuple(found)


def _speed(job: VesselJob, stack: StackPlan, ring: int) -> tuple[int, int]:
    """Rpm of all up to a ring: what comes over it later may be what keeps the whole even."""
    return vessel_spun(job, [one for one in stack.layers if one.number <= ring]).speed


def _closed(job: VesselJob, section: Section, stack: StackPlan, ring: int, rebate: float) -> float:
    """Turned or as glued: a wide blank's weight may outdo its thicker wall."""
    height = joints_of(section, stack)[ring]
    turned = bent_at(job, section, stack.layers)(height)
    glued = bent_as_glued(job, section.height, stack.layers)(height)
    return max(
        bending(1.0, turned, section.outer.radius_at(height), rebate),
        bending(1.0, glued, _flats(stack.layers, ring, height, stack.staves), rebate),
    ) / _stands(job, stack.layers, ring)


def _stands(job: VesselJob, layers: Sequence[Layer], ring: int) -> float:
    """N/mm² that the weaker of the rings that meet over this one may bear."""
    return min(one.stands(job) for one in layers if one.number in (ring, ring + 1))


def _flats(layers: Sequence[Layer], ring: int, height: float, staves: StaveBand | None) -> float:
    """Radius of the smaller of the rings that meet over this one, to its flats."""
    return min(ring_at(one, height, staves).outer for one in layers if one.number in (ring, ring + 1))


def _tier(
    job: VesselJob, section: Section, stack: StackPlan, joints: Sequence[TierJoint], k: int, name: str
) -> Tier:
    own, tier, load = _alone(job, section, stack, joints, k)
    gauges = gauge_plan(job, own, tier)
    return Tier(
        name=name,
        gauge=f"middle-inside-gauge-{k + 1}" if 0 < k < len(joints) else f"{name}-inside-gauge",
        joint=joints[max(0, k - 1)],
        section=own,
        stack=tier,
        gauges=gauges,
        sizes=mouth_sizes(job, own, tier, gauges),
        waste=waste_block(job, own, tier),
        load=load,
    )


def _alone(
    job: VesselJob, section: Section, stack: StackPlan, joints: Sequence[TierJoint], k: int
) -> tuple[Section, StackPlan, Load]:
    """The lower one as it stands; each other one upside down, with wood of its own over the rim, or in the block."""
    last, first = k == len(joints), k == 0
    under, upto = 0 if first else joints[k - 1].ring, stack.layers[-1].number if last else joints[k].ring
    layers = [layer for layer in stack.layers if under < layer.number <= upto]
    own, floating, opening = section if last else joints[k].below, stack.floating, 0.0
    staves = stack.staves if any(layer.kind == "staves" for layer in layers) else None
    if first:
        opening = floating.base.opening if floating else 0.0
    else:
        waste = max(LEAST_WASTE, stack.top - section.height) if last else LEAST_WASTE
        own, foot, floating = upper_tier(own, joints[k - 1].height, waste), own.height + waste, None
        layers = [_turned_over(layer, foot) for layer in reversed(layers)]
        staves = staves and staves.turned_over(foot)
        opening = max(_corners(layers[0], staves), own.inner.radius_at(waste))
    tier = replace(_stack(job, stack, own, layers, staves, opening), floating=floating)
    return own, tier, _loaded(job, own, layers, staves)


def _alike(lower: Tier, second: Tier) -> list[Tier]:
    """Both hollowed to one opening at their joint, stage by stage: the narrower, which the whole's parallel has there.

    Where the wall widens from the joint on, a part's own is wider, for it goes round the arris.
    """
    sticks = min(lower.sizes.mouth, second.sizes.mouth, key=lambda own: own[0].go.diameter if own else 0.0)
    return [replace(tier, sizes=replace(tier.sizes, mouth=sticks)) for tier in (lower, second)]


def _corners(layer: Layer, staves: StaveBand | None) -> float:
    """Radius of the opening to its corners at a tier's foot."""
    ring = ring_at(layer, layer.ring.bottom, staves)
    return ring.core / cos(pi / ring.segments) if ring.segments else 0.0


def _with_mouth(upper: Tier, gauges: VesselGauges) -> Tier:
    """The upper part; what its own gauges leave and those through the mouth reach later is guided too."""
    left = upper.gauges.unguided
    if left is None or not _reached_later(upper.section, upper.joint, left, gauges):
        return upper
    # Wider than the narrowest place of what follows, a bore that nothing guides could meet the wall.
    narrow = upper.section.inner.radii(upper.section.inner.bottom + LEFT, left[1])[0]
    bore = upper.section.height - left[1], 2 * (narrow - max(one.offset for one in gauges.stages))
    return replace(upper, gauges=replace(upper.gauges, unguided=None), bore=bore)


def _reached_later(upper: Section, joint: TierJoint, left: tuple[float, float], gauges: VesselGauges) -> bool:
    """Whether gauges through the mouth get down to what its own gauges leave of the upper part."""
    return gauges.reach is not None and upper.height + joint.height - left[1] >= gauges.reach.low


def joints_of(section: Section, stack: StackPlan) -> dict[int, float]:
    """The rings that may end a part, and the heights of their upper faces: in the hollow, over its floor."""
    floor = section.inner.bottom + BESIDE_FLOOR
    kept = [layer for layer in stack.layers[:-1] if floor < layer.ring.top < section.height - BESIDE_FLOOR]
    return {layer.number: layer.ring.top for layer in kept}


def _turned_over(layer: Layer, top: float) -> Layer:
    return replace(layer, ring=replace(layer.ring, bottom=top - layer.ring.top))


def _stack(
    job: VesselJob,
    stack: StackPlan,
    section: Section,
    layers: Sequence[Layer],
    staves: StaveBand | None,
    opening: float,
) -> StackPlan:
    """The whole stack's plan with these rings alone."""
    lowest = replace(layers[0], ring=ring_at(layers[0], layers[0].ring.bottom, staves))
    return replace(
        stack,
        layers=tuple(layers),
        staves=staves,
        bottom=layers[0].ring.bottom,
        top=layers[-1].ring.top,
        largest_radius=max(layer.ring.radius for layer in layers),
        waste_across=waste_across(job, section, lowest, layers, opening),
        stemmed=False,
    )


def _loaded(
    job: VesselJob,
    section: Section,
    layers: Sequence[Layer],
    staves: StaveBand | None,
    joints: Sequence[TierJoint] = (),
) -> Load:
    """By a push at the open end, weight and heavy sides, hollowed and not yet turned outside.

    `joints` are those of parts below it. A polygon bends less than the round in it, so flats stand for radii, of a
    ring's opening too.
    """
    found, bends = [], bent_as_glued(job, section.height, layers)
    for layer in layers:
        stands = layer.stands(job)
        low, high = max(layer.ring.bottom, 0.0), min(layer.ring.top, section.height)
        for z in np.linspace(low, high, max(2, PLACES // len(layers)), endpoint=False).tolist():
            turned = section.inner.radius_at(z) if z >= section.inner.bottom else 0.0
            ring, arm = ring_at(layer, z, staves), section.height - z
            found.append((bending(1.0, bends(z), ring.outer, max(turned, ring.core)) / stands, arm))
    for joint in joints:
        arm, outer = section.height - joint.height, _flats(layers, joint.ring, joint.height, staves)
        stress = bending(1.0, bends(joint.height), outer, joint.centring.rebate)
        found.append((stress / _stands(job, layers, joint.ring), arm))
    return Load(*max(found))


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


def _no_ring(job: VesselJob, ring: int, joints: list[int]) -> Finding:
    have = f"ring {ring} does not end in the hollow, well over its floor and under its rim"
    remedy = f"end each part with one of {ring_list(joints)}" if joints else "leave [halves] out"
    return job.finding("halves-ring", have, key="halves.ring", remedy=remedy)
