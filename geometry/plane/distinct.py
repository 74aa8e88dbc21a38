"""Values each once, by sorting: numpy's own loads its masked arrays for it, a thirtieth of a check."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numpy as np

from geometry.plane.edges import BoolArray, IntArray

if TYPE_CHECKING:
    import numpy.typing as npt

Number = TypeVar("Number", bound=np.generic)


def distinct(values: npt.NDArray[Number]) -> npt.NDArray[Number]:
    """The values (k,), each once, rising."""
    rising = np.sort(values, axis=None)
    return rising[_new(rising)]


def numbered(values: npt.NDArray[Number]) -> tuple[npt.NDArray[Number], IntArray]:
    """The same of values (m,), and for each of these which of them it is, (m,)."""
    order = np.argsort(values)
    new = _new(values[order])
    which = np.empty(len(values), dtype=np.intp)
    which[order] = np.cumsum(new) - 1
    return values[order][new], which


def _new(rising: npt.NDArray[Number]) -> BoolArray:
    """Which differ from the one before."""
    return np.concatenate((np.ones(min(1, len(rising)), dtype=np.bool_), rising[1:] != rising[:-1]))
