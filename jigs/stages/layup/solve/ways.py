"""Ways to the pieces: many from a long stack, square or staggered, or a stack for each; the cheapest first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, prod

from geometry.blanks.layup import Layup, Stack, most_pieces, square_stack, staggered_stacks
from geometry.records import Record, replace
from jigs.asked.job_wood import Stacking
from jigs.stages.layup.layout.sled import tail_held
from jigs.stages.layup.plan import LEAST_ANGLE, Against, LayupVolumes, StackKind, StackWay
from jigs.stages.layup.solve.sheets import Sheet, StripSize, Taken, areas, take

SHORT = 300.0  # mm: shorter strips are not held by hand. Common practice, no source
CLEAN = 2.0  # mm cut off each end of a stack, beyond the kerf. Common practice, no source
LEAST_STAGGER = 1.0  # mm: strips are not set back by less while glue slides. Common practice, no source
NEARLY = 1.1  # of the least wood: what is worth paying for fewer stacks to glue. Common practice, no source


class Supply(Record):
    """Where strips come from, and what they lose."""

    hand: tuple[Sheet, ...]
    new: Sheet
    clean_up: float  # planed off a strip's width
    kerf: float
    edge_trim: float  # off one edge of a sheet
    end_trim: float  # off each of its ends
    clear_of_blade: float  # of the hold-down that holds a stack

    def size(self, layup: Layup, length: float) -> StripSize:
        """Of a strip as sawn."""
        return StripSize(layup.depth + self.clean_up, length, self.kerf, self.edge_trim, self.end_trim)

    @property
    def slack(self) -> float:
        """Of a stack at each end, so that its first and its last cut are whole ones."""
        return self.kerf + CLEAN

    @property
    def lengths(self) -> tuple[float, ...]:
        """Of rows of pieces, for sheets of every length that can be had."""
        trims = ((sheet.length, sheet.rest_of is None) for sheet in (self.new, *self.hand))
        lengths = dict.fromkeys(length - 2 * self.end_trim * trimmed for length, trimmed in trims)
        return tuple(length - 2 * self.slack for length in lengths)

    def taken(self, way: StackWay, layup: Layup) -> tuple[Taken, ...]:
        return take(way.strips_in_all, self.size(layup, way.strip_length), self.hand, self.new)


def ways_of(layup: Layup, wanted: int, stacking: Stacking, supply: Supply) -> tuple[StackWay, ...]:
    """The best of each kind, the best of all first.

    Of those whose strips can be held, and that take little more wood than need be, the best is the one that glues
    the fewest stacks; of these the one of fewest sheets, and with square ends before set-back ones.

    A kind not asked for is left out where there is another: ends are square where the plies run along a side or
    nearly so. So is a cut too slanted for the sled.
    """
    settable = [stack for stack in staggered_stacks(layup, 1) if abs(stack.stagger) >= LEAST_STAGGER]
    leaning = [] if stacking == "square" else settable
    squares = [] if stacking == "staggered" and any(map(_held, leaning)) else [square_stack(layup, 1)]
    if any(map(_held, squares + leaning)):
        squares, leaning = list(filter(_held, squares)), list(filter(_held, leaning))
    kinds: list[tuple[StackKind, list[StackWay]]] = [
        ("square", _rows(squares, wanted, supply, "square")),
        ("staggered", _rows(leaning, wanted, supply, "staggered")),
        ("one by one", _singles([*squares, *leaning], wanted, supply)),
    ]
    best = [_best(ways) for _, ways in kinds if ways]
    chosen = _best(best)
    others = [replace(way, against=_against(chosen, way)) for way in best if way is not chosen]
    return (chosen, *sorted(others, key=_cost))


def _against(chosen: StackWay, way: StackWay) -> Against:
    """Why another way is not chosen."""
    if way.strip_length < SHORT <= chosen.strip_length:
        return "short strips"
    if way.stacks > chosen.stacks:
        return "more stacks"
    more = way.sheets > chosen.sheets or way.wood >= chosen.wood
    return "more wood" if more else "set back"


def _held(stack: Stack) -> bool:
    """Whether the sled holds the stack for its cuts."""
    return stack.layup.cut_angle(stack.cut) >= LEAST_ANGLE


def _singles(stacks: Sequence[Stack], wanted: int, supply: Supply) -> list[StackWay]:
    """A stack for each piece; where the sheet is too short for any, the one that asks for the shortest."""
    fit = [stack for stack in stacks if stack.strip_length <= max(supply.lengths)]
    shortest = min(stacks, key=lambda stack: stack.strip_length)
    return [_way("one by one", stack, wanted, supply) for stack in fit or [shortest]]


def _rows(firsts: Iterable[Stack], wanted: int, supply: Supply, kind: StackKind) -> list[StackWay]:
    """Stacks of two and more pieces: as many in each as share the work evenly, or as a sheet's length gives."""
    found = []
    for first in firsts:
        fill = [min(wanted, most_pieces(first, length)) for length in supply.lengths]
        for pieces in sorted({*fill, *(ceil(wanted / stacks) for stacks in range(1, wanted + 1))}):
            if 2 <= pieces <= max(fill):
                found.append(_way(kind, _row(first, pieces), wanted, supply))
    return [way for way in found if way.sheets or way.from_hand >= way.strips_in_all]


