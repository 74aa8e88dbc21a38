"""Layups, from plies to rails: the table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from jigs.asked.job import Job
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.rail import WIDTH
from jigs.stages.layup.plan import LayupPlan
from jigs.work.model import Cell, Column, Table

COLUMNS = (
    Column("what", "What"),
    Column("rings", "Rings", "rings"),
    Column("count", "Count", "count"),
    Column("thickness", "Thickness", "calliper"),
    Column("width", "Width", "calliper"),
    Column("length", "Length", "rule"),
)


def tables(plan: Plan) -> Sequence[Table]:
    """In the order of the work, size by size; none without a layup."""
    rows = tuple(row for layup in plan.layups for row in _layup(plan.job, layup))
    return (Table("layup", "Layup", COLUMNS, rows),) if rows else ()


def _layup(job: Job, layup: LayupPlan) -> Iterator[tuple[Cell, ...]]:
    way, piece, rail, rings = layup.way, layup.layup, layup.rail, layup.rings
    depth, stack = piece.depth, way.strips * piece.sheet
    if job.layup is not None and way.sheets:
        size = (job.layup.sheet_width, job.layup.sheet_length)
        for (name, thick), each in Counter(zip(layup.names, piece.plies, strict=True)).items():
            yield f"ply of {name}, to buy", rings, each * way.sheets, thick, *size
        yield "sheet", rings, way.sheets, piece.sheet, *size
    yield "strip as ripped", rings, way.strips_in_all, piece.sheet, layup.strip_width, way.strip_length
    yield "stack", rings, way.stacks, stack, depth, way.strip_length
    yield "scrap behind a stack, at least", rings, way.stacks, stack, depth, way.tail
    yield "slab", rings, way.stacks * way.pieces, way.slab, depth, None
    yield "piece", rings, layup.pieces + layup.spares, piece.a, depth, piece.b
    yield "block", rings, layup.blocks, rail.thickness, None, rail.block
    yield "rail of scrap", rings, rail.rails, rail.thickness, WIDTH, rail.length
    yield "scrap behind the last block", rings, rail.rails, rail.thickness, None, rail.held
