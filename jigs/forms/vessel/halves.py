"""The stages of a vessel's work, each as a vessel in one has it, or as one built in parts has it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from geometry.records import replace
from jigs.asked.vessel_job import BETWEEN
from jigs.forms.vessel.tiers import of_tier, tier_gauges, tier_plan, tier_rack, without
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves import steps as halves
from jigs.stages.halves.plan import LOWER, UPPER, Tier
from jigs.stages.inside import steps as inside
from jigs.stages.outside import steps as outside
from jigs.stages.sizes.parts.sticks import joint_gauges
from jigs.stages.stack import steps as stack
from jigs.stages.waste_block import steps as waste_block
from jigs.work.model import Operation, Rack, Stage

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
