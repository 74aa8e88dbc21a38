"""What small errors of the strips between segments come to in a glued ring. Lengths mm, angles radians, all small.

A strip of parallel faces turns nothing: it only parts two segments, square to their joint. So strips that are all
out by as much make a larger or a smaller ring that still closes; one that tapers opens its joint on the thin side.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sin

import numpy as np


def across_flats_off(error: float, segments: int) -> float:
    """How much wider across its flats a ring is whose strips are all `error` too thick: error / sin mu."""
    return error / sin(pi / segments)


def light_in_all(taper: float, segments: int) -> float:
    """Light at one side of a ring, all joints together, where each strip is `taper` thicker at the other side."""
    return segments * taper


def half_step(errors: Sequence[float]) -> float:
    """How far out of one line the two ends of a half ring lie, whose strips have these errors from end to end.

    The ends stay parallel; each error counts by its share along their normal.
    """
    joints = len(errors) + 1
    return float(np.asarray(errors, dtype=np.float64) @ np.cos(pi * np.arange(1, joints) / joints))
