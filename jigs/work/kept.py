"""Strips that end too short to be held again: where to stop early."""

from __future__ import annotations

from collections.abc import Collection

from jigs.forms.plan import Plan
from jigs.words.quantity import Quantity, ruled


def kept_long(plan: Plan, lots: Collection[int]) -> tuple[Quantity, ...]:
    """Of the strips that these lots are cut from: how many pieces early to stop, and what is then left."""
    early = [kept for kept in plan.wood.kept_long if kept.fewer and kept.lot in lots]
    return tuple(
        found
        for number, kept in enumerate(early, 1)
        for found in (
            Quantity(f"short-{number}", "Strips that end short, to hold them again", kept.strips, "count"),
            Quantity(f"short-{number}.fewer", "On each, stop early by, pieces", kept.fewer or 0, "count"),
            ruled(f"short-{number}.length", "What is then left of each", kept.length),
        )
    )
