"""Every sled, carrier and board put together before the wood is touched: the operations."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jigs.plans.plan import Plan, by_form
from jigs.stages.building.steps.boards import clamp_blocks, lathe_boards, slip_box, vessel_boards
from jigs.stages.building.steps.common import ID
from jigs.stages.building.steps.ring_sled import ring_sled
from jigs.stages.building.steps.sleds import flat_sleds, segment_sleds
from jigs.stages.building.steps.truing import ring_truing, truing_jigs
from jigs.work.model import Operation, Rack, Stage

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """One for each assembly, in the order in which the jigs are wanted."""
    own = by_form(plan, torus=lambda of: _of_torus(of, rack), vessel=lambda of: _of_vessel(of, rack))
    return [*_of_layups(plan, rack), *own]


def _of_layups(plan: Plan, rack: Rack) -> list[Operation]:
    if not plan.layups:
        return []
    from jigs.stages.building.steps.layup import layup_jigs

    return layup_jigs(plan, rack)


def _of_torus(plan: TorusPlan, rack: Rack) -> list[Operation]:
    return [
        *segment_sleds(plan, rack),
        *slip_box(plan, rack),
        *ring_sled(plan, rack),
        *truing_jigs(plan, rack),
        *clamp_blocks(plan, rack),
        *lathe_boards(plan, rack),
    ]


def _of_vessel(plan: VesselPlan, rack: Rack) -> list[Operation]:
    return [*flat_sleds(plan, rack), *ring_truing(plan, rack), *vessel_boards(plan, rack)]


def built_here(plan: Plan, rack: Rack) -> frozenset[str]:
    """Names of the parts that some assembly takes up, or that are glued from layers."""
    return frozenset(use.part for operation in operations(plan, rack) for use in operation.jigs)


STAGE: Stage[Plan] = Stage(ID, "Build the sleds and boards", operations, sort="building", in_a_run=True)
