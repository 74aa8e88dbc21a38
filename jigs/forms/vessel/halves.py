"""The stages of a vessel's work, each as a vessel in one has it, or as one built in halves has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from jigs.forms.vessel.lots import lot_gauges, lot_plan, lot_rack, of_lot, without
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves import steps as halves
from jigs.stages.halves.plan import Lot
from jigs.stages.inside import steps as inside
from jigs.stages.outside import steps as outside
from jigs.stages.stack import steps as stack
from jigs.stages.waste_block import steps as waste_block
from jigs.work.model import Operation, Stage
from jigs.work.rack import Rack

SECOND = "Take a second faceplate: the lower half stays on the first, so that it runs true again."


def _stacked(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return () if plan.halves else stack.operations(plan, rack)


def _lower_stacked(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return _lot_stacked(plan, rack, plan.halves.lower) if plan.halves else ()


def _lower_hollowed(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return _lot_hollowed(plan, rack, plan.halves.lower) if plan.halves else ()


def _upper_mounted(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    if plan.halves is None:
        return ()
    lot = plan.halves.upper
    own = waste_block.operations(lot_plan(plan, lot), lot_rack(rack, lot))
    return of_lot([_second_faceplate(one) for one in own], lot)


def _second_faceplate(operation: Operation) -> Operation:
    if operation.id != f"{waste_block.ID}.faceplate":
        return operation
    return replace(operation, how=(SECOND, *operation.how))


def _upper_stacked(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return _lot_stacked(plan, rack, plan.halves.upper) if plan.halves else ()


def _upper_hollowed(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    return _lot_hollowed(plan, rack, plan.halves.upper) if plan.halves else ()


def _lot_stacked(plan: VesselPlan, rack: Rack, lot: Lot) -> list[Operation]:
    return of_lot(stack.operations(lot_plan(plan, lot), lot_rack(rack, lot)), lot)


def _lot_hollowed(plan: VesselPlan, rack: Rack, lot: Lot) -> list[Operation]:
    """Faced, hollowed by its gauges, rebated, sanded and finished inside."""
    own, of = inside.operations(lot_plan(plan, lot), lot_rack(rack, lot)), f"{lot.name}_{inside.ID}"
    hollowed = of_lot(without(own, f"{inside.ID}.sand"), lot)
    return [halves.faced(plan, lot, of), *hollowed, *halves.closed_in(plan, rack, lot, of)]


def _outside(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    """Of halves, the upper waste block comes off before the rim is faced."""
    own = outside.operations(plan, rack)
    return [*own[:-1], halves.parted(plan), own[-1]] if plan.halves else own


def _inside(plan: VesselPlan, rack: Rack) -> Sequence[Operation]:
    """Of halves, the mouth alone, and all that was not sanded yet."""
    own = inside.operations(plan, rack)
    if plan.halves is None:
        return own
    sand = replace(own[-1], does="Sand outside, rim and mouth, grit by grit; the foot comes later.")
    return [halves.mouth(plan, rack), sand]


STACK: Stage[VesselPlan] = replace(stack.STAGE, operations=_stacked)
OUTSIDE: Stage[VesselPlan] = replace(outside.STAGE, operations=_outside)
INSIDE: Stage[VesselPlan] = replace(inside.STAGE, operations=_inside)
LOTS: tuple[Stage[VesselPlan], ...] = (
    Stage("lower_stack", "Glue up the lower half", _lower_stacked),
    Stage("lower_inside", "Hollow the lower half", _lower_hollowed, jigs=(lot_gauges,)),
    Stage("upper_waste_block", "Mount the upper half by its mouth, upside down", _upper_mounted),
    Stage("upper_stack", "Glue up the upper half, upside down", _upper_stacked),
    Stage("upper_inside", "Hollow the upper half", _upper_hollowed),
    halves.STAGE,
)
