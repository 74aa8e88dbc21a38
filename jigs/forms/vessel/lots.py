"""A vessel's halves as vessels of their own: what the stages of a whole one give for each, under names of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from geometry.lathe.turning import rim_speed_limits
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.halves.plan import Lot
from jigs.stages.sizes.parts.stepped_sticks import stepped_sticks
from jigs.words.quantity import Quantity
from jigs.work.model import JigUse, Operation
from jigs.work.rack import Rack

STICK, JOINT_STICK, GAUGE = "mouth-stick", "joint-stick", "inside-gauge"
LABELS = {"mouth": "Opening at the joint, across", "depth": "Depth in the middle, under the joint"}


def lot_plan(plan: VesselPlan, lot: Lot) -> VesselPlan:
    """The plan of a half; what is lettered on its jigs says which half it is."""
    job = replace(plan.job, title=f"{plan.job.title}, {lot.name} half")
    return replace(
        plan,
        job=job,
        section=lot.section,
        stack=lot.stack,
        gauges=lot.gauges,
        sizes=replace(lot.sizes, gaps=(), sticks=()),
        waste=lot.waste,
        rim_speed=rim_speed_limits(2 * lot.stack.largest_radius),
        halves=None,
    )


def lot_gauges(plan: VesselPlan) -> list[Part]:
    """The inner gauges of both halves, and the sticks of their joint; none for a vessel that is built in one."""
    if plan.halves is None:
        return []
    gauges = [
        replace(part, name=f"{lot.name}-{part.name}")
        for lot in plan.halves.lots
        for part in inside_gauges(lot_plan(plan, lot))
    ]
    sticks = stepped_sticks(lot_plan(plan, plan.halves.lower))
    return [*gauges, *(replace(part, name=part.name.replace(STICK, JOINT_STICK)) for part in sticks)]


def lot_rack(rack: Rack, lot: Lot) -> Rack:
    """The rack as the stages of a whole vessel ask for it."""
    own = f"{lot.name}-{GAUGE}"
    kept = [part for part in rack.parts if part.name.startswith((own, JOINT_STICK, "centring-plate"))]
    return Rack([replace(part, name=_plain(part.name, lot)) for part in kept])


def _plain(name: str, lot: Lot) -> str:
    return name.removeprefix(f"{lot.name}-").replace(JOINT_STICK, STICK)


def of_lot(operations: Iterable[Operation], lot: Lot) -> list[Operation]:
    """Operations of a half under ids of its own, their jigs under the rack's names."""
    return [
        replace(
            operation,
            id=f"{lot.name}_{operation.id}",
            stage=f"{lot.name}_{operation.stage}",
            readings=(),  # what is read of a whole stack is held against its plan; nothing is of a half
            settings=tuple(_told(setting) for setting in operation.settings),
            jigs=tuple(_use(use, lot) for use in operation.jigs),
            before=tuple(f"{lot.name}_{other}" for other in operation.before),
        )
        for operation in operations
    ]


def _told(setting: Quantity) -> Quantity:
    """What is the mouth of a whole vessel is a half's joint."""
    label = LABELS.get(setting.id)
    return replace(setting, label=label) if label else setting


def _use(use: JigUse, lot: Lot) -> JigUse:
    """What both halves use; how to is in the lower one's steps."""
    if use.part.startswith(STICK):
        told = use.notes if lot.name == "lower" else ()
        return replace(use, part=use.part.replace(STICK, JOINT_STICK), notes=told)
    return replace(use, part=f"{lot.name}-{use.part}") if use.part.startswith(GAUGE) else use


def without(operations: Sequence[Operation], *ids: str) -> list[Operation]:
    return [operation for operation in operations if operation.id not in ids]
