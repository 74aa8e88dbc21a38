"""Which is to blame for a wobble, the board or the torus on it: by a dial at equal angles, and half a turn later.

The dial's readings are counted by the spindle's angle, + where the work comes nearer to the dial: outward at the rim,
towards the dial at the face. Turned half round on its board, the torus takes its own error along: v1 = board + torus,
v2 = board - torus, first harmonics as vectors.
"""

from __future__ import annotations

import numpy as np

from geometry.measuring.harmonics import Harmonic, harmonic, without
from geometry.plane.edges import FloatArray
from geometry.records import dataclass


@dataclass(frozen=True)
class Wobble:
    """First harmonics: radial ones are how far off centre, axial ones the rise at the place that was read."""

    whole: Harmonic  # as first read: the tool stands beside the spindle, not beside the board
    board: (
        Harmonic | None
    )  # of the seat in the board; None where neither the torus turned nor the board was read
    torus: Harmonic | None
    roundness: float  # from the least to the greatest, without mean and first harmonic
    accuracy: float  # of an amplitude


def wobble(first: FloatArray, turned: FloatArray | None, own: FloatArray | None, accuracy: float) -> Wobble:
    """`own`, what the dial reads on the board itself, stands for its seat where the torus was not turned.

    Raises ValueError for readings of different counts.
    """
    if any(other is not None and len(other) != len(first) for other in (turned, own)):
        raise ValueError("the readings have different counts")
    whole, board = harmonic(np.asarray(first), 1), None
    if turned is not None:
        board = whole.plus(harmonic(turned, 1)).times(0.5)
    elif own is not None:
        board = harmonic(own, 1)
    torus = whole.plus(board.times(-1)) if board is not None else None
    each = accuracy * (2**0.5 if turned is None and own is not None else 1.0)
    return Wobble(whole, board, torus, float(np.ptp(without(first, 0, 1))), whole.accuracy(each))


def shim(axial: Harmonic) -> float:
    """Under the seat opposite the highest place, as far from the axis as was read; elsewhere in proportion to that."""
    return 2 * axial.amplitude
