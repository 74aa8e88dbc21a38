"""Readings round a circle taken apart: mean, first harmonic, what is left; a ring levelled, a wobble blamed."""

from __future__ import annotations

from math import atan2, cos, hypot, sin, sqrt, tau

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record


class Harmonic(Record):
    """amplitude cos(k (angle - at)), of `count` readings."""

    cosine: float
    sine: float
    order: int
    count: int

    @property
    def amplitude(self) -> float:
        return hypot(self.cosine, self.sine)

    @property
    def angle(self) -> float:
        """Where it is highest (the first such place), radians."""
        return atan2(self.sine, self.cosine) / self.order

    def accuracy(self, of_reading: float) -> float:
        """Of its amplitude, from that of each reading: sqrt(2/n) times."""
        return of_reading * sqrt(2 / self.count)

    def plus(self, other: Harmonic) -> Harmonic:
        return Harmonic(self.cosine + other.cosine, self.sine + other.sine, self.order, self.count)

    def times(self, factor: float) -> Harmonic:
        return Harmonic(factor * self.cosine, factor * self.sine, self.order, self.count)


def harmonic(readings: FloatArray, order: int) -> Harmonic:
    """Of readings (n,) at equal angles from 0. Raises ValueError where so few cannot tell it from another."""
    count = len(readings)
    if not 0 < 2 * order < count:
        raise ValueError(f"{count} readings do not show harmonic {order}")
    turn = np.arange(count) * 2 * np.pi / count * order
    return Harmonic(
        float(2 / count * readings @ np.cos(turn)), float(2 / count * readings @ np.sin(turn)), order, count
    )


def without(readings: FloatArray, *orders: int) -> FloatArray:
    """The readings with their mean (order 0) or harmonics taken off."""
    left = np.array(readings, dtype=np.float64)
    turn = np.arange(len(left)) * 2 * np.pi / len(left)
    for order in orders:
        if order == 0:
            left -= np.mean(readings)
        else:
            found = harmonic(readings, order)
            left -= found.amplitude * np.cos(order * (turn - found.angle))
    return left


def at(found: Harmonic, angle: float) -> float:
    """Its value at an angle."""
    return found.cosine * cos(found.order * angle) + found.sine * sin(found.order * angle)


LEAST = 8  # heights


class Levelled(Record):
    """Angles in radians from the first height, the way the heights were counted."""

    tilt: float  # of the plane: from its mean to its highest, mm
    highest: float  # angle
    lifted: FloatArray  # each height, where it is level: as high as the plane's highest or higher
    supports: tuple[int, int, int]  # of the heights, from 0: what is raised there is raised everywhere
    scatter: FloatArray  # of each height, over the plane
    accuracy: float  # of the plane, from its lowest to its highest


def levelled(heights: FloatArray, accuracy: float) -> Levelled:
    """What the heights become when the lowest of their plane are raised to its highest; none is lowered.

    Three of them say how the body lies then, whatever it rested on when it was read. Raises ValueError for fewer than
    eight heights.
    """
    count = len(heights)
    if count < LEAST:
        raise ValueError(f"{LEAST} heights are needed, at equal angles")
    first = harmonic(heights, 1)
    plane = first.amplitude * np.cos(np.arange(count) * tau / count - first.angle)
    return Levelled(
        tilt=first.amplitude,
        highest=first.angle % tau,
        lifted=heights + first.amplitude - plane,
        supports=(0, 3 * count // 8, 5 * count // 8),
        scatter=without(heights, 0, 1),
        accuracy=first.accuracy(accuracy) * 2,
    )


class Wobble(Record):
    """First harmonics: radial ones are how far off centre, axial ones the rise at the place that was read."""

    whole: Harmonic  # as first read: the tool stands beside the spindle, not beside the board
    board: Harmonic | None  # of the seat in it; None where neither the torus turned nor the board was read
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
