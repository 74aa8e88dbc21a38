"""What is said of a job that can be made."""

from __future__ import annotations

from jigs.forms.plan import Plan


def verdict(plan: Plan) -> str:
    """Whether it can be made, and what of it the job leaves to the hand."""
    if plan.kind == "vessel" and plan.section.through:
        return f"can be made, its {plan.job.called.foot} rubbed flat by hand"
    if plan.by_hand:
        return 'can be made, its foot finished by hand (hold = "none")'
    return "can be made"
