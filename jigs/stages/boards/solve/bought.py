"""The size of boards that can be bought, where the turner has not said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil
from typing import TypeVar

from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.solve.kinds import is_bought, ripped
from jigs.words.lengths import MM_PER_INCH

STEP = {"mm": 10.0, "in": MM_PER_INCH}  # mm: boards are sold in no finer steps

AnyJob = TypeVar("AnyJob", bound=Job)


def widened(job: AnyJob, lots: Sequence[Lot]) -> AnyJob:
    """The job, its bought boards at least as wide and as long as one strip of every lot that boards at hand do not
    give, where it states no size."""
    stock, short = job.workshop.stock, _short(job, lots)
    wide = max((ripped(job, lot) + stock.edge_trim for lot in short), default=0.0)
    long = max((lot.strip_length(1) + 2 * stock.end_trim for lot in short), default=0.0)
    asked = replace(
        stock,
        bought_width=_least(job, "stock.bought_width", stock.bought_width, wide),
        bought_length=_least(job, "stock.bought_length", stock.bought_length, long),
    )
    return replace(job, workshop=replace(job.workshop, stock=asked))


def _short(job: Job, lots: Sequence[Lot]) -> list[Lot]:
    """Lots that neither boards at hand nor bought ones give."""
    if all(is_bought(job, lot) for lot in lots):
        return []
    given = {number for found in wood_classes(job, lots)[0] for number in found.lots}
    return [lot for lot in lots if lot.number not in given]


def _least(job: Job, key: str, size: float, needed: float) -> float:
    if key in job.places or needed <= size:
        return size
    step = STEP[job.unit]
    return ceil(needed / step) * step
