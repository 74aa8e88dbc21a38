"""The form of a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jigs.parts.coding import settled
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.forms.form import OfPlan
    from jigs.plans.plan import Plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


def of_plan(plan: Plan) -> OfPlan:
    """The plan's stages, jigs, facts and tables."""
    return by_form(plan, torus=_of_torus, vessel=_of_vessel)


def _of_torus(plan: TorusPlan) -> OfPlan:
    from jigs.forms.torus.form import TORUS

    return TORUS.of(plan)


def _of_vessel(plan: VesselPlan) -> OfPlan:
    from jigs.forms.vessel.form import VESSEL

    return VESSEL.of(plan)


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan, their lettering in its places."""
    title = plan.job.title.upper()
    return [settled(part, title) for family in of_plan(plan).families for part in family()]
