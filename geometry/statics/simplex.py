"""How much of each load can be balanced: linear programs of a few rows that differ in one column, all solved at once.

The simplex method in its revised form (Dantzig, Linear Programming and Extensions, 1963, from memory). `k` is the
number of programs, each with an inverse of its own. A solver library takes five times as long for a hundred of them,
and half as long as all of a job's to load.
"""

from __future__ import annotations

from math import inf

import numpy as np

from geometry.plane.arcs import FloatArray, IntArray
from geometry.plane.contour import BoolArray
from geometry.records import dataclass

_EPS = 1e-9  # of columns and amounts whose numbers are about 1 or more: 0
_TIES = 1e-10  # share by which two amounts may differ that are used up together
_STEEPEST = 10  # turns for each row; then Bland's rule (1977), which never goes round in circles
_MOST_TURNS = 50  # for each row
_LACK = -1  # a column that is not there: what a row still lacks


@dataclass(frozen=True)
class Corners:
    """Solutions with as many columns in use as there are rows, none of them below 0."""

    columns: IntArray  # (k, rows): which
    inverse: FloatArray  # (k, rows, rows)
    amounts: FloatArray  # (k, rows)

    @property
    def lack(self) -> float:
        """What is not balanced; no more than a rounding error where all can be."""
        return float(self.amounts[self.columns == _LACK].sum())

    def of(self, which: BoolArray) -> Corners:
        return Corners(self.columns[which], self.inverse[which], self.amounts[which])


def balanced(matrix: FloatArray, right: FloatArray) -> Corners:
    """A solution of matrix @ x = right, or the nearest that was found where there is none; k is 1.

    A search that finds no end lacks too much, never too little.
    """
    rows = len(right)
    signs = np.diag(np.where(right < 0, -1.0, 1.0))
    found = Corners(np.full((1, rows), _LACK), signs[None], np.abs(right)[None])
    for turn in range(_MOST_TURNS * rows):
        lacking = (found.columns == _LACK).astype(np.float64)
        column, gains = _gaining(lacking[:, None] @ found.inverse, matrix, turn)
        if not gains.any():
            break
        found = _with(found, matrix.T[column], column, turn)[0]
    return found


def most_of(matrix: FloatArray, start: Corners, loads: FloatArray, most: float) -> FloatArray:
    """(k,): how much of each load (k, rows) fits beside matrix @ x, the sum unchanged; inf from `most` on.

    What `start` lacks stays lacking. A search that finds no end has found too little, never too much.
    """
    found = np.full(len(loads), inf)
    load, rows = matrix.shape[1], loads.shape[1]
    right = np.linalg.solve(start.inverse[0], np.where(start.columns[0] == _LACK, 0.0, start.amounts[0]))
    asked = np.arange(len(loads))
    corners = Corners(
        np.repeat(start.columns, len(loads), axis=0),
        np.repeat(start.inverse, len(loads), axis=0),
        np.repeat(np.where(start.columns == _LACK, 0.0, start.amounts), len(loads), axis=0),
    )
    column, entering = np.full(len(loads), load), loads
    for turn in range(_MOST_TURNS * rows):
        corners, stopped = _with(corners, entering, column, turn)
        found[asked[~stopped]] = inf
        corners, asked = corners.of(stopped), asked[stopped]
        of_load = corners.inverse[corners.columns == load]
        amount = of_load @ right
        column, gains = _gaining(-of_load[:, None], matrix, turn)
        found[asked] = amount
        on = gains & (amount < most)
        if not on.any():
            break
        corners, column, asked = corners.of(on), column[on], asked[on]
        entering = matrix.T[column]
    return np.where(found < most, found, inf)


def _gaining(prices: FloatArray, matrix: FloatArray, turn: int) -> tuple[IntArray, BoolArray]:
    """The column (k,) of which more makes what is looked for more, or less what lacks; whether there is one."""
    gain = (prices @ matrix)[:, 0]
    least = _EPS * np.maximum(1.0, np.abs(prices[:, 0]).max(axis=1))
    column = np.argmax(gain if _steep(turn, matrix.shape[0]) else gain > least[:, None], axis=1)
    return column, gain[np.arange(len(gain)), column] > least


def _steep(turn: int, rows: int) -> bool:
    return turn < _STEEPEST * rows


def _with(corners: Corners, entering: FloatArray, column: IntArray, turn: int) -> tuple[Corners, BoolArray]:
    """The corners with as much of a column (k, rows) as they take, which is `column` of the matrix.

    And whether anything stops it; where nothing does, the corner is of no use.
    """
    change = (corners.inverse @ entering[:, :, None])[:, :, 0]
    void = (corners.columns == _LACK) & (corners.amounts <= _EPS)  # stays so
    with np.errstate(divide="ignore", invalid="ignore"):
        room = np.where(change > _EPS, corners.amounts / change, inf)
    room[void & (change < -_EPS)] = 0.0
    least = room.min(axis=1, keepdims=True)
    first = np.abs(change) if _steep(turn, room.shape[1]) else -corners.columns.astype(np.float64)
    leaving = np.where(room <= least * (1 + _TIES) + _EPS * _TIES, first, -inf).argmax(axis=1)
    every = np.arange(len(column))
    stopped = least[:, 0] < inf
    taken = np.where(stopped, room[every, leaving], 0.0)
    row = corners.inverse[every, leaving] / np.where(stopped, change[every, leaving], 1.0)[:, None]
    inverse = corners.inverse - change[:, :, None] * row[:, None]
    inverse[every, leaving] = row
    amounts = np.maximum(corners.amounts - taken[:, None] * change, 0.0)
    amounts[every, leaving] = taken
    columns = corners.columns.copy()
    columns[every, leaving] = column
    return Corners(columns, inverse, amounts), stopped
