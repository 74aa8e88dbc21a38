"""From boards to strips, one setting of a machine after another: crosscut, planed to thickness, ripped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from geometry.grouping import grouped
from jigs.asked.job import Job
from jigs.plans.plan import Plan
from jigs.stages.boards.at_hand import MEASURED
from jigs.stages.boards.plan import RIPPED, BoardCut, BoardsTaken, Lot, Scrap, StripCut, WoodClass
from jigs.stages.boards.runs import Run, run_of, through
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import pieces, slug
from jigs.work.model import Goods, Place
from jigs.work.supplies import sizes
from jigs.work.woods import by_wood

Kind = Literal[
    "crosscut",  # boards to rough lengths
    "mill",  # lengths of board to thickness
    "rip",  # strips off lengths of board, planed to width
    "rip at bandsaw",  # the same of boards that the table saw's blade does not reach through
    "rip by hand",  # nor the bandsaw
    "thin",  # lengths to the thickness of slips, on a carrier
    "knife",  # thin boards to strips, by hand
    "edges",  # strips that are narrow boards, planed to width
]
Made = tuple[Kind, Run]
Cuts = Sequence[tuple[BoardCut, StripCut]]


def prepared(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Made]:
    """Boards to lengths, these to thickness, the thickest first, then to strips, the widest first."""
    thickest = sorted(classes, key=lambda of: -of.thickness)
    yield from _crosscut(job, lots, thickest)
    yield from _milled(lots, thickest)
    yield from _stripped(job, lots, thickest)


def _thin(lot: Lot) -> bool:
    """Whether its boards are too thin to be planed by themselves, or ripped along a fence."""
    return lot.way == "by hand" or lot.thickness < RIPPED


def _crosscut(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Made]:
    """Boards of one size at a time; those that need neither be crosscut nor trimmed are not spoken of."""
    for of in classes:
        own = [lot for lot in lots if lot.number in of.lots]
        for taken in of.taken:
            if len(taken.lengths) > 1 or taken.rest or job.workshop.stock.end_trim:
                count, told = taken.count * len(taken.lengths), _to_lengths(job, of.species, taken)
                yield "crosscut", run_of("bench", own, told, count)


def _to_lengths(job: Job, species: str, taken: BoardsTaken) -> tuple[Quantity, ...]:
    """Which boards, and how long they become."""
    trim = job.workshop.stock.end_trim
    return (
        Quantity("boards", f"Boards of {species}", taken.count, "count"),
        ruled("boards.thickness", "Board thickness", taken.thickness),
        ruled("boards.width", "Board width", taken.width),
        ruled("boards.length", "Board length", taken.length),
        *([ruled("end-trim", "Cut off each end", trim)] if trim else []),
        *_each_length(taken.lengths),
        *([ruled("kept-whole", "Keep in one piece from each board", taken.rest)] if taken.rest else []),
    )


def _each_length(lengths: Sequence[float]) -> Iterator[Quantity]:
    """From each board, the longest first."""
    first = 1
    for alike in grouped(lengths, lambda length: round(length, 2)).values():
        last = first + len(alike) - 1
        label = f"Length {first}" if first == last else f"Lengths {first} to {last}, each"
        yield ruled(f"length.{first}", label, alike[0])
        first = last + 1


def _milled(lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Made]:
    """Lengths that are thicker than the strips; the faces of others stay as they are."""
    for alike in grouped(classes, lambda of: round(of.thickness, 2)).values():
        boards = [board for of in alike for board in of.boards if board.thickness > of.thickness + MEASURED]
        if own := _of(lots, [(board, cut) for board in boards for cut in board.strips]):
            thick = (calliper("thickness", "Thickness", own[0].thickness),)
            count = sum(board.count for board in boards)
            yield "thin" if _thin(own[0]) else "mill", run_of("planer", own, thick, count)


def _stripped(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Made]:
    """Strips that are ripped, and those that are there and are wider than they have to be; no others."""
    cuts = [(board, cut) for of in classes for board in of.boards for cut in board.strips]
    sawn = [(board, cut) for board, cut in cuts if not board.ready]
    lots = [lot for lot in lots if lot.way != "slit"]
    thick = sorted((lot for lot in lots if not _thin(lot)), key=lambda lot: -lot.width)
    for same in grouped(thick, lambda lot: (round(lot.width, 2), round(lot.thickness, 2))).values():
        width, kind = same[0].width, ripped(job, same[0])
        wide = [(board, cut) for board, cut in cuts if board.ready and cut.width > width + MEASURED]
        planed = calliper("width", "Plane to width", width)
        if own := _of(same, sawn):
            place, (across, above) = PLACES[kind]
            settings = (
                Quantity("rip-fence", across, width + job.workshop.stock.strip_clean_up),
                *([ruled("blade-height", above, through(own[0]))] if above else []),
                planed,
                *_by_wood(own, sawn),
            )
            yield kind, run_of(place, own, settings, _strips(own, sawn))
        if own := _of(same, wide):
            yield "edges", run_of("planer", own, (planed, *_by_wood(own, wide)), _strips(own, wide))
    thin = _of([lot for lot in lots if _thin(lot)], cuts)
    for own in grouped(thin, lambda lot: (round(lot.width, 2), round(lot.thickness, 2))).values():
        told = (
            calliper("width", "Plane to width", own[0].width),
            calliper("thickness", "Thickness", own[0].thickness),
        )
        yield "knife", run_of("bench", own, told, _strips(own, cuts))


# By how strips are ripped: where, and what their width and the height of the cut are set as.
PLACES: Mapping[Kind, tuple[Place, tuple[str, str]]] = {
    "rip": ("table saw", ("Rip fence to blade", "Blade above the table")),
    "rip at bandsaw": ("bandsaw", ("Rip fence to blade", "Guides above the table")),
    "rip by hand": ("bench", ("Saw to width", "")),
}


def ripped(job: Job, wood: Lot | Scrap) -> Kind:
    """At the table saw, or where a blade reaches through."""
    if through(wood) <= job.workshop.saw.blade_height:
        return "rip"
    return "rip at bandsaw" if through(wood) <= (job.workshop.bandsaw.height or 0.0) else "rip by hand"


def _of(lots: Sequence[Lot], cuts: Cuts) -> list[Lot]:
    numbers = {cut.lot for _, cut in cuts}
    return [lot for lot in lots if lot.number in numbers]


def _strips(lots: Sequence[Lot], cuts: Cuts) -> int:
    numbers = {lot.number for lot in lots}
    return sum(board.count * cut.strips for board, cut in cuts if cut.lot in numbers)


def _by_wood(lots: Sequence[Lot], cuts: Cuts) -> tuple[Quantity, ...]:
    woods = {lot.number: lot.species for lot in lots}
    own = [(board, cut) for board, cut in cuts if cut.lot in woods]
    return by_wood("Strips", ((woods[cut.lot], board.count * cut.strips) for board, cut in own))


def boards(plan: Plan) -> tuple[Goods, ...]:
    """Those to buy, of each wood by size, then those that are in stock."""
    taken = [(of.species, board) for of in plan.wood.classes for board in of.taken]
    return tuple(_board(wood, board) for wood, board in taken)


def _board(wood: str, board: BoardsTaken) -> Goods:
    size = "-".join(f"{mm:.1f}" for mm in (board.thickness, board.width, board.length))
    area = board.count * board.width * board.length
    return Goods(
        f"{'board' if board.bought else 'stock'}.{slug(wood)}.{size}",
        "boards" if board.bought else "in stock",
        f"{wood} board" + (", this size or larger" if board.bought else ""),
        (
            pieces(board.count),
            *sizes(board.thickness, board.width, board.length),
            Quantity("area", "In all", area, "spread"),
            Quantity("volume", "In all", area * board.thickness, "timber"),
        ),
    )
