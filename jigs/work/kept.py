"""Strips that end too short to be held again: where to stop early."""

from __future__ import annotations

from collections.abc import Collection

from jigs.plans.plan import Plan
from jigs.stages.boards.plan.cut_list import KeptLong
from jigs.words.counting import ring_list
from jigs.words.quantity import Quantity, ruled


def kept_long(plan: Plan, lots: Collection[int]) -> tuple[Quantity, ...]:
    """Of the strips that these lots are cut from: how many pieces early to stop, and what is then left."""
    early = [kept for kept in plan.wood.kept_long if kept.fewer and kept.lot in lots]
    return tuple(one for number, kept in enumerate(early, 1) for one in _each(plan, number, kept))


def _each(plan: Plan, number: int, kept: KeptLong) -> tuple[Quantity, ...]:
    rings = ring_list(plan.wood.lot(kept.lot).rings).capitalize()
    return (
        Quantity(f"short-{number}", f"{rings}: strips that end too short to hold", kept.strips, "count"),
        Quantity(f"short-{number}.fewer", "to keep each, stop early by, pieces", kept.fewer or 0, "count"),
        ruled(f"short-{number}.length", "then left of each", kept.length),
    )
