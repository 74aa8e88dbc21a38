"""A stack of rings as it was glued: what it still holds of the vessel, at what height."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, inf

import numpy as np

from geometry.blanks.ring_stack import Ring
from geometry.bodies.section import Section

STEP = 0.1  # mm, by which a vessel is tried higher and lower in its stack


def wood_left(section: Section, ring: Ring, low: float, high: float) -> float:
    """Wood left on the finished vessel, outside or inside, whichever is less, in a ring that spans these heights.

    In radii; inside, from the corners of the core. Negative where the vessel comes through.
    """
    needed = section.needs(low, high, 0.0)
    if needed is None:
        return inf
    outside = ring.outer - needed[1]
    corners = ring.core / cos(ring.mitre) if ring.core else 0.0
    return min(outside, needed[0] - corners) if ring.core else outside


def least_left(
    section: Section, rings: Sequence[Ring], tops: Sequence[float], raised: float = 0.0
) -> tuple[float, int]:
    """Least wood left and the ring's number, tops as measured, the vessel `raised` in the stack."""
    bottoms = [rings[0].bottom, *tops[:-1]]
    left = [
        (wood_left(section, ring, low - raised, high - raised), ring.number)
        for ring, low, high in zip(rings, bottoms, tops, strict=True)
    ]
    return min(left)


def best_raise(
    section: Section, rings: Sequence[Ring], tops: Sequence[float], within: tuple[float, float], enough: float
) -> tuple[float, float]:
    """By how much to raise the vessel in its stack, within these bounds, and the wood that this leaves.

    By trying, STEP apart: the least that leaves `enough`, else what leaves most; of equals the smallest.
    """
    low, high = within
    tried = sorted({0.0, *np.arange(low, high, STEP).tolist(), high}, key=abs)
    best = (-inf, 0.0)
    for by in tried:
        if low <= by <= high:
            left = round(least_left(section, rings, tops, by)[0], 6)
            if left >= enough:
                return by, left
            best = max(best, (left, by), key=lambda one: one[0])
    return best[1], best[0]
