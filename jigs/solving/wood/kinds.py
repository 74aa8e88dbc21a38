"""Lengths of board that strips can be ripped from: at hand, ready as strips, or bought."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, inf

from jigs.job import Job
from jigs.lengths import MM_PER_INCH
from jigs.plan.wood.lots import Lot
from jigs.solving.wood.at_hand import MEASURED, TINY, InStock, suits

MOST_LENGTHS = 6  # that a board is crosscut into
WORTH_IT = 0.95  # of the board, that a further crosscut has to bring it down to
ROUGH_STEP = {"mm": 0.5, "in": MM_PER_INCH / 16}  # mm: boards are asked for in no finer thicknesses


@dataclass(frozen=True)
class Kind:
    """Boards of one size, each crosscut into `lengths`; `room` is the width for strips and the kerfs between.

    `yields` says how many pieces of each lot a strip gives, 0 where none can be ripped. Of a ready strip `room`
    is that of its one lot. Sizes are those that it counts as: what it is a hair under is not known so finely.
    """

    thickness: float
    width: float
    length: float
    source: InStock | None  # None: bought
    boards: int | None  # None: as many as are asked for
    lengths: int
    section: float  # length between trimmed ends, as crosscut
    room: float
    yields: tuple[int, ...]
    ready: bool = False

    @property
    def bought(self) -> bool:
        return self.source is None

    @property
    def area(self) -> float:
        """Of one length, with its share of what is trimmed."""
        return self.width * self.length / self.lengths

    @property
    def count(self) -> int | None:
        """Lengths that can be had."""
        return None if self.boards is None else self.boards * self.lengths


def ripped(job: Job, lot: Lot) -> float:
    """Width of a strip before its edges are planed."""
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
    return lot.pieces_in(_section(job, job.workshop.stock.bought_length, 1)) > 0


def bought_kind(job: Job, lots: Sequence[Lot], lengths: int | None = None) -> Kind:
    """Boards that can be bought for these lots, which are of one wood and one thickness; crosscut as serves all of
    them best, where it is not said into how many lengths."""
    stock = job.workshop.stock
    size = (rough_thickness(job, lots[0].thickness), stock.bought_width, stock.bought_length)
    return _kind(job, lots, size, None, None, lengths)


def bought_kinds(job: Job, lots: Sequence[Lot]) -> Iterator[Kind]:
    """Those, then such boards crosscut in every other way."""
    best = bought_kind(job, lots)
    yield best
    able = [lot for lot, pieces in zip(lots, best.yields, strict=True) if pieces]
    for lengths in _ways(job, able, job.workshop.stock.bought_length):
        if lengths != best.lengths:
            yield bought_kind(job, lots, lengths)


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
    usable = [kind for kind in found if kind.boards and any(kind.yields)]
    return sorted(usable, key=lambda kind: (kind.thickness, not kind.ready))


def _kind(
    job: Job,
    lots: Sequence[Lot],
    size: tuple[float, float, float],
    source: InStock | None,
    boards: int | None,
    lengths: int | None = None,
) -> Kind:
    thickness, width, length = size
    room = width - job.workshop.stock.edge_trim
    fits = [ripped(job, lot) <= room + TINY for lot in lots]
    lengths = lengths or _lengths(job, [lot for lot, fit in zip(lots, fits, strict=True) if fit], length)
    section = _section(job, length, lengths)
    yields = tuple(lot.pieces_in(section) if fit else 0 for lot, fit in zip(lots, fits, strict=True))
    return Kind(thickness, width, length, source, boards, lengths, section, room, yields)


def _ready(job: Job, lots: Sequence[Lot], board: InStock, count: int, wanted: list[int]) -> Kind | None:
    """The board as a strip of the widest lot it is wide enough for, if it is too narrow to be ripped to it.

    Takes what these strips give off `wanted`.
    """
    wide = [k for k, lot in enumerate(lots) if lot.width <= board.width + MEASURED + TINY]
    if not wide:
        return None
    best = max(wide, key=lambda k: (lots[k].width <= board.width, lots[k].width))
    lot, section = lots[best], _section(job, board.length, 1)
    thickness, width = max(board.thickness, lot.thickness), max(board.width, lot.width)
    pieces = lot.pieces_in(section)
    if ripped(job, lot) + job.workshop.stock.edge_trim <= width + TINY or not pieces:
        return None
    boards = min(count, ceil(wanted[best] / pieces))
    wanted[best] -= min(wanted[best], boards * pieces)
    yields = tuple(pieces if k == best else 0 for k in range(len(lots)))
    room = ripped(job, lot)
    return Kind(thickness, width, board.length, board, boards, 1, section, room, yields, ready=True)


def _section(job: Job, length: float, lengths: int) -> float:
    cuts = (lengths - 1) * job.workshop.saw.kerf
    return (length - 2 * job.workshop.stock.end_trim - cuts) / lengths


def _lengths(job: Job, lots: Sequence[Lot], length: float) -> int:
    """Into how many a board is crosscut, so that few pieces of many sizes do not each take a whole length."""
    whole = _section(job, length, 1)
    able = [lot for lot in lots if lot.pieces_in(whole)]
    best, least = 1, inf
    for lengths in _ways(job, able, length):
        section = _section(job, length, lengths)
        taken = length / lengths * _width_taken(job, able, [lot.pieces_in(section) for lot in able])
        if taken < WORTH_IT * least:
            best, least = lengths, taken
    return best


def _ways(job: Job, lots: Sequence[Lot], length: float) -> Iterator[int]:
    """Into how many lengths a board may be crosscut: into none that are too short for a strip of any lot."""
    for lengths in range(1, MOST_LENGTHS + 1):
        section = _section(job, length, lengths)
        if lengths > 1 and not all(_stays_long(job, lot, section) for lot in lots):
            return
        yield lengths


def _stays_long(job: Job, lot: Lot, section: float) -> bool:
    """Whether a strip can be held once its first piece is cut; of pieces that are held themselves, whether it gives
    one."""
    least = job.workshop.stock.least_offcut
    if not lot.held:
        return section >= least and lot.pieces_in(section) > 0
    return lot.left_of(section, 1) >= max(least, lot.held)


def _width_taken(job: Job, lots: Sequence[Lot], yields: Sequence[int]) -> float:
    """Across boards, by all strips with their kerfs."""
    kerf = job.workshop.saw.kerf
    strips = (-(-lot.wanted // each) for lot, each in zip(lots, yields, strict=True))
    return sum(count * (ripped(job, lot) + kerf) for lot, count in zip(lots, strips, strict=True))


def relaxed(kind: Kind, job: Job, lots: Sequence[Lot]) -> Kind:
    """A ready strip as though it gave a strip of any lot, for a bound that no plan is under."""
    if not kind.ready:
        return kind
    room = max(kind.room, kind.width)
    fits = (ripped(job, lot) <= room + TINY for lot in lots)
    yields = tuple(lot.pieces_in(kind.section) if fit else 0 for lot, fit in zip(lots, fits, strict=True))
    return replace(kind, room=room, yields=yields)
