"""A vessel's parts as vessels of their own: what the stages of a whole one give for each, under names of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from geometry.records import replace
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.halves.plan import LOWER, Tier
from jigs.stages.lathe.uneven import vessel_spun
from jigs.stages.sizes.parts.sticks import mouth_sticks
from jigs.words.quantity import Quantity
from jigs.work.model import JigUse, Operation, Rack

STICK, GAUGE = "mouth-stick", "inside-gauge"
MOUTH = "Opening at the joint, across"


def tier_plan(plan: VesselPlan, tier: Tier) -> VesselPlan:
    """The plan of a part; what is lettered on its jigs says which one it is."""
    job = replace(plan.job, title=f"{plan.job.title}, {tier.name} part")
    spun = vessel_spun(plan.job, tier.stack.layers)
    return replace(
        plan,
        job=job,
        section=tier.section,
        stack=tier.stack,
        gauges=tier.gauges,
        sizes=tier.sizes,
        waste=tier.waste,
        off_axis=spun.off_axis,
        rim_speed=spun.speed,
        halves=None,
    )


def tier_gauges(plan: VesselPlan) -> list[Part]:
    """The inner gauges of all parts, and the sticks of their joints; none for a vessel that is built in one."""
    if plan.halves is None:
        return []
    tiers = plan.halves.tiers
    gauges = [
        replace(part, name=part.name.replace(GAUGE, tier.gauge))
        for tier in tiers
        for part in inside_gauges(tier_plan(plan, tier))
    ]
    sticks = [
        stick
        for tier in (tiers[0], *tiers[2:])  # the second opens at the first one's joint
        for stick in mouth_sticks(tier_plan(plan, tier), tier.joint.stick)
    ]
    return [*gauges, *sticks]


def tier_rack(rack: Rack, tier: Tier) -> Rack:
    """The rack as the stages of a whole vessel ask for it."""
    kept = rack.named(tier.gauge, tier.joint.stick, "centring-plate")
    return Rack([replace(part, name=_plain(part.name, tier)) for part in kept])


def _plain(name: str, tier: Tier) -> str:
    return name.replace(tier.gauge, GAUGE).replace(tier.joint.stick, STICK)


def of_tier(operations: Iterable[Operation], tier: Tier) -> list[Operation]:
    """Operations of a part under ids of its own, their jigs under the rack's names."""
    return [
        replace(
            operation,
            id=f"{tier.name}_{operation.id}",
            readings=(),  # what is read of a whole stack is held against its plan; nothing is of a part
            settings=tuple(_told(setting) for setting in operation.settings),
            jigs=tuple(_use(use, tier) for use in operation.jigs),
        )
        for operation in operations
    ]


def _told(setting: Quantity) -> Quantity:
    """What is the mouth of a whole vessel is a part's joint."""
    label = MOUTH if setting.id == "mouth" else setting.label.replace("under the rim", "under the joint")
    return replace(setting, label=label)


def _use(use: JigUse, tier: Tier) -> JigUse:
    """What all parts use; how to is in the lower one's steps."""
    if use.part.startswith(STICK):
        told = use.notes if tier.name == LOWER else ()
        return replace(use, part=use.part.replace(STICK, tier.joint.stick), notes=told)
    return replace(use, part=use.part.replace(GAUGE, tier.gauge)) if use.part.startswith(GAUGE) else use


def without(operations: Sequence[Operation], *ids: str) -> list[Operation]:
    return [operation for operation in operations if operation.id not in ids]
