"""What is said of a job that can be made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jigs.plans.by_form import by_form
from jigs.plans.plan import Plan

if TYPE_CHECKING:
    from jigs.plans.vessel import VesselPlan

CAN = "can be made"


def verdict(plan: Plan) -> str:
    """Whether it can be made, and what of it the job leaves to the hand."""
    return by_form(plan, torus=lambda _: CAN, vessel=_of_vessel)


def _of_vessel(plan: VesselPlan) -> str:
    if plan.section.through:
        return f"{CAN}, its {plan.job.called.foot} rubbed flat by hand"
    return f'{CAN}, its foot finished by hand (hold = "none")' if plan.by_hand else CAN
