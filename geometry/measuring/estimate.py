"""A value that was measured, and how far it may be out.

An accuracy is what a reading is nearly always within, each way: about two standard deviations. Those of independent
readings add as the root of their squares (JCGM 100, GUM, 5.1; from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import hypot, inf

from geometry.records import Record


class Estimate(Record):
    """Either in mm or radians."""

    value: float
    accuracy: float

    @property
    def sure(self) -> bool:
        """Whether it is more than its own accuracy; what is not, is not to be corrected."""
        return abs(self.value) > self.accuracy

    @property
    def size(self) -> Estimate:
        """Without its sign."""
        return Estimate(abs(self.value), self.accuracy)

    def times(self, factor: float) -> Estimate:
        return Estimate(factor * self.value, abs(factor) * self.accuracy)

    def plus(self, other: Estimate) -> Estimate:
        return Estimate(self.value + other.value, hypot(self.accuracy, other.accuracy))

    def minus(self, other: Estimate) -> Estimate:
        return self.plus(other.times(-1))


def propagated(of: Callable[..., float], *readings: Estimate) -> Estimate:
    """What a function of independent readings comes to; each moves it by half of its way from end to end."""
    values = [reading.value for reading in readings]

    def moved(k: int, by: float) -> float:
        return of(*values[:k], values[k] + by, *values[k + 1 :])

    shifts = [
        (moved(k, reading.accuracy) - moved(k, -reading.accuracy)) / 2 for k, reading in enumerate(readings)
    ]
    return Estimate(of(*values), hypot(*shifts))


def agree(first: Estimate, second: Estimate) -> bool:
    """Whether two estimates of one thing differ by no more than their accuracies explain."""
    return not first.minus(second).sure


def lit_twice(first: Estimate | None, second: Estimate | None) -> bool:
    """Whether there is surely light at both ends of a face: it is not flat, or something lies in between."""
    return all(light is not None and light.sure for light in (first, second))


def combined(estimates: Sequence[Estimate]) -> Estimate:
    """The weighted mean of independent estimates of one thing, each by 1/accuracy². Raises ValueError for none."""
    if not estimates:
        raise ValueError("there is nothing to take the mean of")
    exact = [estimate for estimate in estimates if estimate.accuracy == 0]
    if exact:
        return exact[0]
    weights = [estimate.accuracy**-2 for estimate in estimates]
    total = sum(weights)
    mean = sum(weight * estimate.value for weight, estimate in zip(weights, estimates, strict=True)) / total
    return Estimate(mean, total**-0.5)


def mean_of(values: Sequence[float], accuracy: float) -> Estimate:
    """Of several readings of one thing by one instrument.

    Half of its accuracy is taken as common to all of them (its zero, the hand), half averages out; a spread that is
    larger than the instrument explains counts in full. Raises ValueError for none.
    """
    if not values:
        raise ValueError("there is nothing to take the mean of")
    mean = sum(values) / len(values)
    spread = max(abs(value - mean) for value in values)
    common, own = accuracy / 2, accuracy * 0.75**0.5
    return Estimate(mean, hypot(common, max(own, spread) / len(values) ** 0.5))


def spread_of(values: Sequence[float]) -> float:
    """From the least to the greatest."""
    return max(values, default=-inf) - min(values, default=inf) if values else 0.0
