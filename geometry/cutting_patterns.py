"""Which strips fit side by side on one board. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.arcs import FloatArray

IntArray = NDArray[np.int64]
Column = tuple[int, tuple[int, ...]]  # number of the stock size, strips of each item

ROUNDING = 1e-6  # mm that a board is taken wider, so that widths whose sum fits exactly do fit


@dataclass(frozen=True)
class Ripping:
    """m items from b sizes of stock, every width with the one kerf that it needs.

    The last strip needs none, so that a board has room for its size and one kerf more.
    """

    widths: FloatArray  # (m,)
    demand: IntArray  # (m,)
    room: FloatArray  # (b,)
    cost: FloatArray  # (b,)
    count: IntArray  # (b,) never more than can be wanted
    yields: IntArray  # (b, m) what one strip counts for; 0 where the item does not fit

    @property
    def most(self) -> IntArray:
        """Strips of each item that one board can hold, and that there is any use for: (b, m)."""
        wanted = -(-self.demand // np.maximum(self.yields, 1))
        holds = (self.room[:, None] // self.widths).astype(np.int64)
        return np.asarray(np.where(self.yields > 0, np.minimum(wanted, holds), 0))

    @property
    def strips(self) -> IntArray:
        """Fewest strips of each item, were each to give what the best gives: (m,)."""
        return np.asarray(-(-self.demand // np.maximum(self.yields.max(axis=0, initial=0), 1)))

    def by_area(self) -> float:
        """A cost that no cutting is below: each piece at its strip's share of the board where that is least."""
        with np.errstate(divide="ignore"):
            price = self.cost[:, None] / self.room[:, None] * self.widths / self.yields
        return float(sum(price.min(axis=0)[self.demand > 0] * self.demand[self.demand > 0]))

    def given(self, boards: Sequence[Column]) -> IntArray:
        """Pieces of each item: (m,)."""
        ripped = np.zeros_like(self.yields)
        for number, strips in boards:
            ripped[number] += strips
        return np.asarray(np.sum(ripped * self.yields, axis=0))

    def price(self, boards: Sequence[Column]) -> float:
        """What the boards cost."""
        return float(sum(self.cost[number] for number, _ in boards))

    def in_whole_boards(self, bound: float) -> float:
        """A bound of the cost, raised to whole boards where all cost the same."""
        each = float(self.cost[0])
        return float(np.ceil(bound / each - 1e-6)) * each if np.all(self.cost == each) else bound


def full_patterns(job: Ripping, limit: int) -> list[Column]:
    """Every pattern that leaves no room for a strip that is of use; none where there are more ways than the limit."""
    found: list[Column] = []
    for stock, most in enumerate(job.most):
        ways = _ways(job.widths, most, job.room[stock], limit)
        if ways is None:
            return []
        room = job.room[stock] - ways @ job.widths
        full = ~np.any((room[:, None] >= job.widths) & (ways < most), axis=1)
        found += [(stock, tuple(strips)) for strips in ways[full].tolist()]
    return found


def _ways(widths: FloatArray, most: IntArray, room: float, limit: int) -> IntArray | None:
    """All strips that fit side by side, a row for each way: (n, m). None where n is above the limit."""
    ways = np.zeros((1, widths.size), dtype=np.int64)
    for item, often in enumerate(most):
        ways = np.repeat(ways, often + 1, axis=0)
        ways[:, item] = np.tile(np.arange(often + 1), len(ways) // (often + 1))
        ways = ways[ways @ widths <= room]
        if len(ways) > limit:
            return None
    return ways


def best_pattern(
    widths: FloatArray, values: FloatArray, most: IntArray, room: float, above: float
) -> tuple[float, tuple[int, ...]] | None:
    """The worth and the strips of the most valuable pattern, if it is worth more than `above`.

    Exact, by going through the items and keeping, of all ways to fill part of the room, those that are not
    wider and worth no more than another (dynamic programming over lists: Kellerer, Pferschy, Pisinger,
    Knapsack Problems, 2004, chapter 3), and that could still get above what is found.
    """
    useful = np.flatnonzero((values > 0.0) & (most > 0))
    order = useful[np.argsort(-values[useful] / widths[useful], kind="stable")]
    dearness = np.append(values[order] / widths[order], 0.0)
    used, worth = np.zeros(1), np.zeros(1)
    steps: list[tuple[IntArray, IntArray]] = []
    for item, ahead in zip(order, dearness[1:], strict=True):
        strips = np.arange(most[item] + 1)
        use = (used[:, None] + strips * widths[item]).ravel()
        value = (worth[:, None] + strips * values[item]).ravel()
        fits = use <= room
        hopeful = value + ahead * (room - use) >= max(above, float(value[fits].max()))
        kept = _front(use, value, np.flatnonzero(fits & hopeful))
        if not kept.size:
            return None
        used, worth = use[kept], value[kept]
        steps.append((kept // strips.size, kept % strips.size))
    if worth[-1] <= above:
        return None
    return float(worth[-1]), _traced(steps, order, widths.size)


def _front(use: FloatArray, value: FloatArray, kept: IntArray) -> IntArray:
    """Those that are worth more than any that uses less, by use."""
    by_use = kept[np.lexsort((-value[kept], use[kept]))]
    before = np.maximum.accumulate(np.append(-1.0, value[by_use]))[:-1]
    return by_use[value[by_use] > before]


def _traced(steps: list[tuple[IntArray, IntArray]], order: IntArray, items: int) -> tuple[int, ...]:
    """The strips of the last of the ways kept."""
    found = np.zeros(items, dtype=np.int64)
    place = -1
    for (parents, strips), item in zip(reversed(steps), reversed(order), strict=True):
        found[item] = strips[place]
        place = parents[place]
    return tuple(found.tolist())
