"""A vessel's parts as vessels of their own: what the stages of a whole one give for each, under names of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from geometry.lathe.turning import rim_speed_limits
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.halves.plan import LOWER, Lot
from jigs.stages.sizes.parts.stepped_sticks import mouth_sticks
from jigs.words.quantity import Quantity
from jigs.work.model import JigUse, Operation
from jigs.work.rack import Rack

STICK, GAUGE = "mouth-stick", "inside-gauge"
MOUTH = "Opening at the joint, across"


def lot_plan(plan: VesselPlan, lot: Lot) -> VesselPlan:
    """The plan of a part; what is lettered on its jigs says which one it is."""
    job = replace(plan.job, title=f"{plan.job.title}, {lot.name} part")
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
    """The inner gauges of all parts, and the sticks of their joints; none for a vessel that is built in one."""
    if plan.halves is None:
        return []
    lots = plan.halves.lots
    gauges = [
        replace(part, name=part.name.replace(GAUGE, lot.gauge))
        for lot in lots
        for part in inside_gauges(lot_plan(plan, lot))
    ]
    sticks = [
        stick
        for lot in (lots[0], *lots[2:])  # the second opens at the first one's joint
        for stick in mouth_sticks(lot_plan(plan, lot), lot.joint.stick)
    ]
    return [*gauges, *sticks]


def lot_rack(rack: Rack, lot: Lot) -> Rack:
    """The rack as the stages of a whole vessel ask for it."""
    kept = rack.named(lot.gauge, lot.joint.stick, "centring-plate")
    return Rack([replace(part, name=_plain(part.name, lot)) for part in kept])


def _plain(name: str, lot: Lot) -> str:
    return name.replace(lot.gauge, GAUGE).replace(lot.joint.stick, STICK)


def of_lot(operations: Iterable[Operation], lot: Lot) -> list[Operation]:
    """Operations of a part under ids of its own, their jigs under the rack's names."""
    return [
        replace(
            operation,
            id=f"{lot.name}_{operation.id}",
            stage=f"{lot.name}_{operation.stage}",
            readings=(),  # what is read of a whole stack is held against its plan; nothing is of a part
            settings=tuple(_told(setting) for setting in operation.settings),
            jigs=tuple(_use(use, lot) for use in operation.jigs),
            before=tuple(f"{lot.name}_{other}" for other in operation.before),
        )
        for operation in operations
    ]


def _told(setting: Quantity) -> Quantity:
    """What is the mouth of a whole vessel is a part's joint."""
    label = MOUTH if setting.id == "mouth" else setting.label.replace("under the rim", "under the joint")
    return replace(setting, label=label)


def _use(use: JigUse, lot: Lot) -> JigUse:
    """What all parts use; how to is in the lower one's steps."""
    if use.part.startswith(STICK):
        told = use.notes if lot.name == LOWER else ()
        return replace(use, part=use.part.replace(STICK, lot.joint.stick), notes=told)
    return replace(use, part=use.part.replace(GAUGE, lot.gauge)) if use.part.startswith(GAUGE) else use


def without(operations: Sequence[Operation], *ids: str) -> list[Operation]:
    return [operation for operation in operations if operation.id not in ids]
