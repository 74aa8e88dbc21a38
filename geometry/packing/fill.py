"""Board after board: the lengths and strips that are worth most for the length that they take."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from operator import itemgetter

from geometry.packing.boards import ROUNDING, TINY, Board, Cutting, Ripped, Strips, Task, rates

PARTS = 4  # strips that the pieces left over of one sort are divided into at most
CROSSCUTS = 6  # equal lengths that a board is divided into at most

# A sort, its strips, how many side by side, the rest that is held, pieces wanted, worth of each.
_Able = tuple[int, Strips, int, float, int, float]
# Less the worth of a mm of width, width, sort, pieces of a strip, strips, worth of all.
_Use = tuple[float, float, int, int, int, float]


def worths(task: Task) -> list[float]:
    """Of a piece of each sort: the area that it takes of a board where it takes least."""
    found = [math.inf] * len(task.strips)
    for board in task.boards:
        for k, rate in enumerate(rates(task, board)):
            if rate:
                found[k] = min(found[k], task.strips[k].width / rate)
    return [worth if worth < math.inf else 0.0 for worth in found]


def fill(
    task: Task, worth: Sequence[float], spare: bool, order: Sequence[int]
) -> tuple[list[Cutting], list[int]]:
    """Boards in this order of sizes until all pieces are there, and what is lacking of each sort.

    With `spare` every strip is left long enough to be held again.
    """
    left, cuttings = [strips.wanted for strips in task.strips], list[Cutting]()
    for number in order:
        board = task.boards[number]
        there = math.inf if board.count is None else board.count
        while there > 0 and any(left):
            lengths = cut_board(task, board, left, worth, spare)
            if not lengths:
                break
            cuttings.append((number, lengths))
            there -= 1
    return cuttings, left


def cut_board(
    task: Task, board: Board, left: list[int], worth: Sequence[float], spare: bool
) -> tuple[Ripped, ...]:
    """The lengths of one board, best first, or the board as the strip that it is where that is worth no less; takes
    their pieces off `left`."""
    before = list(left)
    ripped = _ripped(task, board, left, worth, spare)
    sort = board.as_strip
    if sort is None or board.fits[sort]:
        return ripped
    pieces = min(before[sort], _pieces(task, sort, board.length, spare))
    gained = math.fsum((old - new) * each for old, new, each in zip(before, left, worth, strict=True))
    if not pieces or pieces * worth[sort] < gained:
        return ripped
    left[:] = before
    left[sort] -= pieces
    return ((board.length, tuple(int(k == sort) for k in range(len(left)))),)


def _ripped(
    task: Task, board: Board, left: list[int], worth: Sequence[float], spare: bool
) -> tuple[Ripped, ...]:
    free, found = board.length, list[Ripped]()
    while free > TINY and any(left):
        length, strips = _best_length(task, board, free, left, worth, spare)
        if not any(strips):
            break
        found.append((length, strips))
        for k, count in enumerate(strips):
            left[k] -= min(left[k], count * _pieces(task, k, length, spare))
        free -= length + task.kerf
    return tuple(found)


def _best_length(
    task: Task, board: Board, free: float, left: Sequence[int], worth: Sequence[float], spare: bool
) -> tuple[float, tuple[int, ...]]:
    """The shortest length that gives all that is wanted; else that whose strips are worth most for each mm that it
    takes. A rest that cannot be held is taken too."""
    best, found = 0.0, (free, (0,) * len(left))
    widths = [strips.width for strips in task.strips]
    everything = math.fsum(map(math.prod, zip(worth, left, strict=True)))
    tried = list[tuple[bool, float, float, float, list[_Use]]]()
    able = _able(task, board, left, worth, spare)
    for length in set(_lengths(task, board, free, left, spare)):
        uses = _uses(able, length, length >= board.length - TINY)
        over = free - length - task.kerf
        taken = (length if over >= task.least else free) + task.kerf
        most = _at_most(uses, board.room)
        part = most < everything * (1 - TINY)
        tried.append((part, -most / taken if part else length, length, taken, uses))
    for part, most, length, taken, uses in sorted(tried, key=itemgetter(0, 1, 2)):
        if part and -most <= best * (1 + TINY):
            break
        value, strips = side_by_side(widths, _tables(uses, left, worth), board.room + ROUNDING)
        if value >= everything * (1 - TINY):
            return length, strips
        if value / taken > best * (1 + TINY):
            best, found = value / taken, (length, strips)
    return found


def _lengths(task: Task, board: Board, free: float, left: Sequence[int], spare: bool) -> Iterator[float]:
    """All that is free, equal parts of it, and what the pieces left over of each sort ask for in a few strips."""
    yield free
    if not task.crosscut:
        return
    for parts in range(2, CROSSCUTS + 1):
        yield (free - (parts - 1) * task.kerf) / parts
    for k, strips in enumerate(task.strips):
        for parts in range(1, PARTS + 1) if left[k] and board.fits[k] else ():
            long = strips.length(-(-left[k] // parts)) + (strips.spare if spare else 0.0)
            long = task.rounded(max(long, strips.least))
            if long <= free:
                yield long


def _pieces(task: Task, sort: int, length: float, spare: bool) -> int:
    strips = task.strips[sort]
    return strips.pieces(length - strips.spare if spare else length)


def _able(task: Task, board: Board, left: Sequence[int], worth: Sequence[float], spare: bool) -> list[_Able]:
    """Of the sorts that there is any use for, what does not hang on the length."""
    return [
        (k, strips, board.most(strips), strips.spare if spare else 0.0, left[k], worth[k])
        for k, strips in enumerate(task.strips)
        if left[k] and worth[k] and board.fits[k]
    ]


def _uses(able: Iterable[_Able], length: float, whole: bool) -> list[_Use]:
    """As many strips side by side in a length of board as there is any use for, the dearest first."""
    found = list[_Use]()
    for k, strips, side, spare, wanted, each in able:
        if whole or length >= strips.least - TINY:
            pieces = strips.pieces(length - spare)
            if pieces and side:
                most = min(side, -(-wanted // pieces))
                one, all_of = each * min(pieces, wanted), each * min(most * pieces, wanted)
                found.append((-one / strips.width, strips.width, k, pieces, most, all_of))
    found.sort(key=itemgetter(0))
    return found


def _tables(uses: Iterable[_Use], left: Sequence[int], worth: Sequence[float]) -> list[Sequence[float]]:
    """What no strip of each sort is worth, one, two ... side by side."""
    tables: list[Sequence[float]] = [(0.0,)] * len(left)
    for _, _, k, pieces, strips, _ in uses:
        tables[k] = [worth[k] * min(count * pieces, left[k]) for count in range(strips + 1)]
    return tables


def _at_most(uses: Iterable[_Use], room: float) -> float:
    """What no strips side by side are worth more than: parts of strips, the dearest first."""
    free, value = room + ROUNDING, 0.0
    for dear, width, _, _, strips, worth in uses:
        wide = min(free, width * strips)
        value += min(-dear * wide, worth)
        free -= wide
    return value


def side_by_side(
    widths: Sequence[float], tables: Sequence[Sequence[float]], room: float
) -> tuple[float, tuple[int, ...]]:
    """The worth and the strips of each sort that are worth most side by side; `tables` say what 0, 1, 2 ... are worth.

    Exact, by going through the sorts and keeping, of all ways to fill part of the room, those that are not wider and
    worth no more than another (dynamic programming over lists: Kellerer, Pferschy, Pisinger, Knapsack Problems, 2004,
    chapter 3), and that could still come to more than is found. More strips are never worth less, and each further one
    no more than the one before.
    """
    able = [k for k, table in enumerate(tables) if len(table) > 1]
    order = sorted(able, key=lambda k: (-tables[k][1] / widths[k], k))
    dear = [tables[k][1] / widths[k] for k in order] + [0.0]
    sure, free = 0.0, room  # by taking as many of each as there is room for
    for k in order:
        count = min(len(tables[k]) - 1, int(free // widths[k]))
        sure, free = sure + tables[k][count], free - count * widths[k]
    sure *= 1 - TINY
    ways, steps = [(0.0, 0.0)], list[list[tuple[int, int]]]()  # used and worth; of each its parent and strips
    for k, ahead in zip(order, dear[1:], strict=True):
        grown = [
            (use + count * widths[k], -(worth + more), parent, count)
            for parent, (use, worth) in enumerate(ways)
            for count, more in enumerate(tables[k])
            if use + count * widths[k] <= room
        ]
        sure = max(sure, -min([way[1] for way in grown]))
        hopeful = [way for way in grown if -way[1] + ahead * (room - way[0]) >= sure]
        ways, origins, best = [], [], 1.0
        for use, less, parent, count in sorted(hopeful):
            if less < best:
                ways.append((use, -less))
                origins.append((parent, count))
                best = less
        steps.append(origins)
    found, place = [0] * len(tables), -1
    for origins, sort in zip(reversed(steps), reversed(order), strict=True):
        place, found[sort] = origins[place]
    return ways[-1][1], tuple(found)
