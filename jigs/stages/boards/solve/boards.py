"""Which boards are ripped into which strips: for each wood and thickness one packing of strips into boards.

What is bought is as large as it has to be, where the turner has not said, and a smaller piece that would do is named.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import ceil
from typing import TypeVar

from geometry.grouping import grouped
from geometry.packing.fill import PARTS
from geometry.records import replace
from jigs.asked.job import Job
from jigs.stages.boards.at_hand import Stock, in_stock, used
from jigs.stages.boards.plan import Lot, Shortage, WoodClass
from jigs.stages.boards.solve.kinds import bought_is_long, bought_is_wide, hand_kinds, is_bought, ripped
from jigs.stages.boards.solve.packed import Packed, packed, strips_of
from jigs.stages.boards.solve.sawn import board_cuts, boards_taken, offcuts, volumes
from jigs.words.lengths import MM_PER_INCH


def wood_classes(job: Job, lots: Sequence[Lot]) -> tuple[tuple[WoodClass, ...], tuple[Shortage, ...]]:
    """The plan for each wood and planed thickness, and what no board is large enough for.

    The thickest choose first: boards that serve them may serve thinner ones too.
    """
    there, classes, lacking = in_stock(job), list[WoodClass](), list[Shortage]()
    for wood in grouped(lots, lambda lot: lot.species).values():
        by_thickness = grouped(wood, lambda lot: round(lot.thickness, 9))
        for alike in sorted(by_thickness.values(), key=lambda alike: -alike[0].thickness):
            found, short = _solve(job, alike, there)
            lacking += short
            if found is not None:
                classes.append(found)
                there.subtract(used(found))
    return tuple(sorted(classes, key=lambda of: of.lots)), tuple(lacking)


def _solve(job: Job, alike: Sequence[Lot], there: Stock) -> tuple[WoodClass | None, list[Shortage]]:
    """A plan for lots of one wood and thickness, without those that no board is large enough for.

    Lots that only boards at hand are large enough for are left out too, where there are too few of these.
    """
    buyable = [lot for lot in alike if is_bought(job, lot)]
    able = [lot for lot in alike if lot in buyable or hand_kinds(job, [lot], there)]
    for lots in (able, buyable):
        found = packed(job, lots, there) if lots else None
        if found is not None:
            return _class(job, lots, found), _shortages(job, [lot for lot in alike if lot not in lots])
    return None, _shortages(job, alike)


def _shortages(job: Job, lots: Sequence[Lot]) -> list[Shortage]:
    """What bought boards lack for each: width, length or both."""
    stock, found = job.workshop.stock, list[Shortage]()
    for lot in lots:
        named = (lot.name, lot.rings, lot.species, lot.thickness)
        if not bought_is_wide(job, lot):
            found.append(Shortage(*named, "width", ripped(job, lot) + stock.edge_trim))
        if not bought_is_long(job, lot):
            found.append(Shortage(*named, "length", lot.strip_length(1) + 2 * stock.end_trim))
    return found


def _class(job: Job, lots: Sequence[Lot], found: Packed) -> WoodClass:
    boards, taken = board_cuts(job, lots, found), boards_taken(found)
    left = offcuts(job, lots, boards, taken)
    return WoodClass(
        species=lots[0].species,
        thickness=lots[0].thickness,
        lots=tuple(lot.number for lot in lots),
        taken=taken,
        boards=boards,
        area=sum(kind.counts_as(ready) * (kind.length - one.rest) for kind, ready, one in found.boards),
        bound=found.bound,
        least=found.least,
        offcuts=left,
        volumes=volumes(job, lots, boards, taken, left),
        would_do=one_piece(job, lots) if found.bought == 1 else None,
    )


STEP = {"mm": 5.0, "in": MM_PER_INCH / 4}  # mm: sizes to ask for are shown in no finer steps
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


SOLD_IN = {"mm": 10.0, "in": MM_PER_INCH}  # mm: boards are sold in no finer steps

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
    step = SOLD_IN[job.unit]
    return ceil(needed / step) * step
