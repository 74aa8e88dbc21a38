"""Grain at the joints: the table."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.plans.plan import Plan
from jigs.stages.grain.plan import Backing
from jigs.work.model import Column, Table

COLUMNS = (
    Column("joints", "Joints"),
    Column("rings", "Rings", "rings"),
    Column("count", "Count", "count"),
    Column("grain-a", "Grain to joint, one side", "angle"),
    Column("grain-b", "Other side", "angle"),
    Column("beside", "Beside it"),
)
PIECES = (Column("pieces", "Pieces"), Column("rings", "Rings", "rings"), Column("grain", "Grain"))
BESIDE: dict[Backing, str] = {
    "crossed": "long grain crosses it",
    "in line": "long grain carries it",
    "none": "nothing else holds",
}


def tables(plan: Plan) -> Sequence[Table]:
    """Pieces, then joints: 0° is end grain, 90° long grain."""
    grain = plan.wood.grain
    pieces = tuple((p.piece, p.rings, p.runs) for p in grain.pieces)
    joints = tuple(
        (j.sort, j.rings, j.count, *j.angles, BESIDE[j.backing] if j.end_to_end else "long grain")
        for j in grain.joints
    )
    return (
        Table("grain", "Grain of the pieces", PIECES, pieces),
        Table("grain-joints", "Grain at the joints (0° end grain, 90° long grain)", COLUMNS, joints),
    )
