"""The woods of a job: how many pieces of each, and whose dust is known to harm."""

from __future__ import annotations

from collections.abc import Iterable
from math import isnan

from jigs.plans.plan import Plan
from jigs.words.quantity import Quantity
from jigs.work.cautions import irritating

CAUTION = "wood.irritant"


def by_wood(what: str, counts: Iterable[tuple[str, int]]) -> tuple[Quantity, ...]:
    """How many of each wood; nothing where all are of one."""
    found: dict[str, int] = {}
    for wood, count in counts:
        found[wood] = found.get(wood, 0) + count
    if len(found) < 2:
        return ()
    return tuple(
        Quantity(f"of-{wood.lower().replace(' ', '-')}", f"{what} of {wood}", count, "count")
        for wood, count in found.items()
    )


def irritants(plan: Plan) -> tuple[Quantity, ...]:
    """Their names; nothing where there are none."""
    woods = {weight.species for weight in plan.wood.finish.weights}
    found = irritating(woods)
    return (Quantity("irritants", "Wood whose dust irritates", ", ".join(found), "text"),) if found else ()


def dusty(plan: Plan, *cautions: str) -> tuple[str, ...]:
    """Cautions of work that makes dust, three at most: that of irritant woods among them where there are any."""
    return (CAUTION, *cautions)[:3] if irritants(plan) else cautions


def weighs(plan: Plan) -> tuple[Quantity, ...]:
    """Grams, finished; nothing where a wood's are not known."""
    grams = sum(weight.after for weight in plan.wood.finish.weights)
    return () if isnan(grams) else (Quantity("weight", "Weight", grams, "weight"),)
