"""Strips that end too short to be held safely, and what would keep them long."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import BoardCut, StripCut, WoodClass
from jigs.stages.boards.plan.whole import KeptLong

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
