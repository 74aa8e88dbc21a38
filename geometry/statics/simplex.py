"""How much of each load can be balanced: linear programs of a few rows that differ in one column, all solved at once.

The simplex method in its revised form (Dantzig, Linear Programming and Extensions, 1963, from memory). `k` is the
number of programs, each with an inverse of its own. A solver library takes five times as long for a hundred of them,
and half as long as all of a job's to load.
"""

from __future__ import annotations

from math import inf

import numpy as np

from geometry.plane.edges import BoolArray, FloatArray, IntArray
from geometry.records import Record, cached_property

_EPS = 1e-9  # of columns and amounts whose numbers are about 1 or more: 0
_TIES = 1e-10  # share by which two amounts may differ that are used up together
_STEEPEST = 10  # turns for each row; then Bland's rule (1977), which never goes round in circles
_MOST_TURNS = 50  # for each row
_SURELY = 1e-6  # share by which one strength is more than another for sure
_LACK = -1  # a column that is not there: what a row still lacks


class Columns(Record):
    """What may be used: each column of `firm`, and the sum of any one side of each of `mixed`.

    Of those sums, more than can be listed, the best is that of the best sides (Dantzig and Wolfe, Decomposition
    Principle for Linear Programs, 1960, from memory).
    """

    firm: FloatArray  # (rows, n)
    mixed: FloatArray  # (m, sides, rows)

    @cached_property
    def all(self) -> FloatArray:
        """(rows, n + 1 + m * sides): between them a place for the sum."""
        rows = len(self.firm)
        return np.hstack([self.firm, np.zeros((rows, 1)), self.mixed.reshape(-1, rows).T])

    def best(self, prices: FloatArray, turn: int) -> tuple[IntArray, FloatArray, BoolArray]:
        """Of which (k,) more makes what is looked for more, or what lacks less, n for a sum; its numbers (k, rows);
        whether there is one."""
        rows, count = self.firm.shape
        gain = prices @ self.all
        sides = gain[:, count + 1 :].reshape(len(gain), *self.mixed.shape[:2])
        if len(self.mixed):
            gain[:, count] = sides.max(axis=2).sum(axis=1)
        gain = gain[:, : count + 1]
        least = _EPS * np.maximum(1.0, np.abs(prices).max(axis=1))
        column = np.argmax(gain if _steep(turn, rows) else gain > least[:, None], axis=1)
        entering, mixed = self.all.T[column], column == count
        if np.count_nonzero(mixed):
            best = sides[mixed].argmax(axis=2)
            entering[mixed] = self.mixed[np.arange(len(self.mixed)), best].sum(axis=1)
        return column, entering, gain[np.arange(len(gain)), column] > least


class Corners(Record):
    """Solutions with as many columns in use as there are rows, none of them below 0."""

    columns: IntArray  # (k, rows): which
    table: FloatArray  # (k, rows, rows + 1): their inverse, and their amounts

    @property
    def inverse(self) -> FloatArray:
        return self.table[:, :, :-1]

    @property
    def amounts(self) -> FloatArray:
        return self.table[:, :, -1]

    @property
    def lack(self) -> float:
        """What is not balanced; no more than a rounding error where all can be."""
        return float(self.amounts[self.columns == _LACK].sum())

    def of(self, which: BoolArray) -> Corners:
        return Corners(self.columns[which], self.table[which])

    def for_each(self, count: int) -> Corners:
        """The one of them so many times, what it lacks as if it were there."""
        found = Corners(np.repeat(self.columns, count, axis=0), np.repeat(self.table, count, axis=0))
        found.amounts[found.columns == _LACK] = 0.0
        return found


def balanced(columns: Columns, right: FloatArray) -> Corners:
    """A sum of columns that is `right`, or the nearest that was found where there is none; k is 1.

    A search that finds no end lacks too much, never too little.
    """
    rows = len(right)
    signs = np.diag(np.where(right < 0, -1.0, 1.0))
    found = Corners(np.full((1, rows), _LACK), np.hstack([signs, np.abs(right)[:, None]])[None])
    for turn in range(_MOST_TURNS * rows):
        lacking = (found.columns == _LACK).astype(np.float64)
        column, entering, gains = columns.best((lacking[:, None] @ found.inverse)[:, 0], turn)
        if not np.count_nonzero(gains):
            break
        found = _with(found, entering, column, turn)[0]
    return found


def most_of(columns: Columns, start: Corners, loads: FloatArray, most: float) -> FloatArray:
    """(k,): how much of each load (k, rows) fits beside the columns, the sum unchanged; inf from `most` on.

    The least of them is exact; of the others only that it is no less, since what would balance one load to the end
    says of every other how much of it at most is balanced. What `start` lacks stays lacking. A search that finds no
    end has found too little, never too much.
    """
    found, least = np.full(len(loads), inf), most
    load, rows = columns.all.shape[1], loads.shape[1]
    asked, corners = np.arange(len(loads)), start.for_each(len(loads))
    right = np.linalg.solve(corners.inverse[0], corners.amounts[0])
    column, entering = np.full(len(loads), load), loads
    for turn in range(_MOST_TURNS * rows):
        corners, stopped = _with(corners, entering, column, turn)
        found[asked[~stopped]], asked = inf, asked[stopped]
        prices = corners.inverse[corners.columns == load]
        amount = prices @ right
        column, entering, gains = columns.best(-prices, turn)
        found[asked] = amount
        if not _all(gains):
            of_all = prices[~gains] @ loads.T
            some = np.divide(
                amount[~gains, None], of_all, out=np.full(of_all.shape, inf), where=of_all > _EPS
            )
            least = min(least, float(some.min()))
        on = gains & (amount <= least * (1 + _SURELY))
        if not np.count_nonzero(on):
            break
        if not _all(on):
            corners, column, entering, asked = corners.of(on), column[on], entering[on], asked[on]
    return np.where(found < most, found, inf)


def _all(which: BoolArray) -> bool:
    """Of few, counting takes a fifth of the time of `all`."""
    return bool(np.count_nonzero(which) == len(which))


def _steep(turn: int, rows: int) -> bool:
    return turn < _STEEPEST * rows


def _with(corners: Corners, entering: FloatArray, column: IntArray, turn: int) -> tuple[Corners, BoolArray]:
    """The corners with as much of a column (k, rows) as they take, whose number is `column`, and whether anything
    stops it: the corners are those where something does, made out of the given ones."""
    change = (corners.inverse @ entering[:, :, None])[:, :, 0]
    room = np.divide(corners.amounts, change, out=np.full(change.shape, inf), where=change > _EPS)
    lacking = corners.columns == _LACK
    if np.count_nonzero(lacking):  # what lacks no more stays so
        room[lacking & (corners.amounts <= _EPS) & (change < -_EPS)] = 0.0
    least = room.min(axis=1)
    stopped = least < inf
    if not _all(stopped):
        corners, column, least = corners.of(stopped), column[stopped], least[stopped]
        change, room = change[stopped], room[stopped]
    first = np.abs(change) if _steep(turn, room.shape[1]) else -corners.columns.astype(np.float64)
    leaving = np.where(room <= least[:, None] * (1 + _TIES) + _EPS * _TIES, first, -inf).argmax(axis=1)
    every = np.arange(len(column))
    row = corners.table[every, leaving] / change[every, leaving, None]
    row[:, -1] = room[every, leaving]
    table = corners.table
    table -= change[:, :, None] * row[:, None]
    table[every, leaving] = row
    np.maximum(corners.amounts, 0.0, out=corners.amounts)
    corners.columns[every, leaving] = column
    return corners, stopped
