"""The cut list: how each lot comes off the saw, and what it is when it is glued; strips that end too short to be held
safely, and what would keep them long."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import ceil, cos

from jigs.asked.job import Job
from jigs.stages.boards.plan import BoardCut, CutLine, KeptLong, Lot, StripCut, WoodClass
from jigs.stages.boards.solve.kinds import ripped, rough_thickness


def cut_lines(
    job: Job, lots: Iterable[Lot], classes: Sequence[WoodClass], sanding: Callable[[Lot], float], gauge: float
) -> tuple[CutLine, ...]:
    """The cut list in the order of the cuts.

    `sanding` comes off each face that is mitred or bevelled; `gauge` is what is set for tapered staves.
    """
    return tuple(
        _line(lot, _rough(job, lot, classes), sanding(lot), gauge) for lot in sorted(lots, key=_in_order)
    )


def _in_order(lot: Lot) -> tuple[int, float, int]:
    """What slips are slit from, segments as they are listed, then by hand or square, slips, strips between rings: the
    longest first."""
    if lot.piece == "rest" or lot.mitre:
        return int(lot.piece != "rest"), 0.0, lot.number
    return 4 if lot.piece == "ring strip" else 3 if lot.slip else 2, -round(lot.longer, 2), lot.number


def _rough(job: Job, lot: Lot, classes: Sequence[WoodClass]) -> tuple[tuple[float, float], ...]:
    """Of the boards that are taken for a lot; of one to buy where none that can be had would do."""
    boards = [board for of in classes for board in of.boards]
    sawn = {(board.thickness, cut.width) for board in boards for cut in board.strips if cut.lot == lot.number}
    return tuple(sorted(sawn)) or ((rough_thickness(job, lot.thickness), ripped(job, lot)),)


def _line(lot: Lot, rough: tuple[tuple[float, float], ...], sanding: float, gauge: float) -> CutLine:
    """Angles: a strip turned over is cut by a tilted blade, one slid across by two fences."""
    off = 2 * sanding / cos(lot.mitre) if lot.mitre else 0.0
    off_width = 2 * sanding / cos(lot.bevel) if lot.bevel else 0.0
    return CutLine(
        lot=lot.number,
        tilt=lot.mitre if lot.way == "turned over" else lot.bevel,
        gauge=lot.mitre if lot.way == "slid across" else gauge if lot.way == "bevelled" else 0.0,
        sanded=sanding if lot.mitre or lot.bevel else 0.0,
        width=lot.width - off_width,
        longer=lot.longer - off,
        shorter=max(0.0, lot.shorter - off),
        rough=rough,
        each=lot.mean + lot.slant,
        strip=lot.strip_length(lot.wanted),
    )


NOTHING = 0.05  # mm: a shorter end is none


def kept_long(job: Job, lots: Sequence[Lot], classes: Sequence[WoodClass]) -> tuple[KeptLong, ...]:
    """One for each cut of strips that leaves such ends and is held by them: pieces that are themselves long enough to
    hold, and a strip's only piece, ask for none."""
    least, of_number = job.workshop.stock.least_offcut, {lot.number: lot for lot in lots}
    cuts = [(board, strip) for of in classes for board in of.boards for strip in board.strips]
    return tuple(
        _kept(board, strip, of_number[strip.lot], least)
        for board, strip in cuts
        if NOTHING <= strip.left < least and strip.pieces > 1 and of_number[strip.lot].held
    )


def _kept(board: BoardCut, strip: StripCut, lot: Lot, least: float) -> KeptLong:
    """One piece at least is cut: a strip left whole gives nothing."""
    each, most = lot.mean + lot.slant, strip.pieces - 1
    fewer = ceil((least - strip.left) / each - 1e-9)
    length = strip.left + min(fewer, most) * each
    return KeptLong(
        strip.lot, board.count * strip.strips, strip.left, fewer if fewer <= most else None, length
    )
