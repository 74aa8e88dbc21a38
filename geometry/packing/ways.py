"""Every way to saw a board that is of use, where there are few."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np

from geometry.packing.boards import ROUNDING, Board, Cutting, Ripped, Task

_MOST = 400  # ways that are kept at any step, and lengths that are tried
_RIPPED = 4000  # ways to rip one length

Pieces = tuple[int, ...]
Ways = dict[Pieces, tuple[Ripped, ...]]  # what a board gives, no more than wanted, and its lengths


class _TooMany(Exception):
    """There are more ways than are looked through."""


def all_ways(task: Task) -> list[Cutting] | None:
    """For every board all that give more of something than any other; None where there are too many.

    A length that is longer than its strips need, and than it has to be, may as well be shorter.
    """
    try:
        return [
            (number, lengths)
            for number, board in enumerate(task.boards)
            for lengths in _of_board(task, board)
        ]
    except _TooMany:
        return None


def _of_board(task: Task, board: Board) -> Iterator[tuple[Ripped, ...]]:
    """Ripped, or as the strip that it is."""
    yield from (lengths for lengths in _Board(task, board).filled(board.length).values() if lengths)
    if board.as_strip is not None and not board.fits[board.as_strip]:
        yield ((board.length, tuple(int(k == board.as_strip) for k in range(len(task.strips)))),)


class _Board:
    """The ways to fill one board, by what is free of it."""

    def __init__(self, task: Task, board: Board) -> None:
        self.task, self.board = task, board
        lengths = sorted({board.length, *(_lengths(task, board) if task.crosscut else ())})
        if len(lengths) > _MOST:
            raise _TooMany
        self.ripped = {length: _ripped(task, board, length) for length in lengths}
        self.known: dict[int, Ways] = {}

    def filled(self, free: float) -> Ways:
        """Best first for nothing: each gives more of something than every other."""
        key = round(free / ROUNDING)
        if key not in self.known:
            found: Ways = {(0,) * len(self.task.strips): ()}
            for length, ways in self.ripped.items():
                if length <= free + ROUNDING:
                    self._add(found, ways, free - length - self.task.kerf)
            self.known[key] = _best(found)
            if len(self.known) > _MOST or len(self.known[key]) > _MOST:
                raise _TooMany
        return self.known[key]

    def _add(self, found: Ways, ways: Ways, free: float) -> None:
        for (one, length), (other, more) in itertools.product(ways.items(), self.filled(free).items()):
            given = tuple(min(a + b, s.wanted) for a, b, s in zip(one, other, self.task.strips, strict=True))
            found.setdefault(given, (*length, *more))


def _lengths(task: Task, board: Board) -> Iterator[float]:
    """All that a strip may ask for."""
    for strips in task.strips:
        yield from (
            length
            for pieces in range(1, strips.wanted + 1)
            if (length := strips.length(pieces)) <= board.length
        )
        if 0.0 < strips.least <= board.length:
            yield strips.least


def _ripped(task: Task, board: Board, length: float) -> Ways:
    """What strips side by side on one length give."""
    each = [
        s.pieces(length) if board.fits[k] and task.allowed(board, k, length) else 0
        for k, s in enumerate(task.strips)
    ]
    most = [
        min(board.most(s), -(-s.wanted // given)) if given else 0
        for s, given in zip(task.strips, each, strict=True)
    ]
    if np.prod([count + 1.0 for count in most]) > _RIPPED:
        raise _TooMany
    found: Ways = {}
    for strips in itertools.product(*(range(count + 1) for count in most)):
        wide = sum(n * s.width for n, s in zip(strips, task.strips, strict=True))
        if any(strips) and wide <= board.room + ROUNDING:
            given = tuple(min(n * e, s.wanted) for n, e, s in zip(strips, each, task.strips, strict=True))
            found.setdefault(given, ((length, strips),))
    return _best(found)


def _best(ways: Ways) -> Ways:
    """Without those that another gives as much of everything as."""
    if len(ways) > 20 * _MOST:
        raise _TooMany
    found: Ways = {}
    kept = np.zeros((0, len(next(iter(ways), ()))), dtype=np.int64)
    for row in sorted(ways, key=lambda given: -sum(given)):
        if not np.any(np.all(kept >= row, axis=1)):
            kept = np.vstack((kept, row))
            found[row] = ways[row]
    return found
