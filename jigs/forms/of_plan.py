"""The form of a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.forms.form import OfPlan
    from jigs.forms.plan import Plan


def of_plan(plan: Plan) -> OfPlan:
    """The plan's stages, jigs, facts and tables."""
    if plan.kind == "vessel":
        from jigs.forms.vessel.form import VESSEL

        return VESSEL.of(plan)
    from jigs.forms.torus.form import TORUS

    return TORUS.of(plan)
