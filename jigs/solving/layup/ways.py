"""Ways to the pieces: many from a long stack, square or staggered, or a stack for each; the cheapest first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from geometry.layup import Layup, Stack, most_pieces, square_stack, staggered_stacks
from jigs.checks.layup.jigs import LEAST_ANGLE
from jigs.job_wood import Stacking
from jigs.plan.layup.layup import LayupVolumes, StackKind, StackWay
from jigs.solving.layup.sheets import Sheet, StripSize, Taken, areas, take

SHORT = 300.0  # mm: shorter strips are not held by hand. Common practice, no source
NEARLY = 1.1  # of the least wood: what is worth paying for fewer stacks to glue. Common practice, no source


@dataclass(frozen=True)
class Supply:
    """Where strips come from, and what they lose."""

    hand: tuple[Sheet, ...]
    new: Sheet
    clean_up: float  # planed off a strip's width
    kerf: float

    def size(self, layup: Layup, length: float) -> StripSize:
        """Of a strip as sawn."""
        return StripSize(layup.depth + self.clean_up, length, self.kerf)

    def taken(self, way: StackWay, layup: Layup) -> tuple[Taken, ...]:
        return take(way.strips_in_all, self.size(layup, way.strip_length), self.hand, self.new)


def ways_of(layup: Layup, wanted: int, stacking: Stacking, supply: Supply) -> tuple[StackWay, ...]:
    """The best of each kind, the best of all first.

    Of those whose strips can be held, and that take little more wood than need be, the best is the one that glues
    the fewest stacks.

    A kind not asked for is left out, but that ends are square where the plies run along a side; so is a cut too
    slanted for the sled, where another is not.
    """
    squares = [] if stacking == "staggered" and staggered_stacks(layup, 1) else [square_stack(layup, 1)]
    leaning = [] if stacking == "square" else list(staggered_stacks(layup, 1))
    if any(map(_held, squares + leaning)):
        squares, leaning = list(filter(_held, squares)), list(filter(_held, leaning))
    kinds: list[tuple[StackKind, list[StackWay]]] = [
        ("square", _rows(squares, wanted, supply, "square")),
        ("staggered", _rows(leaning, wanted, supply, "staggered")),
        ("one by one", _singles([*squares, *leaning], wanted, supply)),
    ]
    best = [_best(ways) for _, ways in kinds if ways]
    chosen = _best(best)
    return (chosen, *sorted((way for way in best if way is not chosen), key=_cost))


def _held(stack: Stack) -> bool:
    """Whether the sled holds the stack for its cuts."""
    return stack.layup.cut_angle(stack.cut) >= LEAST_ANGLE


def _singles(stacks: Sequence[Stack], wanted: int, supply: Supply) -> list[StackWay]:
    """A stack for each piece; where the sheet is too short for any, the one that asks for the shortest."""
    fit = [stack for stack in stacks if stack.strip_length <= supply.new.length]
    shortest = min(stacks, key=lambda stack: stack.strip_length)
    return [_way("one by one", stack, wanted, supply) for stack in fit or [shortest]]


def _rows(firsts: Iterable[Stack], wanted: int, supply: Supply, kind: StackKind) -> list[StackWay]:
    """Stacks of two and more pieces; as many in each as share the work evenly."""
    found = []
    for first in firsts:
        most = min(wanted, most_pieces(first, supply.new.length))
        for pieces in sorted({ceil(wanted / stacks) for stacks in range(1, wanted + 1)}):
            if 2 <= pieces <= most:
                found.append(_way(kind, _row(first, pieces), wanted, supply))
    return found


def _row(first: Stack, pieces: int) -> Stack:
    """The stack of one piece, longer by a pitch for each more."""
    length = first.strip_length + (pieces - 1) * first.pitch
    return Stack(first.layup, pieces, first.cut, length, first.foot, first.stagger)


def _best(ways: Sequence[StackWay]) -> StackWay:
    held = [way for way in ways if way.strip_length >= SHORT] or ways
    least = min(way.wood for way in held)
    near = [way for way in held if way.wood <= NEARLY * least]
    return min(near, key=lambda way: (way.stacks, *_cost(way)))


def _cost(way: StackWay) -> tuple[int, float, int]:
    return way.sheets, round(way.wood, 3), way.cuts


def _way(kind: StackKind, stack: Stack, wanted: int, supply: Supply) -> StackWay:
    layup, stacks = stack.layup, ceil(wanted / stack.pieces)
    strips = stacks * layup.strips
    size = supply.size(layup, stack.strip_length)
    taken = take(strips, size, supply.hand, supply.new)
    new = [t for t in taken if t.sheet is supply.new]
    return StackWay(
        kind=kind,
        stacks=stacks,
        pieces=stack.pieces,
        strips=layup.strips,
        strip_length=stack.strip_length,
        stagger=abs(stack.stagger),
        sheets=sum(t.sheets for t in new),
        wood=stacks * stack.area * layup.depth,
        waste=stacks * stack.waste * layup.depth,
        cuts=_strip_cuts(taken, size) + stacks * stack.saw_cuts,
        cut=stack.cut,
        cut_angle=layup.cut_angle(stack.cut),
        slab=stack.slab,
        slab_length=stack.slab_length,
        pitch=stack.pitch,
        foot=stack.foot,
        from_hand=sum(t.sheets * t.strips for t in taken if t.sheet is not supply.new),
    )


def _strip_cuts(taken: Sequence[Taken], size: StripSize) -> int:
    """A cut for each rip, and one for each strip off its length."""
    return sum(t.sheets * (ceil(t.strips / size.each(t.sheet)) + t.strips) for t in taken)


def volumes_of(
    layup: Layup, way: StackWay, pieces: int, spares: int, supply: Supply, taken: Sequence[Taken]
) -> LayupVolumes:
    """Where the wood of the sheets goes."""
    size, thick = supply.size(layup, way.strip_length), layup.sheet
    one = layup.a * layup.b * layup.depth
    kerf, left = 0.0, 0.0
    for part in taken:
        cut, rest = areas(part, size)
        kerf, left = kerf + part.sheets * cut, left + part.sheets * rest
    strips = sum(t.sheets * t.strips for t in taken)
    return LayupVolumes(
        stock=sum(t.sheets * t.sheet.width * t.sheet.length for t in taken) * thick,
        pieces=pieces * one,
        spares=spares * one,
        more=(way.stacks * way.pieces - pieces - spares) * one,
        stacks=way.waste,
        kerf=kerf * thick,
        planed=strips * way.strip_length * supply.clean_up * thick,
        offcuts=left * thick,
    )
