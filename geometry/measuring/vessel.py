"""A stack of rings as it was glued: what it still holds of the vessel, at what height."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, inf

import numpy as np

from geometry.blanks.ring_stack import Ring
from geometry.bodies.section import Section

STEP = 0.1  # mm, by which a vessel is tried higher and lower in its stack
FINE = 0.005  # mm, to which wood square to the form is found


def wood_left(section: Section, ring: Ring, low: float, high: float, allowance: float = 0.0) -> float:
    """Wood beyond an allowance all round the finished vessel, outside or inside, whichever is less, in a ring that
    spans these heights.

    The allowance is square to the form, what is beyond it in radii; inside, from the corners of the core. Negative
    where the allowance comes through.
    """
    needed = section.needs(low, high, allowance)
    if needed is None:
        return inf
    outside = ring.outer - needed[1]
    corners = ring.core / cos(ring.mitre) if ring.core else 0.0
    return min(outside, needed[0] - corners) if ring.core else outside


def least_left(
    section: Section,
    rings: Sequence[Ring],
    tops: Sequence[float],
    raised: float = 0.0,
    allowance: float = 0.0,
) -> tuple[float, int]:
    """Least of `wood_left` and the ring's number, tops as measured, the vessel `raised` in the stack."""
    bottoms = [rings[0].bottom, *tops[:-1]]
    left = [
        (wood_left(section, ring, low - raised, high - raised, allowance), ring.number)
        for ring, low, high in zip(rings, bottoms, tops, strict=True)
    ]
    return min(left)


def square_left(section: Section, rings: Sequence[Ring], tops: Sequence[float]) -> tuple[float, int]:
    """The most that may be left all round the finished vessel, square to it, and the ring that ends it.

    A leaning wall has less so than in radii. What is less than nothing is in radii.
    """
    low, at = least_left(section, rings, tops)
    high = low + FINE
    if low > 0.0 and least_left(section, rings, tops, allowance=low)[0] < -FINE:
        low, high = 0.0, low
    while high - low > 1.01 * FINE:
        tried = (low + high) / 2
        left, ring = least_left(section, rings, tops, allowance=tried)
        low, high, at = (tried, high, at) if left >= 0.0 else (low, tried, ring)
    return low, at


def best_raise(
    section: Section, rings: Sequence[Ring], tops: Sequence[float], within: tuple[float, float], enough: float
) -> tuple[float, float]:
    """By how much to raise the vessel in its stack, within these bounds, and the wood that this leaves over `enough`.

    By trying, STEP apart: the least that leaves `enough` all round, else what leaves most; of equals the smallest.
    """
    low, high = within
    tried = sorted({0.0, *np.arange(low, high, STEP).tolist(), high}, key=abs)
    best = (-inf, 0.0)
    for by in tried:
        if low <= by <= high:
            left = round(least_left(section, rings, tops, by, enough)[0], 6)
            if left >= 0.0:
                return by, left
            best = max(best, (left, by), key=lambda one: one[0])
    return best[1], best[0]
