"""Board after board: the lengths and strips that are worth most for the length that they take."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from geometry.packing.boards import ROUNDING, TINY, Board, Cutting, Ripped, Task, rates
from geometry.plane.edges import FloatArray, IntArray

PARTS = 4  # strips that the pieces left over of one sort are divided into at most
CROSSCUTS = 6  # equal lengths that a board is divided into at most


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
    widths, room = [strips.width for strips in task.strips], board.room + ROUNDING
    everything = math.fsum(map(math.prod, zip(worth, left, strict=True)))
    lengths = np.array(sorted(set(_lengths(task, board, free, left, spare))))
    pieces, strips = _strips(task, board, lengths, left, worth, spare)
    most = _at_most(widths, pieces, strips, left, worth, room)
    taken = np.where(free - lengths - task.kerf >= task.least, lengths, free) + task.kerf
    part = most < everything * (1 - TINY)
    for k in np.lexsort((np.where(part, -most / taken, lengths), part)).tolist():
        if part[k] and most[k] / taken[k] <= best * (1 + TINY):
            break
        columns = zip(worth, left, pieces[:, k].tolist(), strips[:, k].tolist(), strict=True)
        tables = [
            [each * min(count * one, wanted) for count in range(many + 1)]
            for each, wanted, one, many in columns
        ]
        value, across = side_by_side(widths, tables, room)
        if value >= everything * (1 - TINY):
            return float(lengths[k]), across
        if value / taken[k] > best * (1 + TINY):
            best, found = value / float(taken[k]), (float(lengths[k]), across)
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


def _strips(
    task: Task, board: Board, lengths: FloatArray, left: Sequence[int], worth: Sequence[float], spare: bool
) -> tuple[IntArray, IntArray]:
    """For each length of board the pieces of a strip of each sort, and as many such strips side by side as there is
    any use for: (sorts, lengths) each."""
    start, each, least, rest = task.sizes[..., None]
    wanted, side = np.array((left, [board.most(strips) for strips in task.strips]))[..., None]
    able = (np.array(board.fits) & (np.array(worth) > 0.0))[:, None]
    able = able & ((lengths >= board.length - TINY) | (lengths >= least - TINY))
    given = (lengths - rest if spare else lengths) - start + TINY
    pieces = np.where(able, np.maximum(given // each, 0.0), 0.0).astype(np.intp)
    return pieces, np.where(pieces, np.minimum(side, -(-wanted // np.maximum(pieces, 1))), 0)


def _at_most(
    widths: Sequence[float],
    pieces: IntArray,
    strips: IntArray,
    left: Sequence[int],
    worth: Sequence[float],
    room: float,
) -> FloatArray:
    """What no strips side by side in each length are worth more than: parts of strips, the dearest first."""
    width, each, wanted = np.array((widths, worth, left))[..., None]
    dear = each * np.minimum(pieces, wanted) / width
    wide, all_of = width * strips, each * np.minimum(strips * pieces, wanted)
    order = np.argsort(-dear, axis=0, kind="stable"), np.arange(pieces.shape[1])
    dear, wide, all_of = dear[order], wide[order], all_of[order]
    free = np.cumsum(np.vstack((np.full_like(wide[:1], room), -wide[:-1])), axis=0)
    return np.asarray(np.minimum(dear * np.clip(free, 0.0, wide), all_of).sum(axis=0))


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
