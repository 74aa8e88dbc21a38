"""A smooth curve through given points: the natural cubic spline by chord length."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from geometry.plane.edges import SAME_POINT, FloatArray, IntArray, lengths_of
from geometry.records import Record

if TYPE_CHECKING:
    import numpy.typing as npt


class Spline(Record, eq=False):
    """The natural cubic spline through `points` (n, 2), mm: continuous to its second derivative.

    Its parameter is the length of the chords from the first point. The array is copied and made read-only.
    Raises ValueError for fewer than 2 points, one that is not finite, or a neighbour at the same place.
    """

    points: FloatArray

    def __post_init__(self) -> None:
        own = np.array(self.points, dtype=np.float64)
        if own.ndim != 2 or own.shape[1] != 2 or len(own) < 2 or not np.isfinite(own).all():
            raise ValueError(
                f"a smooth curve goes through 2 or more finite points x, y, not an array of shape {own.shape}"
            )
        same = np.flatnonzero(_chords(own) <= SAME_POINT)
        if len(same):
            x, y = own[same[0]]
            raise ValueError(
                f"a smooth curve needs points apart; two follow each other at ({x:.6g}, {y:.6g})"
            )
        own.flags.writeable = False
        object.__setattr__(self, "points", own)

    @cached_property
    def knots(self) -> FloatArray:
        """The parameter at each point, (n,), from 0."""
        return np.concatenate(((0.0,), np.cumsum(_chords(self.points))))

    @cached_property
    def _bends(self) -> FloatArray:
        """The second derivative at each point, (n, 2), 0 at both ends.

        From the continuity of the first derivative (de Boor, A Practical Guide to Splines, ch. IV, from memory).
        """
        steps = np.diff(self.knots)
        slopes = np.diff(self.points, axis=0) / steps[:, None]
        bends = np.zeros_like(self.points)
        bends[1:-1] = _tridiagonal(steps[1:-1], 2.0 * (steps[:-1] + steps[1:]), 6.0 * np.diff(slopes, axis=0))
        return bends

    def at(self, t: npt.ArrayLike) -> FloatArray:
        """The points (m, 2) at the parameters `t` (m,); beyond the ends the last cubic goes on."""
        k, step, before, after = self._place(t)
        m0, m1 = self._bends[k], self._bends[k + 1]
        cubic = (before**3 * m1 + after**3 * m0) / (6.0 * step)
        left, right = self.points[k] - m0 * step**2 / 6.0, self.points[k + 1] - m1 * step**2 / 6.0
        return np.asarray(cubic + (left * after + right * before) / step, dtype=np.float64)

    def derivative(self, t: npt.ArrayLike) -> FloatArray:
        """The derivatives (m, 2) by the parameter at `t` (m,)."""
        k, step, before, after = self._place(t)
        m0, m1 = self._bends[k], self._bends[k + 1]
        slope = (self.points[k + 1] - self.points[k]) / step
        bend = (before**2 * m1 - after**2 * m0) / (2.0 * step) - step * (m1 - m0) / 6.0
        return np.asarray(slope + bend, dtype=np.float64)

    def _place(self, t: npt.ArrayLike) -> tuple[IntArray, FloatArray, FloatArray, FloatArray]:
        """For each parameter its span, and as columns the span's width and the way from and to its ends."""
        at = np.atleast_1d(np.asarray(t, dtype=np.float64))
        k = np.clip(np.searchsorted(self.knots, at, side="right") - 1, 0, len(self.points) - 2)
        start, end = self.knots[k], self.knots[k + 1]
        return k, (end - start)[:, None], (at - start)[:, None], (end - at)[:, None]


def through(points: npt.ArrayLike) -> Spline:
    """The smooth curve through points (n, 2). Raises ValueError for fewer than 2, or repeated neighbours."""
    return Spline(np.asarray(points, dtype=np.float64))


def _tridiagonal(beside: FloatArray, diagonal: FloatArray, right: FloatArray) -> FloatArray:
    """The solution (n, 2) of a symmetric system whose diagonal outweighs what is `beside` it: Thomas' elimination."""
    pivots, values = diagonal.tolist(), right.tolist()
    for k, off in enumerate(beside.tolist()):
        share = off / pivots[k]
        pivots[k + 1] -= share * off
        values[k + 1] = [b - share * a for a, b in zip(values[k], values[k + 1], strict=True)]
    found: list[list[float]] = []
    for pivot, value, off in zip(pivots[::-1], values[::-1], [0.0, *beside.tolist()[::-1]], strict=False):
        above = found[-1] if found else [0.0, 0.0]
        found.append([(b - off * a) / pivot for a, b in zip(above, value, strict=True)])
    return np.array(found[::-1], dtype=np.float64).reshape(-1, 2)


def _chords(points: FloatArray) -> FloatArray:
    return lengths_of(np.diff(points, axis=0))
