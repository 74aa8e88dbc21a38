"""A blade out of upright, from scrap that is cut through and half of it turned over."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from geometry.measuring.estimate import Estimate, propagated

WORTH = 0.1  # mm over the height of a ring


def blade_lean(height: Estimate, at_top: Estimate | None, at_bottom: Estimate | None) -> Estimate:
    """The lean in radians, + where the blade's top leans to the left: g/(2H).

    The left half stays as it was cut, the right one is turned over, its top down, and pushed against it. The blade's
    lean then shows twice: at the top, where its top leans left. Raises ValueError where no gap was read.
    """
    if at_top is None and at_bottom is None:
        raise ValueError("no gap was read")
    top, bottom = at_top or Estimate(0.0, 0.0), at_bottom or Estimate(0.0, 0.0)
    return propagated(lambda h, a, b: (a - b) / (2 * h), height, top, bottom)


def over_ring(blank: Blank, lean: Estimate) -> Estimate:
    """By how much a ring's face is out at its top, 2A over the table."""
    return lean.times(2 * blank.apothem)
