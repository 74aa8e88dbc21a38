"""Which grit takes off how much: each one the scratches of the one before, the first all that is left.

Sizes are the mean grain of P-graded abrasives in mm (FEPA 43, as listed at sizes.com and stusshed.com).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

GRAIN = {80: 0.201, 120: 0.125, 180: 0.082, 240: 0.0585, 320: 0.0462, 400: 0.035}
GRITS = tuple(GRAIN)  # in the order of the work: common practice, no source
SCRATCH = 1 / 4  # of its grain's size, how deep a grit scratches wood: common practice, no source


def removed(allowance: float, grits: Sequence[int] = GRITS) -> dict[int, float]:
    """mm that each grit takes off the radius; they sum to the allowance.

    Coarse grits whose scratches the rest could not take off again are left out; the finest is always there.
    """
    first = next(k for k in range(len(grits)) if k == len(grits) - 1 or after(grits[k:]) <= allowance)
    kept = grits[first:]
    later = {grit: SCRATCH * GRAIN[before] for before, grit in pairwise(kept)}
    return {kept[0]: max(0.0, allowance - sum(later.values())), **later}


def after(grits: Sequence[int]) -> float:
    """mm that all grits behind the first have to take off."""
    return sum(SCRATCH * GRAIN[grit] for grit in grits[:-1])