def _row(first: Stack, pieces: int) -> Stack:
    """The stack of one piece, longer by a pitch for each more."""
    length = first.strip_length + (pieces - 1) * first.pitch
    return Stack(first.layup, pieces, first.cut, length, first.foot, first.stagger)


def _best(ways: Sequence[StackWay]) -> StackWay:
    """Sheets at hand are there; what has to be made counts before what is used."""
    held = [way for way in ways if way.strip_length >= SHORT] or ways
    made = min(way.made for way in held)
    near = [way for way in held if way.made <= NEARLY * made]
    least = min(way.wood for way in near)
    return min(
        (way for way in near if way.wood <= NEARLY * least),
        key=lambda way: (way.stacks, way.sheets, way.stagger > 0, *_cost(way)),
    )


def _cost(way: StackWay) -> tuple[int, float, int]:
    return way.sheets, round(way.wood, 3), way.cuts


def _way(kind: StackKind, row: Stack, wanted: int, supply: Supply) -> StackWay:
    """With stacks longer than their row of pieces by what is cut off their ends."""
    slack = supply.slack
    stack = replace(row, strip_length=row.strip_length + 2 * slack, foot=row.foot + slack)
    layup, stacks = stack.layup, ceil(wanted / stack.pieces)
    strips, size = stacks * layup.strips, supply.size(layup, stack.strip_length)
    taken = take(strips, size, supply.hand, supply.new)
    new = [t for t in taken if t.sheet is supply.new]
    wood = stacks * stack.area * layup.depth
    return StackWay(
        kind=kind,
        stacks=stacks,
        pieces=stack.pieces,
        strips=layup.strips,
        strip_length=stack.strip_length,
        stagger=abs(stack.stagger),
        sheets=sum(t.sheets for t in new),
        wood=wood,
        made=wood * sum(t.sheets * t.strips for t in new) / strips,
        waste=stacks * stack.waste * layup.depth,
        cuts=_strip_cuts(taken, size) + stacks * stack.saw_cuts,
        cut=stack.cut,
        cut_angle=layup.cut_angle(stack.cut),
        slab=stack.slab,
        slab_length=stack.slab_length,
        pitch=stack.pitch,
        foot=stack.foot,
        from_hand=sum(t.sheets * t.strips for t in taken if t.sheet is not supply.new),
        against=None,
        last=new[-1].strips if new else 0,
        tail=tail_held(layup.cut_angle(stack.cut), layup.kerf, supply.clear_of_blade),
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
    kerf, left, trimmed = 0.0, 0.0, 0.0
    for part in taken:
        cut, rest = areas(part, size)
        kerf, left = kerf + part.sheets * cut, left + part.sheets * rest
        trimmed += part.sheets * (part.sheet.area - prod(size.usable(part.sheet)))
    strips = sum(t.sheets * t.strips for t in taken)
    return LayupVolumes(
        stock=sum(t.sheets * t.sheet.area for t in taken) * thick,
        pieces=pieces * one,
        spares=spares * one,
        more=(way.stacks * way.pieces - pieces - spares) * one,
        stacks=way.waste,
        kerf=kerf * thick,
        trimmed=trimmed * thick,
        planed=strips * way.strip_length * supply.clean_up * thick,
        offcuts=left * thick,
    )
