"""What readings have changed of what a plan's jigs are drawn to."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jigs.forms.plan import Plan


def corrected(plan: Plan) -> dict[str, float]:
    """By id, mm or radians; nothing where nothing is."""
    if plan.kind == "vessel" or plan.ring_cut.wedge_turn == 0:
        return {}
    return {"wedge-turn": plan.ring_cut.wedge_turn}
