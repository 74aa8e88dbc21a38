"""Boards that give all pieces at little cost: board after board, then by an integer program where that may pay."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from geometry.packing.boards import (
    ROUNDING,
    TINY,
    Board,
    Cutting,
    Length,
    NotEnough,
    Ripped,
    Sawn,
    Task,
    area_taken,
    finished,
    least_by_area,
    least_by_room,
    short_ends,
)
from geometry.packing.fill import PARTS, fill, worths
from geometry.records import Record, replace

_TRIES = 32  # further plans, each with other worths of the pieces
REMEMBERED = 64  # tasks: the same one comes up as long as other thicknesses are tried with and without rests
_SLACK = 1e-6  # of a board's cost, within which costs are one

Rank = tuple[float, int, int, float, float]


class CuttingPlan(Record):
    """What is sawn; what it costs, and a cost that no plan is below."""

    sawn: tuple[Sawn, ...]
    cost: float
    bound: float


def rank(task: Task, sawn: Sequence[Sawn]) -> Rank:
    """Less is better: what the boards cost; how many are sawn but for strips as they are or, where some cost something
    anyhow, how many of the others stay whole; strips that end too short to be held; the strips' area; that of
    the boards."""
    boards = [task.boards[one.board] for one in sawn]
    cost = round(math.fsum(board.cost for board in boards), 9)
    free = sum(not board.cost for board in boards)
    lengths = [length for one in sawn for length in one.lengths]
    strips_as_they_are = sum(task.boards[one.board].is_strip(one.lengths) for one in sawn)
    count = -free if cost else len(sawn) - strips_as_they_are
    strips = sum(task.strips[sort].width * length.length for length in lengths for sort, _ in length.strips)
    return cost, count, short_ends(task, sawn), round(strips, 3), area_taken(task, sawn)


@lru_cache(REMEMBERED)
def tried(task: Task) -> tuple[Sawn, ...] | None:
    """A plan by taking board after board: crosscut or not, with strips left long enough to be held and without; None
    where none of these gives all."""
    worth, uncut = worths(task), replace(task, crosscut=False)
    best = _best(
        task,
        (
            fill(one, worth, spare, order)
            for order in _orders(task)
            for one in ((task, uncut) if task.crosscut else (uncut,))
            for spare in (True, False)
        ),
    )
    return best and _best(task, [(_tightened(task, best), ())], best)


def _tightened(task: Task, sawn: Sequence[Sawn]) -> list[Cutting]:
    """The same pieces from each length, made no longer than serves its strips best: of the area of all of them."""
    return [(one.board, tuple(_tight(task, one, length) for length in one.lengths)) for one in sawn]


def _tight(task: Task, one: Sawn, length: Length) -> Ripped:
    board, wanted = task.boards[one.board], Counter[int]()
    for sort, pieces in length.strips:
        wanted[sort] += pieces
    as_it_is = Counter(sort for sort, _ in length.strips)
    best = sum(task.strips[sort].width * count for sort, count in as_it_is.items()) * length.length
    found = length.length, as_it_is
    for long in _shorter(task, board, wanted, length.length):
        each = {sort: task.strips[sort].pieces(long - task.strips[sort].spare) for sort in wanted}
        if all(each.values()) and all(task.allowed(board, sort, long) for sort in wanted):
            count = Counter({sort: -(-pieces // each[sort]) for sort, pieces in wanted.items()})
            wide = sum(task.strips[sort].width * strips for sort, strips in count.items())
            if wide <= board.room + ROUNDING and wide * long < best * (1 - TINY):
                best, found = wide * long, (long, count)
    return found[0], tuple(found[1][sort] for sort in range(len(task.strips)))


def _shorter(task: Task, board: Board, wanted: Mapping[int, int], length: float) -> set[float]:
    """Lengths that some strip of it asks for, in up to a few strips."""
    if not task.crosscut or any(not board.fits[sort] for sort in wanted):
        return set()
    found = set[float]()
    for sort, pieces in wanted.items():
        strips = task.strips[sort]
        for parts in range(1, PARTS + 1):
            found.add(task.rounded(max(strips.length(-(-pieces // parts)) + strips.spare, strips.least)))
    return {long for long in found if long < length}


@lru_cache(REMEMBERED)
def planned(task: Task) -> CuttingPlan:
    """A plan; sought until it is seen to be best, or all ways of seeking are done. Raises NotEnough."""
    best = tried(task)
    bound = _whole(least_by_area(task, [board.cost for board in task.boards]))
    if _cost(task, best) > bound + _SLACK:
        best, bound = _sought(task, best, bound)
    if best is None:
        raise NotEnough("no way is found to get all pieces from the boards there are")
    cost = _cost(task, best)
    return CuttingPlan(best, cost, min(bound, cost))


def _sought(task: Task, best: tuple[Sawn, ...] | None, bound: float) -> tuple[tuple[Sawn, ...] | None, float]:
    bound = max(bound, _whole(least_by_room(task)))
    if _done(task, best, bound):
        return best, bound
    from geometry.packing.columns import least_cost, whole_boards  # loads the solver

    cost = _cost(task, best)
    least = least_cost(task, lambda low: cost <= max(bound, _whole(low)) + _SLACK)
    bound = max(bound, _whole(least.cost))
    if bound > _all_boards(task) + _SLACK:
        return None, bound
    pool: dict[Cutting, None] = {
        (k, ((task.boards[k].length, strips),)): None for k, strips in least.patterns
    }
    for cuttings, left in _tries(task, least.price.tolist()):
        pool.update(dict.fromkeys(cuttings))
        best = _best(task, [(cuttings, left)], best)
        if _done(task, best, bound):
            return best, bound
    if _cost(task, best) > bound + _SLACK:
        found = whole_boards(task, list(pool))
        best = _best(task, [(found, ())] if found else [], best)
    return best, bound


def _done(task: Task, best: tuple[Sawn, ...] | None, bound: float) -> bool:
    """Whether none costs less, and none of its strips ends too short to be held."""
    return _cost(task, best) <= bound + _SLACK and not (best and short_ends(task, best))


def _cost(task: Task, best: tuple[Sawn, ...] | None) -> float:
    return math.inf if best is None else sum(task.boards[one.board].cost for one in best)


def _tries(task: Task, price: Sequence[float]) -> Iterator[tuple[list[Cutting], list[int]]]:
    """Plans by other worths of the pieces: their prices, then the area that each takes, more or less of it at random.

    That did no worse than to raise those on poorly filled boards, over some 560 tasks of 200 random jobs.
    """
    from random import Random  # of most works, the first plan is seen to be the best

    random, orders = Random(0), list(_orders(task))
    worth, first = price, worths(task)
    for number in range(_TRIES):
        yield fill(task, worth, number % 4 == 3, orders[number % len(orders)])
        worth = [each * random.uniform(0.6, 1.5) for each in first]


def _orders(task: Task) -> Iterator[list[int]]:
    """Of the sizes of boards: as they are listed, the smallest first, the largest first; dear ones always last."""
    cheap = [
        k for k, board in enumerate(task.boards) if board.cost <= min(b.cost for b in task.boards) + _SLACK
    ]
    dear = [k for k in range(len(task.boards)) if k not in cheap]
    yield [*cheap, *dear]
    if len(cheap) > 1:
        by_size = sorted(cheap, key=lambda k: task.boards[k].room * task.boards[k].length)
        yield [*by_size, *dear]
        yield [*by_size[::-1], *dear]


def _best(
    task: Task, plans: Iterable[tuple[list[Cutting], Sequence[int]]], best: tuple[Sawn, ...] | None = None
) -> tuple[Sawn, ...] | None:
    """Of those that give all pieces: what each lacks stands beside its boards."""
    whole = (finished(task, cuttings) for cuttings, left in plans if not any(left))
    found = [*([best] if best is not None else []), *whole]
    return min(found, key=lambda plan: rank(task, plan), default=None)


def _all_boards(task: Task) -> float:
    """What all cost that there are."""
    return sum(math.inf if b.count is None else b.cost * b.count for b in task.boards)


def _whole(bound: float) -> float:
    """Costs are whole numbers."""
    return bound if bound == math.inf else math.ceil(bound - _SLACK)
