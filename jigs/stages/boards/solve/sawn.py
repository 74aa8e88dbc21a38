"""From a packing to how every length of board is sawn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from geometry.packing.boards import Length, Sawn
from geometry.records import dataclass
from jigs.asked.job import Job
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import BoardCut, StripCut
from jigs.stages.boards.solve.kinds import Kind, ripped

NARROWEST = 20.0  # mm: narrower offcuts are not kept; common practice, no source


@dataclass(frozen=True)
class SawnBoard:
    """One board: its lengths, the longest first, what stays in one piece, and whether it is a strip as it is."""

    kind: Kind
    cut: tuple[Length, ...]
    rest: float
    ready: bool

    @property
    def width(self) -> float:
        """That it counts as."""
        return self.kind.strip_width if self.ready else self.kind.width

    @property
    def lengths(self) -> tuple[float, ...]:
        return tuple(one.length for one in self.cut)


def sawn_boards(kinds: Sequence[Kind], sawn: Sequence[Sawn]) -> tuple[SawnBoard, ...]:
    """Every board, kind by kind."""
    found = list[SawnBoard]()
    for one in sorted(sawn, key=lambda one: one.board):
        kind = kinds[one.board]
        ready = any(not kind.packed.fits[k] for length in one.lengths for k, _ in length.strips)
        lengths = tuple(sorted(one.lengths, key=lambda of: -of.length))
        found.append(SawnBoard(kind, lengths, one.rest, ready))
    return tuple(found)


def is_kept(job: Job, width: float, length: float) -> bool:
    """Whether an offcut is long and wide enough to be held safely another time."""
    return length >= job.workshop.stock.least_offcut and width >= NARROWEST


def board_cuts(job: Job, lots: Sequence[Lot], sawn: Sequence[SawnBoard]) -> tuple[BoardCut, ...]:
    """Lengths sawn alike, counted."""
    alike = Counter((board.kind, board.width, board.ready, one) for board in sawn for one in board.cut)
    return tuple(_board(job, lots, *sort, count) for sort, count in alike.items())


def _board(
    job: Job, lots: Sequence[Lot], kind: Kind, width: float, ready: bool, one: Length, count: int
) -> BoardCut:
    strips = tuple(
        StripCut(
            lot=lots[k].number,
            strips=alike,
            pieces=pieces,
            width=width if ready else ripped(job, lots[k]),
            length=one.length,
            left=lots[k].left_of(one.length, pieces),
        )
        for (k, pieces), alike in Counter(one.strips).items()
    )
    return BoardCut(
        thickness=kind.thickness,
        width=width,
        length=one.length,
        bought=kind.bought,
        ready=ready,
        count=count,
        strips=strips,
        left=0.0 if ready else _left_beside(job, kind.width, strips),
    )


def _left_beside(job: Job, width: float, strips: Sequence[StripCut]) -> float:
    """Width beside the strips once the last of them is ripped off; nothing where that cut takes it all."""
    wide, count = sum(cut.strips * cut.width for cut in strips), sum(cut.strips for cut in strips)
    room = width - job.workshop.stock.edge_trim
    return max(0.0, room - wide - count * job.workshop.saw.kerf)
