"""From a packing to how every length of board is sawn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from geometry.cutting_stock import Pattern
from jigs.job import Job
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.stock import BoardCut, StripCut
from jigs.solving.wood.kinds import Kind, ripped

NARROWEST = 20.0  # mm: narrower offcuts are not kept; common practice, no source


@dataclass(frozen=True)
class Sawn:
    """One length of board: for each strip its lot's index and the pieces cut from it."""

    kind: Kind
    strips: tuple[tuple[int, int], ...]


def sawn_lengths(lots: Sequence[Lot], kinds: Sequence[Kind], patterns: Sequence[Pattern]) -> tuple[Sawn, ...]:
    """Every length, kind by kind. Strips are cut only as far as pieces are wanted; those and lengths of which none is
    stay whole."""
    left, found = [lot.wanted for lot in lots], list[Sawn]()
    for pattern in patterns:
        kind = kinds[pattern.stock]
        for _ in range(pattern.times):
            strips = list[tuple[int, int]]()
            for k, count in enumerate(pattern.pieces):
                for _ in range(count):
                    pieces = min(kind.yields[k], left[k])
                    left[k] -= pieces
                    strips += [(k, pieces)] if pieces else []
            found += [Sawn(kind, tuple(strips))] if strips else []
    return tuple(found)


def is_kept(job: Job, width: float, length: float) -> bool:
    """Whether an offcut is long and wide enough to be held safely another time."""
    return length >= job.workshop.stock.least_offcut and width >= NARROWEST


def board_cuts(job: Job, lots: Sequence[Lot], sawn: Sequence[Sawn]) -> tuple[BoardCut, ...]:
    """Lengths sawn alike, counted."""
    return tuple(_board(job, lots, length, count) for length, count in Counter(sawn).items())


def _board(job: Job, lots: Sequence[Lot], length: Sawn, count: int) -> BoardCut:
    kind = length.kind
    strips = tuple(
        StripCut(
            lot=lots[k].number,
            strips=alike,
            pieces=pieces,
            width=kind.width if kind.ready else ripped(job, lots[k]),
            length=kind.section,
            left=lots[k].left_of(kind.section, pieces),
        )
        for (k, pieces), alike in Counter(length.strips).items()
    )
    return BoardCut(
        thickness=kind.thickness,
        width=kind.width,
        length=kind.section,
        bought=kind.bought,
        ready=kind.ready,
        count=count,
        strips=strips,
        left=0.0 if kind.ready else _left_beside(job, kind.room, strips),
    )


def _left_beside(job: Job, room: float, strips: Sequence[StripCut]) -> float:
    """Width beside the strips once the last of them is ripped off; nothing where that cut takes it all."""
    wide, count = sum(cut.strips * cut.width for cut in strips), sum(cut.strips for cut in strips)
    return max(0.0, room - wide - count * job.workshop.saw.kerf)
