"""The woods of a job whose dust is known to harm."""

from __future__ import annotations

from jigs.cautions import irritating
from jigs.plan import Plan
from jigs.quantity import Quantity

CAUTION = "wood.irritant"


def irritants(plan: Plan) -> tuple[Quantity, ...]:
    """Their names; nothing where there are none."""
    woods = {weight.species for weight in plan.wood.finish.weights}
    found = irritating(woods)
    return (Quantity("irritants", "Wood whose dust irritates", ", ".join(found), "text"),) if found else ()


def dusty(plan: Plan, *cautions: str) -> tuple[str, ...]:
    """Cautions of work that makes dust, three at most: that of irritant woods among them where there are any."""
    return (CAUTION, *cautions)[:3] if irritants(plan) else cautions
