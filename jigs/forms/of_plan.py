"""The form of a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from jigs.parts.coding import settled
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.forms.form import Form
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


def of_plan(plan: Plan) -> Form[Any]:
    """The record of the plan's form, whose functions take this plan."""
    return by_form(plan, torus=_of_torus, vessel=_of_vessel)


def _of_torus(_: TorusPlan) -> Form[Any]:
    from jigs.forms.torus.form import TORUS

    return TORUS


def _of_vessel(_: VesselPlan) -> Form[Any]:
    from jigs.forms.vessel.form import VESSEL

    return VESSEL


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan, their lettering in its places."""
    title = plan.job.title.upper()
    families = (family for stage in of_plan(plan).stages for family in stage.jigs)
    return [settled(part, title) for family in families for part in family(plan)]
