"""The cut list: how each lot comes off the saw, and what it is when it is glued."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos

from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import WoodClass
from jigs.stages.boards.plan.whole import CutLine
from jigs.stages.boards.solve.kinds import ripped, rough_thickness


def cut_lines(
    job: Job,
    lots: Iterable[Lot],
    classes: Sequence[WoodClass],
    sanding: float,
    gauge: float,
) -> tuple[CutLine, ...]:
    """The cut list in the order of the cuts.

    `sanding` comes off each face that is mitred or bevelled; `gauge` is what is set for tapered staves.
    """
    return tuple(_line(lot, _rough(job, lot, classes), sanding, gauge) for lot in sorted(lots, key=_in_order))


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
