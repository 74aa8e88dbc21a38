"""Which boards are ripped into which strips: for each wood and thickness one packing of strips into boards."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf

from geometry.cutting_patterns import ROUNDING
from geometry.cutting_stock import NotEnough, Pattern, StockSize, first_fit, pack
from jigs.job import Job
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.stock import Shortage, Solver, WoodClass
from jigs.solving.wood.at_hand import MEASURED, TINY, InStock, in_stock
from jigs.solving.wood.kinds import (
    Kind,
    bought_is_long,
    bought_is_wide,
    bought_kind,
    hand_kinds,
    is_bought,
    relaxed,
    ripped,
)
from jigs.solving.wood.rests import rests, settled
from jigs.solving.wood.sawn import board_cuts, sawn_lengths
from jigs.solving.wood.volumes import boards_taken, offcuts, volumes

Stock = Counter[InStock]


@dataclass(frozen=True)
class _Planned:
    """Classes of one wood, and what no board is large enough for."""

    classes: tuple[WoodClass, ...]
    lacking: tuple[Shortage, ...]

    @property
    def cost(self) -> tuple[int, int]:
        return len(self.lacking), sum(_boards_bought(of) for of in self.classes)


def wood_classes(job: Job, lots: Sequence[Lot]) -> tuple[tuple[WoodClass, ...], tuple[Shortage, ...]]:
    """The plan for each wood and planed thickness, and what no board is large enough for."""
    planned = [_wood(job, [lot for lot in lots if lot.species == name]) for name in _woods(lots)]
    classes = [of for wood in planned for of in wood.classes]
    lacking = tuple(short for wood in planned for short in wood.lacking)
    return tuple(sorted(classes, key=lambda of: of.lots)), lacking


def _woods(lots: Sequence[Lot]) -> list[str]:
    return list(dict.fromkeys(lot.species for lot in lots))


def _wood(job: Job, lots: Sequence[Lot]) -> _Planned:
    """Rests of the boards for thicker strips are sawn where that saves boards to buy."""
    alone = _planned(job, lots, with_rests=False)
    if alone.lacking or any(_boards_bought(of) for of in alone.classes[1:]):
        return min(alone, _planned(job, lots, with_rests=True), key=lambda planned: planned.cost)
    return alone


def _planned(job: Job, lots: Sequence[Lot], with_rests: bool) -> _Planned:
    """The thickest choose first: boards that serve them may serve thinner ones too."""
    there, classes, lacking = in_stock(job), list[WoodClass](), list[Shortage]()
    for alike in sorted(_alike(lots), key=lambda alike: -alike[0].thickness):
        found, short = _solve(job, alike, there)
        lacking += short
        if found is not None:
            classes.append(found)
            there.subtract(_used(found))
            there.update(rests(job, found) if with_rests else ())
    return _Planned(tuple(settled(classes)), tuple(lacking))


def _alike(lots: Sequence[Lot]) -> list[list[Lot]]:
    """Lots of one thickness."""
    groups: dict[float, list[Lot]] = {}
    for lot in lots:
        groups.setdefault(round(lot.thickness, 9), []).append(lot)
    return list(groups.values())


def _used(found: WoodClass) -> Stock:
    used: Stock = Counter()
    for taken in found.taken:
        if not taken.bought:
            used[InStock(found.species, taken.thickness, taken.width, taken.length, taken.rest_of)] += (
                taken.count
            )
    return used


def _boards_bought(found: WoodClass) -> int:
    return sum(taken.count for taken in found.taken if taken.bought)


@dataclass(frozen=True)
class _Packed:
    """A packing of lots into lengths of board, and what first fit would do; None where it finds no way."""

    kinds: tuple[Kind, ...]
    patterns: tuple[Pattern, ...]
    greedy: tuple[Pattern, ...] | None
    by: Solver
    bound: float

    def area(self, patterns: Sequence[Pattern]) -> float:
        """Of all lengths that are sawn."""
        return sum(self.kinds[pattern.stock].area * pattern.times for pattern in patterns)


def _solve(job: Job, alike: Sequence[Lot], there: Stock) -> tuple[WoodClass | None, list[Shortage]]:
    """A plan for lots of one wood and thickness, without those that no board is large enough for.

    Lots that only boards at hand are large enough for are left out too, where there are too few of these.
    """
    buyable = [lot for lot in alike if is_bought(job, lot)]
    able = [lot for lot in alike if lot in buyable or hand_kinds(job, [lot], there)]
    for lots in (able, buyable):
        packed = _packed(job, lots, there) if lots else None
        if packed is not None:
            return _class(job, lots, packed), _shortages(job, [lot for lot in alike if lot not in lots])
    return None, _shortages(job, alike)


def _shortages(job: Job, lots: Sequence[Lot]) -> list[Shortage]:
    """What bought boards lack for each: width, length or both."""
    stock, found = job.workshop.stock, list[Shortage]()
    for lot in lots:
        named = (lot.name, lot.rings, lot.species, lot.thickness)
        if not bought_is_wide(job, lot):
            found.append(Shortage(*named, "width", ripped(job, lot) + stock.edge_trim))
        if not bought_is_long(job, lot):
            found.append(Shortage(*named, "length", lot.strip_length(1) + 2 * stock.end_trim))
    return found


def _packed(job: Job, lots: Sequence[Lot], there: Stock) -> _Packed | None:
    """Boards as thick as planed, then all at hand, then bought ones besides: the first that are enough."""
    hand = hand_kinds(job, lots, there)
    near = [kind for kind in hand if kind.thickness <= lots[0].thickness + MEASURED]
    for kinds in filter(None, dict.fromkeys((tuple(near), tuple(hand), (*hand, bought_kind(job, lots))))):
        try:
            return _pack(job, lots, kinds)
        except NotEnough:
            continue
    return None


def _pack(job: Job, lots: Sequence[Lot], kinds: tuple[Kind, ...]) -> _Packed:
    """Bought lengths cost more than all at hand together, so that as few as can be are bought.

    Where first fit is seen to buy the fewest it stands: what is at hand is there. Raises NotEnough.
    """
    hand = sum(kind.area * kind.count for kind in kinds if kind.count is not None)
    least = _least_bought(job, lots, kinds)
    asked = (
        [ripped(job, lot) for lot in lots],
        [lot.wanted for lot in lots],
        job.workshop.saw.kerf,
        [StockSize(k.room, k.area + (hand if k.bought else 0.0), k.count, k.yields) for k in kinds],
    )
    greedy, bound = first_fit(*asked), _by_area(job, lots, kinds)
    if kinds[-1].bought and greedy is not None and _bought(kinds, greedy) <= least:
        whole = 0.0 if hand else least * kinds[-1].area
        return _Packed(kinds, greedy, greedy, "first fit", max(bound, whole))
    packing = pack(*asked)
    plain = not any(kind.ready for kind in kinds) and not (hand and kinds[-1].bought)
    return _Packed(kinds, packing.patterns, greedy, packing.by, max(packing.bound, bound) if plain else bound)


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


def _class(job: Job, lots: Sequence[Lot], packed: _Packed) -> WoodClass:
    sawn = sawn_lengths(lots, packed.kinds, packed.patterns)
    boards, taken = board_cuts(job, lots, sawn), boards_taken(job, sawn)
    left = offcuts(job, lots, boards, taken)
    return WoodClass(
        species=lots[0].species,
        thickness=lots[0].thickness,
        lots=tuple(lot.number for lot in lots),
        taken=taken,
        boards=boards,
        by=packed.by,
        area=sum(length.kind.area for length in sawn),
        first_fit=inf if packed.greedy is None else packed.area(packed.greedy),
        bound=packed.bound,
        offcuts=left,
        volumes=volumes(job, lots, boards, taken, left),
    )
