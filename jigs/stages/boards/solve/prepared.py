"""The steps from boards to strips: crosscut, planed to thickness, ripped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.job import Job
from jigs.stages.boards.at_hand import MEASURED
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import Step
from jigs.stages.boards.plan.stock import BoardCut, BoardsTaken, StripCut, WoodClass
from jigs.stages.boards.solve.kinds import ripped
from jigs.stages.boards.solve.steps import grouped, rings_of, step
from jigs.stages.slips.layout import SLIT_FROM
from jigs.words.quantity import Quantity, calliper, ruled

THIN = 4.0  # mm: thinner boards slip under a rip fence and break in a planer. Common practice, no source


def prepared_steps(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Step]:
    """Boards to lengths, these to thickness, the thickest first, then to strips, the widest first.

    Where rests are sawn for thinner strips, all of one thickness before the next: they are there once it is ripped.
    """
    thickest = sorted(classes, key=lambda of: -of.thickness)
    by_thickness = list(grouped(thickest, lambda of: round(of.thickness, 2)).values())
    rests = any(board.rest_of is not None for of in classes for board in of.taken)
    for alike in by_thickness if rests else [thickest]:
        yield from _crosscut(job, lots, alike)
        yield from _milled(lots, alike)
        yield from _stripped(job, lots, alike)


def _thin(lot: Lot) -> bool:
    """Whether its boards are too thin to be planed by themselves, or ripped along a fence."""
    return lot.way == "by hand" or lot.thickness < THIN


def _crosscut(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Step]:
    """Boards of one size at a time; those that need neither be crosscut nor trimmed are not spoken of."""
    for of in classes:
        own = [lot for lot in lots if lot.number in of.lots]
        for taken in of.taken:
            if len(taken.lengths) > 1 or taken.rest or job.workshop.stock.end_trim:
                count, told = taken.count * len(taken.lengths), _to_lengths(job, of.species, taken)
                yield step("crosscut", "bench", rings_of(own), own, count, told)


def _to_lengths(job: Job, species: str, taken: BoardsTaken) -> tuple[Quantity, ...]:
    """Which boards, and how long they become."""
    what, trim = "Boards" if taken.rest_of is None else "Left-over pieces", job.workshop.stock.end_trim
    return (
        Quantity("boards", f"{what} of {species}", taken.count, "count"),
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


def _milled(lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Step]:
    """Lengths that are thicker than the strips; the faces of others stay as they are."""
    for alike in grouped(classes, lambda of: round(of.thickness, 2)).values():
        boards = [board for of in alike for board in of.boards if board.thickness > of.thickness + MEASURED]
        own = _sawn_from(lots, boards)
        if own:
            count = sum(board.count for board in boards)
            yield step(
                "thin" if _thin(own[0]) else "mill",
                "planer",
                rings_of(own),
                own,
                count,
                (calliper("thickness", "Thickness", own[0].thickness),),
            )


def _sawn_from(lots: Sequence[Lot], boards: Sequence[BoardCut]) -> list[Lot]:
    numbers = {cut.lot for board in boards for cut in board.strips}
    return [lot for lot in lots if lot.number in numbers]


def _stripped(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> Iterator[Step]:
    """Strips that are ripped, and those that are there and are wider than they have to be; no others."""
    cuts = [(board, cut) for of in classes for board in of.boards for cut in board.strips]
    thick = [lot for lot in lots if lot.way != "slit" and not _thin(lot)]
    by_width = grouped(sorted(thick, key=lambda lot: -lot.width), lambda lot: round(lot.width, 2))
    for same in by_width.values():
        width = same[0].width
        sawn = [(board, cut) for board, cut in cuts if not board.ready]
        wide = [(board, cut) for board, cut in cuts if board.ready and cut.width > width + MEASURED]
        planed = calliper("width", "Plane to width", width)
        fence = Quantity("rip-fence", "Rip fence to blade", width + job.workshop.stock.strip_clean_up)
        if own := _of(same, sawn):
            yield step("rip", "table saw", rings_of(own), own, _strips(own, sawn), (fence, planed))
        if own := _of(same, wide):
            yield step("edges", "planer", rings_of(own), own, _strips(own, wide), (planed,))
    thin = _of([lot for lot in lots if lot.way != "slit" and _thin(lot)], cuts)
    for own in grouped(thin, lambda lot: (round(lot.width, 2), round(lot.thickness, 2))).values():
        told = (
            calliper("width", "Plane to width", own[0].width),
            calliper("thickness", "Thickness", own[0].thickness),
        )
        yield step("knife", "bench", rings_of(own), own, _strips(own, cuts), told)
    yield from _slit(job, [lot for lot in lots if lot.way == "slit"], cuts)


def _slit(job: Job, lots: Sequence[Lot], cuts: Sequence[tuple[BoardCut, StripCut]]) -> Iterator[Step]:
    """Slips, off the outside of a strip or board that stays between blade and fence."""
    own = _of(lots, cuts)
    slips = [lot for lot in own if lot.slip]
    if not slips:
        return
    sawn = ripped(job, slips[0])
    settings = (
        calliper("slip", "Slip as sawn", sawn),
        Quantity(
            "rip-fence.step",
            "Move the rip fence towards the blade after each slip",
            sawn + job.workshop.saw.kerf,
        ),
        ruled("least-between", "Least wood between blade and fence", SLIT_FROM),
        calliper("sanded-to", "Sand on a flat board to", slips[0].width),
    )
    yield step("slit", "table saw", rings_of(slips), own, _strips(slips, cuts), settings)


def _of(lots: Sequence[Lot], cuts: Sequence[tuple[BoardCut, StripCut]]) -> list[Lot]:
    numbers = {cut.lot for _, cut in cuts}
    return [lot for lot in lots if lot.number in numbers]


def _strips(lots: Sequence[Lot], cuts: Sequence[tuple[BoardCut, StripCut]]) -> int:
    numbers = {lot.number for lot in lots}
    return sum(board.count * cut.strips for board, cut in cuts if cut.lot in numbers)
