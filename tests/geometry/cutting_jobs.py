"""Small cuttings, random ones, and every way to saw a board, tried one by one."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator
from functools import cache

from geometry.packing.boards import Board, Sawn, Strips, Task

Pieces = tuple[int, ...]


def random_task(seed: int, most: int = 12, sorts: int = 3) -> Task:
    """A few pieces of a few sorts; boards to buy, with some at hand by turns."""
    rng = random.Random(seed)
    kerf = rng.choice([1.5, 2.4, 3.2])
    strips = tuple(
        Strips(
            width=round(rng.uniform(15.0, 70.0), 1) + kerf,
            start=rng.choice([0.0, 20.0, 90.0]),
            each=round(rng.uniform(15.0, 160.0), 1),
            wanted=rng.randint(1, most),
            least=rng.choice([0.0, 0.0, 250.0]),
            spare=rng.choice([0.0, 0.0, 200.0]),
        )
        for _ in range(rng.randint(1, sorts))
    )
    boards = [_board(rng, strips, kerf, rng.randint(1, 3)) for _ in range(rng.choice([0, 0, 1, 2]))]
    bought = _board(rng, strips, kerf, None)
    return Task(strips, (*boards, bought), kerf, rng.choice([0.0, 200.0]))


def _board(rng: random.Random, strips: tuple[Strips, ...], kerf: float, count: int | None) -> Board:
    width, length = rng.choice([80.0, 120.0, 150.0]), rng.choice([300.0, 420.0, 600.0, 900.0])
    fits = tuple(sort.width <= width + kerf and sort.pieces(length) > 0 for sort in strips)
    as_strip = rng.randrange(len(strips)) if count is not None and rng.random() < 0.4 else None
    if as_strip is not None:  # just as wide as one of its strips, and no wider
        width = strips[as_strip].width - kerf - 1.0
        fits = tuple(sort.width <= width + kerf and sort.pieces(length) > 0 for sort in strips)
        as_strip = as_strip if strips[as_strip].pieces(length) else None
    return Board(width + kerf, length, 1.0 if count is None else 0.0, count, fits, as_strip)


def ways(task: Task, board: Board) -> set[Pieces]:
    """What one board may give of each sort, no more than wanted: all lengths in all orders, ripped in all ways.

    A length that is longer than some strip on it needs, and than it has to be, can be shortened to that.
    """
    lengths = {board.length} if not task.crosscut else {board.length, *_lengths(task, board)}
    ripped = {length: _best(_ripped(task, board, length)) for length in lengths}
    none = (0,) * len(task.strips)

    @cache
    def filled(free: float) -> frozenset[Pieces]:
        found = {none}
        for length, given in ripped.items():
            if length <= free + 1e-6:
                after = (
                    filled(round(free - length - task.kerf, 6))
                    if length < board.length
                    else frozenset([none])
                )
                found |= {_sum(task, one, more) for one in given for more in after}
        return frozenset(_best(found))

    found = set(filled(board.length))
    if board.as_strip is not None:
        sort = task.strips[board.as_strip]
        given = min(sort.pieces(board.length), sort.wanted)
        found.add(tuple(given if k == board.as_strip else 0 for k in range(len(task.strips))))
    return _best(found)


def _lengths(task: Task, board: Board) -> Iterator[float]:
    for sort in task.strips:
        for pieces in range(1, sort.wanted + 1):
            length = max(sort.length(pieces), sort.least)
            if length <= board.length:
                yield length
            yield from (other.least for other in task.strips if 0 < other.least <= board.length)


def _ripped(task: Task, board: Board, length: float) -> set[Pieces]:
    """Of one length, all ways to lay strips side by side."""
    able = [
        board.fits[k] and task.allowed(board, k, length) and sort.pieces(length)
        for k, sort in enumerate(task.strips)
    ]
    counts = [
        range(int(board.room / sort.width + 1e-9) + 1 if each else 1)
        for sort, each in zip(task.strips, able, strict=True)
    ]
    found = set[Pieces]()
    for strips in itertools.product(*counts):
        if sum(n * sort.width for n, sort in zip(strips, task.strips, strict=True)) <= board.room + 1e-6:
            found.add(tuple(min(n * e, s.wanted) for n, e, s in zip(strips, able, task.strips, strict=True)))
    return found


def _sum(task: Task, one: Pieces, other: Pieces) -> Pieces:
    return tuple(min(a + b, s.wanted) for a, b, s in zip(one, other, task.strips, strict=True))


def _best(found: set[Pieces]) -> set[Pieces]:
    """Those that no other gives as much as, and more."""
    return {
        one
        for one in found
        if not any(one != o and all(a <= b for a, b in zip(one, o, strict=True)) for o in found)
    }


def fewest_bought(task: Task, most: int = 6) -> float:
    """Boards that cost anything, fewest of them: all at hand first, then one more and one more."""
    reached = {(0,) * len(task.strips)}
    for board in task.boards:
        for _ in range(board.count or 0):
            reached = _best(
                {_sum(task, one, more) for one in reached for more in ways(task, board)} | reached
            )
    wanted = tuple(sort.wanted for sort in task.strips)
    bought = [ways(task, board) for board in task.boards if board.count is None]
    for count in range(most + 1):
        if wanted in reached:
            return count
        reached = _best(
            {_sum(task, one, more) for one in reached for own in bought for more in own} | reached
        )
    return math.inf


def assert_sound(task: Task, sawn: tuple[Sawn, ...]) -> None:
    """Strips and lengths lie on their boards, all pieces are there and none beside, no more boards than there are."""
    given, used = [0] * len(task.strips), [0] * len(task.boards)
    for one in sawn:
        board = task.boards[one.board]
        used[one.board] += 1
        rest = one.rest + (task.kerf if one.rest else 0.0)
        along = sum(length.length for length in one.lengths) + (len(one.lengths) - 1) * task.kerf
        assert along + rest <= board.length + 1e-6
        assert along + rest >= board.length - task.kerf - 1e-6
        assert not one.rest or one.rest >= task.least
        for length in one.lengths:
            assert length.strips
            across = sum(task.strips[sort].width for sort, _ in length.strips)
            as_it_is = len(one.lengths) == len(length.strips) == 1 and length.strips[0][0] == board.as_strip
            assert across <= board.room + 2e-6 or (as_it_is and length.length == board.length)
            for sort, pieces in length.strips:
                assert 0 < pieces <= task.strips[sort].pieces(length.length)
                assert task.allowed(board, sort, length.length)
                given[sort] += pieces
    assert given == [sort.wanted for sort in task.strips]
    assert all(board.count is None or n <= board.count for n, board in zip(used, task.boards, strict=True))
