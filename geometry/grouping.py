"""Lists of what has the same key, in the order met."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

K = TypeVar("K", bound=Hashable)
T = TypeVar("T")


def gathered(pairs: Iterable[tuple[K, T]]) -> dict[K, list[T]]:
    """The second of each pair under its first."""
    found: dict[K, list[T]] = {}
    for key, item in pairs:
        found.setdefault(key, []).append(item)
    return found


def grouped(items: Iterable[T], key: Callable[[T], K]) -> dict[K, list[T]]:
    """The items under their keys."""
    return gathered((key(item), item) for item in items)
