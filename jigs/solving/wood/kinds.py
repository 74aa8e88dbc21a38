"""Boards that strips can be ripped from: at hand, ready as strips, or bought."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from jigs.job import Job
from jigs.lengths import MM_PER_INCH
from jigs.plan.wood.lots import Lot
from jigs.solving.wood.at_hand import MEASURED, TINY, InStock, suits

SLIP_SANDED = 0.2  # mm off the sawn face of a slip, on a flat board; common practice, no source
ROUGH_STEP = {"mm": 0.5, "in": MM_PER_INCH / 16}  # mm: boards are asked for in no finer thicknesses


@dataclass(frozen=True)
class Kind:
    """Boards of one size; `room` is the width for strips and the kerfs between.

    `fits` says of which lots strips can be ripped. Of a ready strip `room` is that of its one lot. Sizes are those that
    it counts as: what it is a hair under is not known so finely.
    """

    thickness: float
    width: float
    length: float
    source: InStock | None  # None: bought
    boards: int | None  # None: as many as are asked for
    usable: float  # length between trimmed ends
    room: float
    fits: tuple[bool, ...]
    ready: bool = False

    @property
    def bought(self) -> bool:
        return self.source is None


def ripped(job: Job, lot: Lot) -> float:
    """Width of a strip before its edges are planed; a slip is too thin for that, and sanded."""
    if lot.piece == "spacer" and lot.way == "slit":
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

    Of a board at hand that is just as wide as a strip of a lot, so many as the lot asks for are taken as they are;
    the edges of a rest are not both good.
    """
    lot, found, wanted = lots[0], list[Kind](), [lot.wanted for lot in lots]
    for board, count in there.items():
        if suits(job, board, lot.species, lot.thickness) and count > 0:
            ready = _ready(job, lots, board, count, wanted) if board.rest_of is None else None
            if ready is not None and ready.boards:
                found.append(ready)
                count -= ready.boards
            size = (max(board.thickness, lot.thickness), board.width, board.length)
            found.append(_kind(job, lots, size, board, count))
    usable = [kind for kind in found if kind.boards and any(kind.fits)]
    return sorted(usable, key=lambda kind: (kind.thickness, not kind.ready))


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
    return Kind(thickness, width, length, source, boards, usable, room, fits)


def _ready(job: Job, lots: Sequence[Lot], board: InStock, count: int, wanted: list[int]) -> Kind | None:
    """The board as a strip of the widest lot it is wide enough for, if it is too narrow to be ripped to it.

    Takes what these strips give off `wanted`.
    """
    wide = [k for k, lot in enumerate(lots) if lot.width <= board.width + MEASURED + TINY]
    if not wide:
        return None
    best = max(wide, key=lambda k: (lots[k].width <= board.width, lots[k].width))
    lot, usable = lots[best], _usable(job, board.length)
    thickness, width = max(board.thickness, lot.thickness), max(board.width, lot.width)
    pieces = lot.pieces_in(usable)
    if ripped(job, lot) + job.workshop.stock.edge_trim <= width + TINY or not pieces:
        return None
    boards = min(count, ceil(wanted[best] / pieces))
    wanted[best] -= min(wanted[best], boards * pieces)
    fits = tuple(k == best for k in range(len(lots)))
    return Kind(thickness, width, board.length, board, boards, usable, ripped(job, lot), fits, ready=True)


def _usable(job: Job, length: float) -> float:
    return length - 2 * job.workshop.stock.end_trim


def relaxed(kind: Kind, job: Job, lots: Sequence[Lot]) -> Kind:
    """A ready strip as though strips of any lot could be ripped from it, for a bound that no plan is under."""
    if not kind.ready:
        return kind
    room = max(kind.room, kind.width)
    fits = tuple(ripped(job, lot) <= room + TINY and lot.pieces_in(kind.usable) > 0 for lot in lots)
    return replace(kind, room=room, fits=fits, ready=False)
