"""What is said of gluing a ring, whichever form it is for."""

from __future__ import annotations

from jigs.forms.plan import Plan

END_GRAIN = "Brush thin glue on every end first and wait a minute: end grain drinks glue."
WHOLE, HALVES = "rings", "halves"  # what the plan calls the last two stages of a ring


def drinks(plan: Plan) -> bool:
    """Whether end grain meets end grain in the joints between segments."""
    return any(joint.sort == "mitres" and joint.end_to_end for joint in plan.wood.grain.joints)
