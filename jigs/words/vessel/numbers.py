"""Ring numbers in sentences."""

from __future__ import annotations

from collections.abc import Sequence


def rings_text(rings: Sequence[int]) -> str:
    """ "ring 4" or "rings 4, 5, 8" """
    numbers = ", ".join(map(str, rings))
    return f"ring {numbers}" if len(rings) == 1 else f"rings {numbers}"
