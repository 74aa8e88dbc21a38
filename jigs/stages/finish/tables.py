"""Wood and weight before and after turning, and what each grit takes off: the tables."""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan

from jigs.plans.plan import Plan
from jigs.work.model import Column, Table

COLUMNS = (
    Column("species", "Wood"),
    Column("blank", "In the blank", "volume"),
    Column("finished", "In the finished work", "volume"),
    Column("before", "Weight of the blank", "weight"),
    Column("after", "Weight finished", "weight"),
)
GRITS = (
    Column("grit", "Grit"),
    Column("removes", "Takes off the radius", "calliper"),
    Column("share", "Of the sanding allowance", "share"),
)


def tables(plan: Plan) -> Sequence[Table]:
    """Weights at 12 % moisture; a wood whose density is not known has none."""
    rows = tuple(
        (w.species, w.blank, w.finished, *(None if isnan(g) else g for g in (w.before, w.after)))
        for w in plan.wood.finish.weights
    )
    grits = tuple((str(g.grit), g.removes, g.share) for g in plan.wood.finish.grits)
    return (
        Table("weight", "Wood and weight, at 12 % moisture", COLUMNS, rows),
        Table("grits", "What each grit takes off", GRITS, grits),
    )
