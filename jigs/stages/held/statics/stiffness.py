"""How far a sled's sheet gives: beams of plywood, by the formulas of any handbook of mechanics.

Bending of a cantilever: F L^3 / (3 E I) under a force at its end, M L^2 / (2 E I) under a moment, I = b t^3 / 12; of a
beam on two supports F L^3 / (48 E I) under a force in its middle.
Loads and what is allowed are common practice, no source. Lengths mm, forces N.
"""

from __future__ import annotations

from geometry.hardware.hold_down import CLAMP, GAP, PIVOT
from geometry.records import dataclass
from geometry.statics.holding import CUTTING_FORCE, SIDEWAYS
from jigs.stages.wedge_rings.layout.sled import JAW_BOLT, JAW_GAP, SCREW_FORCE, SledBody

PLYWOOD = 5000.0  # N/mm2, modulus of elasticity, the weaker way of common plywood: from memory
LEANT_ON = 100.0  # N: a hand on the sled, or the cut
OVERHANG = 150.0  # of a base past the table, where it is leant on
BEARS = 150.0  # of a fence that shares the bending beside one hold-down
ALLOWED = 1.0  # by which either may give


@dataclass(frozen=True)
class HoldFence:
    """A fence bent back by a hold-down that presses `out` from it on wood so high."""

    out: float  # to the pad's middle
    wood: float

    def gives(self, thickness: float) -> float:
        """At the cam."""
        tall = self.wood + GAP + PIVOT
        return CLAMP * self.out * tall**2 / (2 * PLYWOOD * second_moment(BEARS, thickness))


@dataclass(frozen=True)
class RingFence:
    """The fence of a wedge-ring sled, its foot in the base and gussets at both ends, bent back by the screw of the jaw
    on it and by the cut's push to the side, which is taken as if at the jaw.

    Strips that cross share a push so that they give alike: one from the foot up, one from gusset to gusset (Grashof,
    from memory). The screw's moment is the push that would bend the upright strip as far.
    """

    out: float  # from its face to the screw
    tall: float  # to the jaw's bolts
    span: float  # from gusset to gusset

    def gives(self, thickness: float) -> float:
        """At the jaw."""
        push = 3 * SCREW_FORCE * self.out / (2 * self.tall) + SIDEWAYS * CUTTING_FORCE
        upright = push * self.tall**3 / (3 * PLYWOOD * second_moment(BEARS, thickness))
        level = push * self.span**3 / (48 * PLYWOOD * second_moment(min(BEARS, self.tall), thickness))
        return upright * level / (upright + level)


def ring_fence(sled: SledBody) -> RingFence:
    """The fence of a wedge-ring sled, between the gussets on both sides of its jaw's screw."""
    screw, out = sled.jaw_screw
    before, behind = max(s for s in sled.gussets if s < screw), min(s for s in sled.gussets if s > screw)
    return RingFence(out, sled.ring_height + JAW_GAP + JAW_BOLT, behind - before)


@dataclass(frozen=True)
class SledSheet:
    """What is asked of the sheet of one sled."""

    what: str
    width: float  # of the base across the feed
    fence: HoldFence | RingFence | None

    def base_gives(self, thickness: float) -> float:
        """The base, leant on past the table."""
        return LEANT_ON * OVERHANG**3 / (3 * PLYWOOD * second_moment(self.width, thickness))

    def fence_gives(self, thickness: float) -> float:
        """The fence, under what presses on it or from it."""
        return 0.0 if self.fence is None else self.fence.gives(thickness)

    def gives(self, thickness: float) -> float:
        """Whichever gives more."""
        return max(self.base_gives(thickness), self.fence_gives(thickness))


def second_moment(width: float, thickness: float) -> float:
    """Of a board bent across its thickness, mm^4."""
    return width * thickness**3 / 12


def least_sheet(sleds: list[SledSheet], step: float = 0.5) -> float:
    """The thinnest sheet, in steps, of which no sled gives more than is allowed."""
    thickness = step
    while any(sled.gives(thickness) > ALLOWED for sled in sleds):
        thickness += step
    return thickness
