"""The smallest board that gives all that is bought of a wood: an offcut of somebody else's may do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil

from geometry.packing.fill import PARTS
from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.solve.kinds import is_bought, ripped
from jigs.stages.boards.solve.packed import packed, strips_of
from jigs.words.lengths import MM_PER_INCH

STEP = {"mm": 5.0, "in": MM_PER_INCH / 4}  # mm: sizes to ask for are told in no finer ones
WORTH_IT = 0.5  # of the board to buy, that a piece to ask for takes at most


def one_piece(job: Job, lots: Sequence[Lot]) -> tuple[float, float] | None:
    """Width and length of a piece that gives all of these lots, spares among them, where it is at most half as large
    as a board to buy; each such piece has been tried."""
    stock = job.workshop.stock
    if not all(is_bought(job, lot) for lot in lots):
        return None
    most = WORTH_IT * stock.bought_width * stock.bought_length
    sizes = sorted(_sizes(job, lots), key=lambda size: size[0] * size[1])
    return next((size for size in sizes if size[0] * size[1] <= most and _does(job, lots, *size)), None)


def _sizes(job: Job, lots: Sequence[Lot]) -> Iterator[tuple[float, float]]:
    """For each length that some lot asks for in a few strips, as wide as all strips are then."""
    stock, kerf, step = job.workshop.stock, job.workshop.saw.kerf, STEP[job.unit]
    sorts = [strips_of(job, lot) for lot in lots]
    least = max(sort.least for sort in sorts)
    for sort in sorts:
        for parts in range(1, PARTS + 1):
            long = max(least, sort.length(ceil(sort.wanted / parts)))
            length = ceil((long + 2 * stock.end_trim) / step) * step
            each = [other.pieces(length - 2 * stock.end_trim) for other in sorts]
            if all(each):
                strips = sum(
                    ceil(lot.wanted / n) * (ripped(job, lot) + kerf)
                    for lot, n in zip(lots, each, strict=True)
                )
                width = ceil((strips - kerf + stock.edge_trim) / step) * step
                if width <= stock.bought_width and length <= stock.bought_length:
                    yield width, length


def _does(job: Job, lots: Sequence[Lot], width: float, length: float) -> bool:
    """Whether one such board gives all of them."""
    stock = replace(job.workshop.stock, boards=(), bought_width=width, bought_length=length)
    small = replace(job, workshop=replace(job.workshop, stock=stock))
    found = packed(small, lots, Counter())
    return found is not None and found.bought == 1
