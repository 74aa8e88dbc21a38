"""Readings at equal angles taken apart: mean, first harmonic, what is left.

R = mean, a = (2/n) sum Y cos, b = (2/n) sum Y sin (NIST/SEMATECH e-Handbook 2.3.4.4; Reeve, NBSIR 79-1758, 1979).
"""

from __future__ import annotations

from math import atan2, cos, hypot, sin, sqrt

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import dataclass


@dataclass(frozen=True)
class Harmonic:
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
