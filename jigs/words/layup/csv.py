"""Layups as a table: what is bought, made and cut, with its size in mm."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from geometry.block_rail import WIDTH
from jigs.job import Job
from jigs.plan.layup.layup import LayupPlan

Record = dict[str, str | int | float | None]


def layup_records(job: Job, layups: Sequence[LayupPlan]) -> list[Record]:
    """In the order of the work, size by size."""
    return [record for layup in layups for record in _layup(job, layup)]


def _layup(job: Job, layup: LayupPlan) -> Iterator[Record]:
    way, piece, rail = layup.way, layup.layup, layup.rail
    depth, stack = piece.depth, way.strips * piece.sheet
    if job.layup is not None and way.sheets:
        size = (job.layup.sheet_width, job.layup.sheet_length)
        for (name, thick), each in Counter(zip(layup.names, piece.plies, strict=True)).items():
            yield _record(layup, f"ply of {name}, to buy", each * way.sheets, thick, *size)
        yield _record(layup, "sheet", way.sheets, piece.sheet, *size)
    yield _record(
        layup, "strip as ripped", way.strips_in_all, piece.sheet, layup.strip_width, way.strip_length
    )
    yield _record(layup, "stack", way.stacks, stack, depth, way.strip_length)
    yield _record(layup, "scrap behind a stack, at least", way.stacks, stack, depth, way.tail)
    yield _record(layup, "slab", way.stacks * way.pieces, way.slab, depth, None)
    yield _record(layup, "piece", layup.pieces + layup.spares, piece.a, depth, piece.b)
    yield _record(layup, "block", layup.blocks, rail.thickness, None, rail.block)
    yield _record(layup, "rail of scrap", rail.rails, rail.thickness, WIDTH, rail.length)
    yield _record(layup, "scrap behind the last block", rail.rails, rail.thickness, None, rail.held)


def _record(
    layup: LayupPlan, what: str, count: int, thickness: float, width: float | None, length: float | None
) -> Record:
    return {
        "what": what,
        "rings": " ".join(map(str, layup.rings)),
        "count": count,
        "thickness_mm": thickness,
        "width_mm": width,
        "length_mm": length,
    }
