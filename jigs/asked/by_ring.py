"""Lists that are given by ring, or round a ring."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


def by_ring(given: Sequence[T], number: int) -> T:
    """What a list by ring gives for a ring: its last entry goes on."""
    return given[min(number, len(given)) - 1]


def round_ring(names: Sequence[str], count: int) -> tuple[str, ...]:
    """Names that repeat round a ring."""
    return tuple(names[k % len(names)] for k in range(count))
