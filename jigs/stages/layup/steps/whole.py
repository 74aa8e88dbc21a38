"""The stage of the layups; without one nothing of their work is loaded."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.layup.parts.whole import layup
from jigs.work.model import Operation, Rack, Stage, Table

ID = "layup"


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """From plies to blocks on rails."""
    if not plan.layups:
        return []
    from jigs.stages.layup.steps.from_plies import from_plies

    return from_plies(plan, rack)


def _tables(plan: Plan) -> Sequence[Table]:
    if not plan.layups:
        return ()
    from jigs.stages.layup.tables import tables

    return tables(plan)


STAGE: Stage[Plan] = Stage(ID, "Make the layup", operations, jigs=(layup,), tables=(_tables,))
