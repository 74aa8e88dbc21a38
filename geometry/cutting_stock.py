"""Which strips are ripped from which boards, at the least cost: cutting stock in one dimension. Lengths mm."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from geometry.cutting_patterns import ROUNDING, Column, IntArray, Ripping

_MET = 1.0 + 1e-6  # of a bound, by which a cost may be over it and meet it


@dataclass(frozen=True)
class StockSize:
    """Boards of one width, and how many pieces of each item a strip of such a board gives; 0 where none."""

    size: float
    cost: float
    count: int | None  # None: as many as are wanted
    yields: tuple[int, ...]


@dataclass(frozen=True)
class Pattern:
    """Boards that are ripped alike."""

    stock: int  # number of the stock size
    pieces: tuple[int, ...]  # strips of each item from one board
    times: int


@dataclass(frozen=True)
class Packing:
    """What is cut, what it costs, and what it cannot cost less than.

    `bound` is the value of the linear program over all patterns, or what the integer program proves where it
    has them all; in whole boards where all cost the same.
    """

    patterns: tuple[Pattern, ...]
    cost: float
    bound: float
    first_fit: float  # its cost; infinite where it finds no way
    by: Literal["first fit", "integer program"]


class NotEnough(ValueError):
    """The stock does not give the pieces; `short` says how many of each are missing."""

    def __init__(self, short: tuple[int, ...]) -> None:
        super().__init__(f"the stock is short of pieces: {short}")
        self.short = short


def pack(sizes: Sequence[float], demand: Sequence[int], kerf: float, stock: Sequence[StockSize]) -> Packing:
    """Strips of the given sizes from the boards, at least `demand` pieces of each, for little cost.

    First fit, where it meets the bound; else the better of it and an integer program over the patterns of the
    column generation: exact on small jobs, good on large ones. Strips that nobody wants are left on the board.
    Raises NotEnough where an item fits no board, or no way is found to get all pieces from the boards there
    are, and ValueError for a size or cost that is not above 0.
    """
    job = _ripping(sizes, demand, kerf, stock)
    greedy = _first_fit(job)
    boards, bound = _solved(job, greedy)
    _refuse(_missing(boards, demand, stock))
    cost = _cost(boards, stock)
    plain = math.inf if greedy is None else _cost(greedy, stock)
    by: Literal["first fit", "integer program"] = "first fit" if boards is greedy else "integer program"
    return Packing(_patterns(boards), cost, min(bound * _dearest(stock), cost), plain, by)


def first_fit(
    sizes: Sequence[float], demand: Sequence[int], kerf: float, stock: Sequence[StockSize]
) -> tuple[Pattern, ...] | None:
    """First fit decreasing: the widest strips first, each on the first board with room for it.

    A new board is of the first stock size in which there is one left that the strip fits. None where there is
    no such board. Raises NotEnough where an item fits no stock size.
    """
    boards = _first_fit(_ripping(sizes, demand, kerf, stock))
    return None if boards is None else _patterns(boards)


def _ripping(
    sizes: Sequence[float], demand: Sequence[int], kerf: float, stock: Sequence[StockSize]
) -> Ripping:
    """The problem with the kerf in its sizes, and with costs in boards of the dearest."""
    if min((*sizes, *(board.size for board in stock), *(board.cost for board in stock)), default=1.0) <= 0.0:
        raise ValueError("sizes and costs must be above nothing")
    widths, wanted = np.array(sizes, dtype=np.float64) + kerf, np.array(demand, dtype=np.int64)
    room = np.array([board.size for board in stock], dtype=np.float64) + (kerf + ROUNDING)
    yields = _yields(stock, len(sizes))
    yields[widths > room[:, None]] = 0
    _refuse(np.where(yields.any(axis=0), 0, wanted))
    # No strip counts for more than is wanted; and where every strip gives so many pieces or a multiple of it,
    # the demand is raised to one. The same plans meet both, but parts of boards go less far.
    yields = np.minimum(yields, wanted)
    packs = np.maximum(np.gcd.reduce(yields, axis=0), 1)
    wanted, yields = -(-wanted // packs), yields // packs
    enough = int(wanted.sum())
    count = np.array(
        [enough if board.count is None else min(board.count, enough) for board in stock], np.int64
    )
    cost = np.array([board.cost for board in stock], dtype=np.float64) / _dearest(stock)
    return Ripping(widths, wanted, room, cost, count, yields)


def _yields(stock: Sequence[StockSize], items: int) -> IntArray:
    return np.array([board.yields for board in stock], dtype=np.int64).reshape(len(stock), items)


def _dearest(stock: Sequence[StockSize]) -> float:
    return max((board.cost for board in stock), default=1.0)


def _refuse(short: IntArray) -> None:
    if short.any():
        raise NotEnough(tuple(short.tolist()))


def _first_fit(job: Ripping) -> list[Column] | None:
    """A column for each board, in the order in which they are taken."""
    taken: list[tuple[int, list[int]]] = []
    room: list[float] = []
    left, yields = job.count.tolist(), job.yields.tolist()
    for item in np.argsort(-job.widths, kind="stable").tolist():
        pieces, place, width = int(job.demand[item]), 0, float(job.widths[item])
        while pieces > 0:
            # A board that had no room for the last strip of this item has none for the next.
            while place < len(taken) and not (room[place] >= width and yields[taken[place][0]][item]):
                place += 1
            if place == len(taken):
                new = next((b for b, there in enumerate(left) if there and yields[b][item]), None)
                if new is None:
                    return None
                left[new] -= 1
                taken.append((new, [0] * job.widths.size))
                room.append(float(job.room[new]))
            taken[place][1][item] += 1
            room[place] -= width
            pieces -= yields[taken[place][0]][item]
    return [(number, tuple(strips)) for number, strips in taken]


def _solved(job: Ripping, greedy: list[Column] | None) -> tuple[list[Column], float]:
    """First fit's boards where nothing better is found, else better ones; and the bound."""
    if not any(job.demand):
        return [] if greedy is None else greedy, 0.0
    plain = math.inf if greedy is None else job.price(greedy)
    bound = job.in_whole_boards(job.by_area())
    if greedy is not None and plain <= bound * _MET:
        return greedy, bound
    from geometry.cutting_columns import generate, whole_boards  # loads the solver

    columns, least, all_of_use = generate(job, greedy or [])
    bound = max(bound, job.in_whole_boards(least))
    if greedy is not None and plain <= bound * _MET:
        return greedy, bound
    boards, least = whole_boards(job, columns, bound)
    boards = _trimmed(job, boards)
    if all_of_use:
        bound = max(bound, job.in_whole_boards(least))
    better = bool(np.all(job.given(boards) >= job.demand)) and job.price(boards) < plain
    return boards if better or greedy is None else greedy, bound


