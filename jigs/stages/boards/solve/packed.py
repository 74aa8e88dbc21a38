"""Strips into boards: those at hand first, then as few bought boards as can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from geometry.packing.boards import NotEnough, Sawn, Strips, Task, least_by_area
from geometry.packing.plan import planned, tried
from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.stages.boards.at_hand import MEASURED, Stock
from jigs.stages.boards.plan import Lot
from jigs.stages.boards.solve.kinds import Kind, bought_kind, hand_kinds, is_bought, ripped
from jigs.words.lengths import MM_PER_INCH

HAIR = 0.05  # mm: what is left long enough to be held is so by as much
LENGTH_STEP = {
    "mm": 1.0,
    "in": MM_PER_INCH / 16,
}  # mm: boards are crosscut to no finer lengths where nothing asks it


class Packed(Record):
    """How boards are sawn for some lots; `least` boards any plan buys, and `bound` mm2 any plan takes."""

    kinds: tuple[Kind, ...]
    sawn: tuple[Sawn, ...]
    least: int
    bound: float

    @property
    def bought(self) -> int:
        """Whole boards."""
        return sum(self.kinds[one.board].bought for one in self.sawn)

    @property
    def boards(self) -> Iterator[tuple[Kind, bool, Sawn]]:
        """Each board kind by kind, whether it is a strip as it is, and its lengths, the longest first."""
        for one in sorted(self.sawn, key=lambda one: one.board):
            kind, lengths = self.kinds[one.board], sorted(one.lengths, key=lambda of: -of.length)
            yield kind, kind.packed.is_strip(lengths), replace(one, lengths=tuple(lengths))


def packed(job: Job, lots: Sequence[Lot], there: Stock) -> Packed | None:
    """Boards as thick as planed, then all at hand, then bought ones besides: the first that are seen to be enough.

    None where those at hand are too few and none that can be bought gives all of the lots.
    """
    hand = tuple(hand_kinds(job, lots, there))
    near = tuple(kind for kind in hand if kind.thickness <= lots[0].thickness + MEASURED)
    for kinds in filter(None, dict.fromkeys((near, hand))):
        sawn = _at_hand(job, lots, kinds)
        if sawn is not None:
            return Packed(kinds, sawn, 0, _by_area(job, lots, kinds))
    able = all(is_bought(job, lot) or _given(hand, k) for k, lot in enumerate(lots))
    kinds = (*hand, bought_kind(job, lots))
    return _sought(job, lots, kinds) if able else None


def _at_hand(job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]) -> tuple[Sawn, ...] | None:
    """Without seeking far: all boards at hand are sought through with those to buy."""
    given = all(_given(kinds, k) for k in range(len(lots)))
    return tried(_task(job, lots, kinds)) if given else None


def _sought(job: Job, lots: Sequence[Lot], kinds: tuple[Kind, ...]) -> Packed | None:
    try:
        plan = planned(_task(job, lots, kinds))
    except NotEnough:
        return None
    return Packed(kinds, plan.sawn, ceil(plan.bound - 1e-6), _by_area(job, lots, kinds))


def _task(job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]) -> Task:
    return Task(
        strips=tuple(strips_of(job, lot) for lot in lots),
        boards=tuple(kind.packed for kind in kinds),
        kerf=job.workshop.saw.kerf,
        least=job.workshop.stock.least_offcut + HAIR,
        step=LENGTH_STEP[job.unit],
    )


def strips_of(job: Job, lot: Lot) -> Strips:
    """A board is crosscut to no length that is too short for a strip to be held once its first piece is cut; of pieces
    that are held themselves, too short for one."""
    least = job.workshop.stock.least_offcut + HAIR
    return Strips(
        width=ripped(job, lot) + job.workshop.saw.kerf,
        start=lot.strip_length(0),
        each=lot.mean + lot.slant,
        wanted=lot.wanted,
        least=lot.strip_length(1) + (max(0.0, least - lot.held) if lot.held else 0.0),
        spare=max(0.0, least - lot.held) if lot.held else 0.0,
    )


def _by_area(job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]) -> float:
    """An area that no plan is below, whatever it buys: each piece at its least share of a board."""
    areas = [max(kind.width, kind.strip_width) * kind.length for kind in kinds]
    return least_by_area(_task(job, lots, kinds), areas)


def _given(kinds: Sequence[Kind], lot: int) -> bool:
    """Whether any board gives a lot."""
    return any(kind.packed.fits[lot] or kind.packed.as_strip == lot for kind in kinds)
