"""How far a sled's sheet gives: beams of plywood, by the formulas of any handbook of mechanics.

Bending of a cantilever: F L^3 / (3 E I) under a force at its end, M L^2 / (2 E I) under a moment, I = b t^3 / 12.
Loads and what is allowed are common practice, no source. Lengths mm, forces N.
"""

from __future__ import annotations

from dataclasses import dataclass

from geometry.hold_down import CLAMP, GAP, PIVOT

PLYWOOD = 5000.0  # N/mm2, modulus of elasticity, the weaker way of common plywood: from memory
LEANT_ON = 100.0  # N: a hand on the sled, or the cut
OVERHANG = 150.0  # of a base past the table, where it is leant on
BEARS = 150.0  # of a fence that shares the bending beside one hold-down
ALLOWED = 1.0  # by which either may give


@dataclass(frozen=True)
class SledSheet:
    """What is asked of the sheet of one sled."""

    what: str
    width: float  # of the base across the feed
    hold: tuple[float, float] | None  # on its fence: out from it to the pad's middle, height of the wood

    def base_gives(self, thickness: float) -> float:
        """The base, leant on past the table."""
        return LEANT_ON * OVERHANG**3 / (3 * PLYWOOD * _second_moment(self.width, thickness))

    def fence_gives(self, thickness: float) -> float:
        """The fence at the cam, bent back by a hold-down that presses out from it."""
        if self.hold is None:
            return 0.0
        out, wood = self.hold
        return CLAMP * out * (wood + GAP + PIVOT) ** 2 / (2 * PLYWOOD * _second_moment(BEARS, thickness))

    def gives(self, thickness: float) -> float:
        """Whichever gives more."""
        return max(self.base_gives(thickness), self.fence_gives(thickness))


def _second_moment(width: float, thickness: float) -> float:
    return width * thickness**3 / 12


def least_sheet(sleds: list[SledSheet], step: float = 0.5) -> float:
    """The thinnest sheet, in steps, of which no sled gives more than is allowed."""
    thickness = step
    while any(sled.gives(thickness) > ALLOWED for sled in sleds):
        thickness += step
    return thickness
