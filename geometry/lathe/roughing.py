"""Roughing by flats: from a polygon to the circle inside it by turning its corners off again and again.

Every flat stays tangent to the circle, so that the next flats follow from the tangent of half the angle.
Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, pi, tan

from geometry.records import Record


class FlatsStep(Record):
    """Turning the corners of a polygon of `sides` flats round a circle of `radius`."""

    radius: float
    sides: int  # before the step; twice as many after it

    @property
    def half_angle(self) -> float:
        """alpha: half the angle that a flat takes up round the circle, pi / sides."""
        return pi / self.sides

    @property
    def along(self) -> float:
        """Along each flat from its corner: r (tan alpha - tan(alpha/2))."""
        return self.radius * (tan(self.half_angle) - tan(self.half_angle / 2))

    @property
    def depth(self) -> float:
        """From the corner in to the new flat: r (sec alpha - 1)."""
        return self.radius * (1 / cos(self.half_angle) - 1)

    @property
    def new_flat(self) -> float:
        """Width of every flat after the step: 2 r tan(alpha/2)."""
        return 2 * self.radius * tan(self.half_angle / 2)

    @property
    def left(self) -> float:
        """Most wood left above the circle, at the new corners: r (sec(alpha/2) - 1)."""
        return self.radius * (1 / cos(self.half_angle / 2) - 1)


def flats_steps(radius: float, sides: int, most_left: float) -> tuple[FlatsStep, ...]:
    """Steps from a polygon of `sides` until its corners stand at most `most_left` (over 0) above the circle."""
    steps: list[FlatsStep] = []
    while radius * (1 / cos(pi / sides) - 1) > most_left:
        steps.append(FlatsStep(radius, sides))
        sides *= 2
    return tuple(steps)