def _trimmed(job: Ripping, boards: list[Column]) -> list[Column]:
    """The same without the strips that nobody wants, and without boards that are then whole."""
    over = job.given(boards) - job.demand
    kept: list[Column] = []
    for number, strips in boards:
        each = job.yields[number]
        spare = np.minimum(strips, np.maximum(over, 0) // np.maximum(each, 1))
        over = over - spare * each
        if np.any(spare < strips):
            kept.append((number, tuple((np.array(strips) - spare).tolist())))
    return kept


def _missing(boards: Sequence[Column], demand: Sequence[int], stock: Sequence[StockSize]) -> IntArray:
    """Pieces of each item that the boards do not give."""
    left: IntArray = np.array(demand, dtype=np.int64)
    for number, strips in boards:
        left = left - np.array(strips, dtype=np.int64) * np.array(stock[number].yields, dtype=np.int64)
    return np.maximum(left, 0)


def _cost(boards: Sequence[Column], stock: Sequence[StockSize]) -> float:
    return math.fsum(stock[number].cost for number, _ in boards)


def _patterns(boards: Sequence[Column]) -> tuple[Pattern, ...]:
    """By stock size, the widest-filled first."""
    alike = Counter(boards)
    order = sorted(alike, key=lambda column: (column[0], [-strips for strips in column[1]]))
    return tuple(Pattern(stock, strips, alike[stock, strips]) for stock, strips in order)
