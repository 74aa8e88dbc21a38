"""Ring numbers as they are lettered."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise


def ring_numbers(rings: Sequence[int]) -> str:
    """ "RING 4", "RINGS 4, 6" or "RINGS 4-7" """
    if len(rings) == 1:
        return f"RING {rings[0]}"
    runs: list[list[int]] = [[rings[0], rings[0]]]
    for a, b in pairwise(rings):
        if b == a + 1:
            runs[-1][1] = b
        else:
            runs.append([b, b])
    return "RINGS " + ", ".join(_run(*run) for run in runs)


def _run(first: int, last: int) -> str:
    if last - first < 2:
        return str(first) if first == last else f"{first}, {last}"
    return f"{first}-{last}"
