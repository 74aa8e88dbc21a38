"""Jig families: plain functions from a plan to parts, listed for each form of work."""

from __future__ import annotations

from jigs.forms.plan import Plan
from jigs.parts.coding import settled
from jigs.parts.part import Part


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan, their lettering in its places."""
    return [settled(part, plan.job.title.upper()) for part in _unsettled(plan)]


def _unsettled(plan: Plan) -> list[Part]:
    if plan.kind == "vessel":
        from jigs.forms.vessel.families import VESSEL_FAMILIES

        return [part for family in VESSEL_FAMILIES for part in family(plan)]
    from jigs.forms.torus.families import FAMILIES

    return [part for family in FAMILIES for part in family(plan)]
