"""Which boards are ripped into which strips: for each wood and thickness one packing of strips into boards."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.records import dataclass
from jigs.asked.job import Job
from jigs.stages.boards.at_hand import Stock, in_stock, used
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.stock import Shortage, WoodClass
from jigs.stages.boards.solve.kinds import bought_is_long, bought_is_wide, hand_kinds, is_bought, ripped
from jigs.stages.boards.solve.one_piece import one_piece
from jigs.stages.boards.solve.packed import Packed, packed, spares_at_hand
from jigs.stages.boards.solve.rests import rests, settled
from jigs.stages.boards.solve.sawn import board_cuts, sawn_boards
from jigs.stages.boards.solve.volumes import boards_taken, offcuts, volumes


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
    """Rests of the boards for thicker strips are sawn where that saves boards to buy: what is left beside lengths, or
    where boards are not crosscut beside strips."""
    best = _planned(job, lots)
    for crosscut in (True, False):
        if best.lacking or any(_boards_bought(of) for of in best.classes[1:]):
            best = min(best, _planned(job, lots, True, crosscut), key=lambda planned: planned.cost)
    return best


def _planned(job: Job, lots: Sequence[Lot], with_rests: bool = False, crosscut: bool = True) -> _Planned:
    """The thickest choose first: boards that serve them may serve thinner ones too."""
    there, classes, lacking = in_stock(job), list[WoodClass](), list[Shortage]()
    for alike in sorted(_alike(lots), key=lambda alike: -alike[0].thickness):
        found, short = _solve(job, alike, there, crosscut)
        lacking += short
        if found is not None:
            classes.append(found)
            there.subtract(used(found))
            there.update(rests(job, found) if with_rests else ())
    return _Planned(tuple(settled(classes)), tuple(lacking))


def _alike(lots: Sequence[Lot]) -> list[list[Lot]]:
    """Lots of one thickness."""
    groups: dict[float, list[Lot]] = {}
    for lot in lots:
        groups.setdefault(round(lot.thickness, 9), []).append(lot)
    return list(groups.values())


def _boards_bought(found: WoodClass) -> int:
    return sum(taken.count for taken in found.taken if taken.bought)


def _solve(
    job: Job, alike: Sequence[Lot], there: Stock, crosscut: bool
) -> tuple[WoodClass | None, list[Shortage]]:
    """A plan for lots of one wood and thickness, without those that no board is large enough for.

    Lots that only boards at hand are large enough for are left out too, where there are too few of these.
    """
    buyable = [lot for lot in alike if is_bought(job, lot)]
    able = [lot for lot in alike if lot in buyable or hand_kinds(job, [lot], there)]
    for lots in (able, buyable):
        found = packed(job, lots, there, crosscut) if lots else None
        if found is not None:
            return _class(job, lots, found, there), _shortages(job, [lot for lot in alike if lot not in lots])
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


def _class(job: Job, lots: Sequence[Lot], found: Packed, there: Stock) -> WoodClass:
    sawn = sawn_boards(found.kinds, found.sawn)
    boards, taken = board_cuts(job, lots, sawn), boards_taken(sawn)
    left = offcuts(job, lots, boards, taken)
    return WoodClass(
        species=lots[0].species,
        thickness=lots[0].thickness,
        lots=tuple(lot.number for lot in lots),
        taken=taken,
        boards=boards,
        area=sum(board.width * (board.kind.length - board.rest) for board in sawn),
        bound=found.bound,
        least=found.least,
        offcuts=left,
        volumes=volumes(job, lots, boards, taken, left),
        would_do=one_piece(job, lots) if found.bought == 1 else None,
        hand_spares=spares_at_hand(job, lots, there) if found.bought else None,
    )
