"""Heights round a closed ring above the table: its best plane, the shims that level it, and what scatter is left."""

from __future__ import annotations

from math import tau

import numpy as np

from geometry.measuring.harmonics import harmonic, without
from geometry.plane.edges import FloatArray
from geometry.records import dataclass

LEAST = 8  # heights


@dataclass(frozen=True)
class Levelled:
    """Angles in radians from the first height, the way the heights were counted."""

    tilt: float  # of the plane: from its mean to its highest, mm
    highest: float  # angle
    shims: FloatArray  # under each support
    scatter: FloatArray  # of each height, over the plane
    accuracy: float  # of a shim


def levelled(heights: FloatArray, supports: FloatArray, accuracy: float, out: float = 1.0) -> Levelled:
    """Shims under supports at these angles, as far out as the heights were read, or `out` times as far.

    The lowest place gets the thickest; none is under nothing. Raises ValueError for fewer than eight heights.
    """
    if len(heights) < LEAST:
        raise ValueError(f"{LEAST} heights are needed, at equal angles")
    first = harmonic(heights, 1)
    plane = first.amplitude * np.cos(supports - first.angle) * out
    return Levelled(
        tilt=first.amplitude,
        highest=first.angle % tau,
        shims=plane.max() - plane,
        scatter=without(heights, 0, 1),
        accuracy=first.accuracy(accuracy) * 2 * out,
    )


def three_supports() -> FloatArray:
    """A third of a turn apart, the first at the first height."""
    return np.arange(3) * tau / 3
