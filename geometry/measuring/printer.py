"""What a machine does to sizes, from a coupon: measured = own + scale times length, own for outsides and for insides.

A width lost to a cut makes `own` negative for outsides and positive for insides; a shrinking material makes `scale`
less than 1 for both. Method: checkvalues, FDM: coupons at four sizes or more, outside and inside fitted separately.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.measuring.coupon_fit import fit_line
from geometry.measuring.estimate import Estimate, agree, mean_of
from geometry.records import dataclass

Pairs = Sequence[tuple[float, float]]  # nominal, measured; mm
LEAST = 4  # lengths of each sort


@dataclass(frozen=True)
class MachineFit:
    """What is not more than the readings' accuracy is left at nothing: own 0, scale 1."""

    outside: Estimate
    inside: Estimate
    scale: Estimate  # less 1
    alike: bool  # whether outsides and insides shrink in the same proportion

    def error(self, size: float, opening: bool = False) -> float:
        """By how much an outside, or an opening, of this size comes out larger."""
        own = self.inside if opening else self.outside
        return own.value + self.scale.value * size


def fit_machine(outsides: Pairs, insides: Pairs, accuracy: float) -> MachineFit:
    """From lengths of both sorts, each measured within `accuracy`. Raises ValueError for fewer than four of a sort.

    First one scale for both sorts is fitted. Where it is not sure, it is 1, and what is each sort's own is a mean.
    """
    if min(len(outsides), len(insides)) < LEAST:
        raise ValueError(f"{LEAST} outsides and {LEAST} insides are needed")
    (length, off), share = _columns(outsides, insides), len(outsides)
    sort = np.arange(len(length)) >= share
    columns = np.column_stack([~sort, sort, length]).astype(np.float64)
    found, *_ = np.linalg.lstsq(columns, off, rcond=None)
    spread = float(np.abs(off - columns @ found).max())
    cover = np.sqrt(np.diag(np.linalg.inv(columns.T @ columns))) * max(accuracy, spread)
    alike = _alike(outsides, insides, accuracy)
    outside, inside, scale = (Estimate(float(v), float(c)) for v, c in zip(found, cover, strict=True))
    if not scale.sure:
        outside, inside = (mean_of(off[sort == which].tolist(), accuracy) for which in (False, True))
        scale = Estimate(0.0, scale.accuracy)
    return MachineFit(_sure(outside), _sure(inside), scale, alike)


def _columns(outsides: Pairs, insides: Pairs) -> tuple[np.ndarray, np.ndarray]:
    pairs = np.asarray([*outsides, *insides], dtype=np.float64)
    return pairs[:, 0], pairs[:, 1] - pairs[:, 0]


def _sure(estimate: Estimate) -> Estimate:
    return estimate if estimate.sure else Estimate(0.0, estimate.accuracy)


def _alike(outsides: Pairs, insides: Pairs, accuracy: float) -> bool:
    slopes = []
    for pairs in (outsides, insides):
        nominal, measured = zip(*pairs, strict=True)
        x = np.asarray(nominal)
        slopes.append(
            Estimate(fit_line(nominal, measured)[1], accuracy / float(np.linalg.norm(x - x.mean())))
        )
    return agree(*slopes)
