"""Strips into lengths of board: those at hand first, then as few bought boards as can be."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from geometry.cutting_patterns import ROUNDING
from geometry.cutting_stock import NotEnough, Pattern, StockSize, first_fit, pack
from jigs.job import Job
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.stock import Solver
from jigs.solving.wood.at_hand import MEASURED, TINY, InStock
from jigs.solving.wood.kinds import Kind, bought_kind, bought_kinds, hand_kinds, relaxed, ripped

Stock = Counter[InStock]


@dataclass(frozen=True)
class Packed:
    """A packing of lots into lengths of board, and what first fit would do; None where it finds no way."""

    kinds: tuple[Kind, ...]
    patterns: tuple[Pattern, ...]
    greedy: tuple[Pattern, ...] | None
    by: Solver
    bound: float

    def area(self, patterns: Sequence[Pattern]) -> float:
        """Of all lengths that are sawn."""
        return sum(self.kinds[pattern.stock].area * pattern.times for pattern in patterns)

    @property
    def boards_bought(self) -> int:
        """Whole ones."""
        lengths = _bought(self.kinds, self.patterns)
        return ceil(lengths / self.kinds[-1].lengths) if lengths else 0

    @property
    def hand_area(self) -> float:
        """Of the lengths at hand that are sawn."""
        return self.area([pattern for pattern in self.patterns if not self.kinds[pattern.stock].bought])

    @property
    def rank(self) -> tuple[int, float, float]:
        """Less is better: whole boards bought, then what of that at hand is left, then the area."""
        return self.boards_bought, -round(self.hand_area, 3), self.area(self.patterns)


def packed(job: Job, lots: Sequence[Lot], there: Stock) -> Packed | None:
    """Boards as thick as planed, then all at hand, then bought ones besides: the first that are enough."""
    hand = tuple(hand_kinds(job, lots, there))
    near = tuple(kind for kind in hand if kind.thickness <= lots[0].thickness + MEASURED)
    for kinds in filter(None, dict.fromkeys((near, hand))):
        found = _tried(job, lots, kinds)
        if found is not None:
            return found
    return _with_bought(job, lots, hand)


def _tried(job: Job, lots: Sequence[Lot], kinds: tuple[Kind, ...]) -> Packed | None:
    try:
        return _pack(job, lots, kinds)
    except NotEnough:
        return None


def _with_bought(job: Job, lots: Sequence[Lot], hand: tuple[Kind, ...]) -> Packed | None:
    """With bought boards crosscut as serves all lots best, or in another way where first fit finds that better."""
    best = None
    for way in bought_kinds(job, lots):
        kinds = (*hand, way)
        plain = _by_first_fit(job, lots, kinds) if hand or best is not None else None
        if best is None or (plain is not None and plain.rank < best.rank):
            found = [packing for packing in (plain, _tried(job, lots, kinds), best) if packing is not None]
            best = min(found, key=lambda packing: packing.rank, default=None)
        if best is None or (not hand and best.boards_bought <= _least_boards(job, lots)):
            return best
    return best


def _least_boards(job: Job, lots: Sequence[Lot]) -> int:
    """Whole boards that any plan buys where none is at hand: each piece at its share of a strip as long as they are,
    for shorter strips together give no more."""
    kerf, whole = job.workshop.saw.kerf, bought_kind(job, lots, 1)
    pairs = zip(lots, whole.yields, strict=True)
    across = sum(lot.wanted / each * (ripped(job, lot) + kerf) for lot, each in pairs)
    return ceil(across / (whole.room + kerf + ROUNDING) - TINY)


def spares_at_hand(job: Job, lots: Sequence[Lot], there: Stock) -> int | None:
    """How many spares the boards at hand give on their own, by first fit, beside all pieces of the work: of each lot
    as many as of any other that has so many. None where they do not give the work."""
    own = Counter({board: count for board, count in there.items() if board.rest_of is None})

    def short(spares: int) -> bool:
        fewer = [replace(lot, spares=min(lot.spares, spares)) for lot in lots]
        kinds = tuple(hand_kinds(job, fewer, own))
        return not kinds or _by_first_fit(job, fewer, kinds) is None

    if short(0):
        return None
    most = bisect_left(range(1, max(lot.spares for lot in lots) + 1), True, key=short)
    return sum(min(lot.spares, most) for lot in lots)


def _pack(job: Job, lots: Sequence[Lot], kinds: tuple[Kind, ...]) -> Packed:
    """Where first fit is seen to buy the fewest it stands: what is at hand is there. Raises NotEnough."""
    least, hand = _least_bought(job, lots, kinds), _area_of([kind for kind in kinds if not kind.bought])
    asked = _asked(job, lots, kinds)
    greedy, bound = first_fit(*asked), _by_area(job, lots, kinds)
    if kinds[-1].bought and greedy is not None and _bought(kinds, greedy) <= least:
        whole = 0.0 if hand else least * kinds[-1].area
        return Packed(kinds, greedy, greedy, "first fit", max(bound, whole))
    packing = pack(*asked)
    plain = not any(kind.ready for kind in kinds) and not (hand and kinds[-1].bought)
    return Packed(kinds, packing.patterns, greedy, packing.by, max(packing.bound, bound) if plain else bound)


def _by_first_fit(job: Job, lots: Sequence[Lot], kinds: tuple[Kind, ...]) -> Packed | None:
    try:
        greedy = first_fit(*_asked(job, lots, kinds))
    except NotEnough:
        return None
    return None if greedy is None else Packed(kinds, greedy, greedy, "first fit", _by_area(job, lots, kinds))


def _asked(
    job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]
) -> tuple[list[float], list[int], float, list[StockSize]]:
    """Strips and boards; bought lengths cost more than all at hand together, so that as few as can be are bought."""
    hand = _area_of([kind for kind in kinds if not kind.bought])
    return (
        [ripped(job, lot) for lot in lots],
        [lot.wanted for lot in lots],
        job.workshop.saw.kerf,
        [StockSize(k.room, k.area + (hand if k.bought else 0.0), k.count, k.yields) for k in kinds],
    )


def _area_of(hand: Sequence[Kind]) -> float:
    """Of all lengths that are at hand."""
    return sum(kind.area * (kind.count or 0) for kind in hand)


def _bought(kinds: Sequence[Kind], patterns: Sequence[Pattern]) -> int:
    return sum(pattern.times for pattern in patterns if kinds[pattern.stock].bought)


def _least_bought(job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]) -> int:
    """Lengths that any plan buys: what whole strips take across, and those so wide that no two lie on one board,
    less what is at hand. Raises NotEnough where none can be bought."""
    kerf, hand = job.workshop.saw.kerf, [kind for kind in kinds if not kind.bought]
    strips = [ceil(lot.wanted / max([1, *(kind.yields[k] for kind in kinds)])) for k, lot in enumerate(lots)]
    widths = [ripped(job, lot) + kerf for lot in lots]
    room = max(kind.room for kind in kinds) + kerf
    across = sum(count * width for count, width in zip(strips, widths, strict=True))
    alone = sum(count for count, width in zip(strips, widths, strict=True) if 2 * width > room + TINY)
    across -= sum((kind.room + kerf) * (kind.count or 0) for kind in hand)
    alone -= sum(kind.count or 0 for kind in hand)
    least = max(0, alone, ceil(across / room - TINY))
    if least and len(hand) == len(kinds):
        raise NotEnough(tuple(lot.wanted for lot in lots))
    return least


def _by_area(job: Job, lots: Sequence[Lot], kinds: Sequence[Kind]) -> float:
    """An area that no plan is below, whatever it buys: what all lots take of a board's width, or one lot alone,
    of which only whole strips lie on a board."""
    kerf, loose = job.workshop.saw.kerf, [relaxed(kind, job, lots) for kind in kinds]
    shares, alone = list[float](), list[float]()
    for k, lot in enumerate(lots):
        width, able = ripped(job, lot) + kerf, [kind for kind in loose if kind.yields[k]]
        across = [(kind.room + kerf + ROUNDING) / width for kind in able]
        shares.append(_least_area(lot, k, able, across))
        alone.append(_least_area(lot, k, able, [int(strips) for strips in across]))
    return max(sum(shares), *alone)


def _least_area(lot: Lot, k: int, kinds: Sequence[Kind], across: Sequence[float]) -> float:
    """For lot number `k`, so many of whose strips a board of each kind is wide for: by its pieces where a piece
    takes least, or by its whole strips where a strip does."""
    strips = ceil(lot.wanted / max(kind.yields[k] for kind in kinds))
    shares = [kind.area / wide for kind, wide in zip(kinds, across, strict=True)]
    each = min(share / kind.yields[k] for share, kind in zip(shares, kinds, strict=True))
    return max(lot.wanted * each, strips * min(shares))
