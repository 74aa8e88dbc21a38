"""What a machine does to sizes, from a coupon: measured = own + scale times length, own for outsides and for insides.

A width lost to a cut makes `own` negative for outsides and positive for insides; a shrinking material makes `scale`
less than 1 for both. Common practice: coupons at four sizes or more, outside and inside fitted separately.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.measuring.drawn_size import DrawnSize
from geometry.measuring.estimate import Estimate, agree, mean_of
from geometry.records import Record

Pairs = Sequence[tuple[float, float]]  # nominal, measured; mm
LEAST = 4  # lengths of each sort


class MachineFit(Record):
    """What is not more than the readings' accuracy is left at nothing: own 0, scale 1."""

    outside: Estimate
    inside: Estimate
    scale: Estimate  # less 1
    alike: bool  # whether outsides and insides shrink in the same proportion

    @property
    def size(self) -> DrawnSize:
        """What it does to a size."""
        return DrawnSize(self.outside.value, self.inside.value, 1 + self.scale.value)


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


def fit_line(nominal: Sequence[float], measured: Sequence[float]) -> tuple[float, float]:
    """Return (a, b) of measured = a + b · nominal by least squares; a in mm, b without unit.

    Fit outsides and insides apart: a width lost to the cut makes a negative for outsides and positive for
    insides by the same amount, a shrinking material makes b less than 1 for both. Raises ValueError unless
    there are as many of the one as of the other, two at least, of different nominal lengths, all finite.
    """
    x, y = np.asarray(nominal, dtype=np.float64), np.asarray(measured, dtype=np.float64)
    if x.shape != y.shape or x.ndim != 1 or len(x) < 2:
        raise ValueError(f"a line is fitted to two or more pairs, not to {x.size} and {y.size} lengths")
    if not (np.isfinite(x).all() and np.isfinite(y).all()):
        raise ValueError("the lengths of a coupon must be finite numbers")
    off = x - x.mean()
    spread = float(off @ off)
    if spread <= 1e-12 * max(float(x @ x), 1e-300):
        raise ValueError("a line needs lengths of two sizes or more")
    b = float(off @ (y - y.mean())) / spread
    return float(y.mean() - b * x.mean()), b
