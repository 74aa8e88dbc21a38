"""The jigs of a plan: each stage of its work lists the plain functions that make them."""

from __future__ import annotations

from jigs.forms.of_plan import of_plan
from jigs.parts.coding import settled
from jigs.parts.part import Part
from jigs.plans.plan import Plan


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan, their lettering in its places."""
    title = plan.job.title.upper()
    return [settled(part, title) for family in of_plan(plan).families for part in family()]
