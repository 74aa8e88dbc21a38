"""What a machine does to lengths: a constant error and one that grows with the length."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np


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
