"""Boards that strips can be ripped from: at hand, ready as strips, or bought."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil

from geometry.packing.boards import Board
from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.stages.boards.at_hand import MEASURED, TINY, InStock, suits
from jigs.stages.boards.plan import Lot
from jigs.stages.slips.layout import SLIP_SANDED
from jigs.words.lengths import MM_PER_INCH

ROUGH_STEP = {"mm": 0.5, "in": MM_PER_INCH / 16}  # mm: boards are asked for in no finer thicknesses


class Kind(Record):
    """Boards of one size, and as they are packed.

    One that is just as wide as a strip of a lot may also be taken as it is; it then counts as `strip_width` wide.
    Sizes are those that it counts as: what it is a hair under is not known so finely.
    """

    thickness: float
    width: float
    length: float
    source: InStock | None  # None: bought
    packed: Board
    strip_width: float = 0.0

    @property
    def bought(self) -> bool:
        return self.source is None

    def counts_as(self, ready: bool) -> float:
        """Its width, ripped or as the strip that it is."""
        return self.strip_width if ready else self.width


def ripped(job: Job, lot: Lot) -> float:
    """Width of a strip before its edges are planed; a slip is too thin for that, and sanded."""
    if lot.slip and lot.way == "slit":
        return lot.width + SLIP_SANDED
    return lot.width + job.workshop.stock.strip_clean_up


def rough_thickness(job: Job, planed: float) -> float:
    """Of a bought board, at least: as planed and what planing takes, rounded up."""
    step = ROUGH_STEP[job.unit]
    return ceil((planed + job.workshop.stock.planing) / step - TINY) * step


def is_bought(job: Job, lot: Lot) -> bool:
    """Whether a board that can be bought is wide and long enough for a lot."""
    return bought_is_wide(job, lot) and bought_is_long(job, lot)


def bought_is_wide(job: Job, lot: Lot) -> bool:
    """Whether it gives a strip."""
    stock = job.workshop.stock
    return ripped(job, lot) <= stock.bought_width - stock.edge_trim + TINY


def bought_is_long(job: Job, lot: Lot) -> bool:
    """Whether a strip as long gives a piece."""
    return lot.pieces_in(_usable(job, job.workshop.stock.bought_length)) > 0


def bought_kind(job: Job, lots: Sequence[Lot]) -> Kind:
    """Boards that can be bought for these lots, which are of one wood and one thickness."""
    stock = job.workshop.stock
    size = (rough_thickness(job, lots[0].thickness), stock.bought_width, stock.bought_length)
    return _kind(job, lots, size, None, None)


def hand_kinds(job: Job, lots: Sequence[Lot], there: Mapping[InStock, int]) -> list[Kind]:
    """Boards that are there, suit these lots and give any of them, the nearest in thickness first.

    A board at hand that is just as wide as a strip of a lot may be taken as it is.
    """
    lot, found = lots[0], list[Kind]()
    for board, count in there.items():
        if suits(job, board, lot.species, lot.thickness) and count > 0:
            kind = _kind(
                job, lots, (max(board.thickness, lot.thickness), board.width, board.length), board, count
            )
            found.append(_as_strip(job, lots, kind))
    usable = [kind for kind in found if any(kind.packed.fits) or kind.packed.as_strip is not None]
    return sorted(usable, key=lambda kind: (kind.thickness, kind.packed.as_strip is None))


def _kind(
    job: Job,
    lots: Sequence[Lot],
    size: tuple[float, float, float],
    source: InStock | None,
    boards: int | None,
) -> Kind:
    thickness, width, length = size
    room, usable = width - job.workshop.stock.edge_trim, _usable(job, length)
    fits = tuple(ripped(job, lot) <= room + TINY and lot.pieces_in(usable) > 0 for lot in lots)
    cost = float(source is None)  # a board to buy costs 1, those at hand nothing
    board = Board(room + job.workshop.saw.kerf, usable, cost, boards, fits)
    return Kind(thickness, width, length, source, board)


def _as_strip(job: Job, lots: Sequence[Lot], kind: Kind) -> Kind:
    """The board as a strip of the widest lot it is wide enough for, if it is too narrow to be ripped to it."""
    wide = [k for k, lot in enumerate(lots) if lot.width <= kind.width + MEASURED + TINY]
    if not wide:
        return kind
    best = max(wide, key=lambda k: (lots[k].width <= kind.width, lots[k].width))
    width = max(kind.width, lots[best].width)
    if ripped(job, lots[best]) + job.workshop.stock.edge_trim <= width + TINY:
        return kind
    if not lots[best].pieces_in(kind.packed.length):
        return kind
    return replace(kind, packed=replace(kind.packed, as_strip=best), strip_width=width)


def _usable(job: Job, length: float) -> float:
    return length - 2 * job.workshop.stock.end_trim
