"""The wedge-ring sled: flat parts with slots and tabs sized from the measured sheet."""

from __future__ import annotations

from jigs.families.sled_base import base, exit_block, runner
from jigs.families.sled_uprights import fence, gusset, handle, jaw, stop_cheek
from jigs.part import Part
from jigs.plan import Plan


def sled(plan: Plan) -> list[Part]:
    """Base, fence, gussets, stop cheeks, jaw, exit block, handle and runner; none where the bandsaw cuts."""
    if plan.cutting.rings_on == "bandsaw":
        return []
    lying = [base(plan), exit_block(plan), runner(plan)]
    return [*lying, fence(plan), gusset(plan), stop_cheek(plan), jaw(plan), handle(plan)]
