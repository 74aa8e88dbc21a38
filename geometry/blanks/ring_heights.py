"""Which boards to stack: ring heights, from the thicknesses at hand, that fill a vessel's height."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from heapq import heappop, heappush
from math import inf
from typing import NamedTuple

from geometry.records import Record

Wood = Callable[[int, float, float], float]

STEPS = 1000  # in a mm; heights are summed in whole steps
THINNEST = 1.0  # mm; of a board
MANY = 4000  # heights that a stack may reach; where there are more, those within CELL count as one
CELL = 100  # steps
RINGS = 300_000  # that are looked at, about; where there would be more, heights farther apart count as one


class Choice(Record):
    """Ring heights from the bottom up, mm; the last may stand above the total. Wood of all rings, mm³. Tops nearer to
    one another than `within` mm were taken for one in the search; 0 where none were."""

    heights: tuple[float, ...]
    wood: float
    within: float = 0.0

    @property
    def count(self) -> int:
        return len(self.heights)


class _Stack(NamedTuple):
    """Rings so far; `top` in steps."""

    top: int
    wood: float
    heights: tuple[float, ...]


_Rank = Callable[[_Stack], tuple[float, float]]


def fewest_rings(thicknesses: Iterable[float], total: float, wood: Wood, alike: int = 1) -> Choice:
    """The fewest rings that fill `total`; of equal counts the least wood.

    `wood(number, bottom, height)` is the volume of ring `number` (1 at the bottom) standing there, infinite
    where there is no board for it; it is asked once for each place that a stack can reach. From ring `alike`
    on the rings of one place are all alike. Of more than MANY places, those within 0.1 mm count as one, or within more
    where that leaves too many rings to look at (each stack keeps its own exact height): the wood may then be a little
    more than the least. Raises ValueError
    without thicknesses, for one under 1 mm, a total that is not positive, and where no stack is possible.
    """
    return _fill(thicknesses, total, wood, alike, lambda stack: (len(stack.heights), round(stack.wood, 3)))


def least_wood(thicknesses: Iterable[float], total: float, wood: Wood, alike: int = 1) -> Choice:
    """The rings with the least wood that fill `total`; of equals the fewest. Otherwise as `fewest_rings`.

    Wood is compared to a thousandth of a mm³, so that sums in another order still tie.
    """
    return _fill(thicknesses, total, wood, alike, lambda stack: (round(stack.wood, 3), len(stack.heights)))


def _boards(thicknesses: Iterable[float], total: float) -> tuple[dict[int, float], int]:
    """Heights by their size in steps, and the total in steps."""
    boards = {round(height * STEPS): height for height in thicknesses}
    goal = round(total * STEPS)
    if not boards or min(boards) < THINNEST * STEPS or goal < 1:
        raise ValueError(f"a height is filled with boards of {THINNEST:g} mm or more, and is more than 0")
    return boards, goal


def _fill(thicknesses: Iterable[float], total: float, wood: Wood, alike: int, rank: _Rank) -> Choice:
    """The best stack: the best way to each height and ring, the lowest height first."""
    boards, goal = _boards(thicknesses, total)
    fine = max(1, alike * len(boards) * goal // RINGS)
    cell = fine if _heights_reached(boards, goal) <= MANY else max(CELL, fine)
    places, waiting = {(0, 1): _Stack(0, 0.0, ())}, [(0, 1)]
    filled: list[_Stack] = []
    while waiting:
        stack = places.pop(heappop(waiting))
        for grown in _grown(stack, boards, alike, wood):
            place = (grown.top // cell, min(len(grown.heights) + 1, alike))
            if grown.top >= goal:
                filled.append(grown)
            elif place not in places:
                places[place] = grown
                heappush(waiting, place)
            elif rank(grown) < rank(places[place]):
                places[place] = grown
    if not filled:
        raise ValueError("no stack of the boards at hand fills the height")
    best = min(filled, key=rank)
    return Choice(best.heights, best.wood, cell / STEPS if cell > 1 else 0.0)


def _grown(stack: _Stack, boards: dict[int, float], alike: int, wood: Wood) -> Iterable[_Stack]:
    """The stack with one more ring of each height that there is a board for."""
    number = min(len(stack.heights) + 1, alike)
    for steps, height in boards.items():
        volume = wood(number, stack.top / STEPS, height)
        if volume < inf:
            yield _Stack(stack.top + steps, stack.wood + volume, (*stack.heights, height))


def _heights_reached(boards: dict[int, float], goal: int) -> int:
    """How many heights below the goal a stack can end at. Bit k of a whole number stands for k steps."""
    reached, below = 1, (1 << goal) - 1
    for steps in boards:
        while steps < goal:  # any number of this board: none or 1, and none or 2, and none or 4 ...
            reached |= reached << steps & below
            steps *= 2
    return reached.bit_count()
