"""The size of boards that can be bought, where the turner has not said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil
from typing import TypeVar

from jigs.job import Job
from jigs.plan.wood.lots import Lot

STEP = 10.0  # mm: boards are sold in no finer steps

AnyJob = TypeVar("AnyJob", bound=Job)


def widened(job: AnyJob, lots: Sequence[Lot]) -> AnyJob:
    """The job, its bought boards at least as wide and as long as one strip of every lot, where it states no size."""
    stock = job.workshop.stock
    wide = max((lot.width + stock.strip_clean_up + stock.edge_trim for lot in lots), default=0.0)
    long = max((lot.strip_length(1) + 2 * stock.end_trim for lot in lots), default=0.0)
    asked = replace(
        stock,
        bought_width=_least(job, "stock.bought_width", stock.bought_width, wide),
        bought_length=_least(job, "stock.bought_length", stock.bought_length, long),
    )
    return replace(job, workshop=replace(job.workshop, stock=asked))


def _least(job: Job, key: str, size: float, needed: float) -> float:
    if key in job.places or needed <= size:
        return size
    return ceil(needed / STEP) * STEP
