"""The stages of a vessel built in parts: each as a vessel in one has it, or as a part has it under other names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from geometry.records import replace
from jigs.asked.vessel_job import BETWEEN
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.halves import steps as halves
from jigs.stages.halves.plan import LOWER, UPPER, Tier
from jigs.stages.inside import steps as inside
from jigs.stages.lathe.uneven import vessel_spun
from jigs.stages.outside import steps as outside
from jigs.stages.sizes.parts.sticks import joint_gauges, mouth_sticks
from jigs.stages.stack import steps as stack
from jigs.stages.waste_block import steps as waste_block
from jigs.words.quantity import Quantity
from jigs.work.model import JigUse, Operation, Rack, Stage

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


SECOND = "Take a second faceplate: the lower part stays on the first, so that it runs true again."
AGAIN = (
    "Take the second faceplate again: what is glued already stays on the first, so that it runs true again."
)

OfTier = Callable[[VesselPlan, Rack, Tier], Sequence[Operation]]


def _of(name: str, told: OfTier, plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    """Operations of the part of this name; nothing where there is none."""
    tier = plan.halves.tier(name) if plan.halves else None
    return told(plan, rack, tier) if tier else ()


def _stacked(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return () if plan.halves else stack.operations(plan, rack)


def _tier_mounted(plan: VesselPlan, rack: Rack, tier: Tier) -> list[Operation]:
    own = waste_block.operations(tier_plan(plan, tier), tier_rack(rack, tier))
    how = SECOND if plan.halves and tier is plan.halves.tiers[1] else AGAIN
    return of_tier([_second_faceplate(one, how) for one in own], tier)


def _second_faceplate(operation: Operation, how: str) -> Operation:
    if operation.id != f"{waste_block.ID}.faceplate":
        return operation
    return replace(operation, how=(how, *operation.how))


def _tier_stacked(plan: VesselPlan, rack: Rack, tier: Tier) -> list[Operation]:
    return of_tier(stack.operations(tier_plan(plan, tier), tier_rack(rack, tier)), tier)


def _tier_hollowed(plan: VesselPlan, rack: Rack, tier: Tier) -> list[Operation]:
    """Faced, hollowed by its gauges, rebated, sanded and finished inside."""
    own, of = inside.operations(tier_plan(plan, tier), tier_rack(rack, tier)), f"{tier.name}_{inside.ID}"
    hollowed = of_tier([_bored(plan, tier, one) for one in without(own, f"{inside.ID}.sand")], tier)
    return [halves.faced(tier, of), *hollowed, *halves.closed_in(plan, rack, tier, of)]


def _bored(plan: VesselPlan, tier: Tier, operation: Operation) -> Operation:
    """What the part's own gauges do not reach is left to those through the mouth."""
    if tier.bore is None:
        return operation
    deep, wide = (plan.job.show(one) for one in tier.bore)
    how = (
        f"The gauge ends {deep} under the joint. Deeper, open nothing wider than {wide}: you turn what is left "
        "later, through the mouth, by other gauges."
    )
    return replace(operation, how=(*operation.how[:-1], how, operation.how[-1]))


def _outside(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    """Of parts, the upper waste block comes off before the rim is faced."""
    own = outside.operations(plan, rack)
    return [*own[:-1], halves.parted(plan), own[-1]] if plan.halves else own


def _inside(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    """Of parts, the mouth alone, and all that was not sanded yet."""
    own = inside.operations(plan, rack)
    if plan.halves is None:
        return own
    sand = replace(own[-1], does="Sand outside, rim and mouth, grit by grit; the foot comes later.")
    return [halves.mouth(plan, rack), sand]


STACK: Stage[VesselPlan] = replace(stack.STAGE, operations=_stacked)
OUTSIDE: Stage[VesselPlan] = replace(outside.STAGE, operations=_outside)
INSIDE: Stage[VesselPlan] = replace(inside.STAGE, operations=_inside)


def _stages(name: str) -> tuple[Stage[VesselPlan], ...]:
    """Of a part but the lower one, until it stands on what is under it."""
    end, join = ("mouth", "halves") if name == UPPER else ("upper end", f"{name}_halves")
    return (
        Stage(
            f"{name}_waste_block",
            f"Mount the {name} part by its {end}, upside down",
            partial(_of, name, _tier_mounted),
        ),
        Stage(f"{name}_stack", f"Glue up the {name} part, upside down", partial(_of, name, _tier_stacked)),
        Stage(f"{name}_inside", f"Hollow the {name} part", partial(_of, name, _tier_hollowed)),
        Stage(join, f"Join the {name} part", partial(_of, name, halves.joined)),
    )


TIERS: tuple[Stage[VesselPlan], ...] = (
    Stage("lower_stack", "Glue up the lower part", partial(_of, LOWER, _tier_stacked)),
    Stage(
        "lower_inside",
        "Hollow the lower part",
        partial(_of, LOWER, _tier_hollowed),
        (tier_gauges, joint_gauges),
    ),
    *(stage for name in (*BETWEEN, UPPER) for stage in _stages(name)),
)
