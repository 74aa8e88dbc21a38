"""How far a sled's sheet gives, and how near draw rod, jaw and bridge come to what bends or tears them for good.

By any handbook of mechanics. Bending of a cantilever: F L^3 / (3 E I) under a force at its end, M L^2 / (2 E I)
under a moment, I = b t^3 / 12; of a beam on two supports F L^3 / (48 E I) under a force in its middle. Tension F / A on
a thread's stress area; bending M / W with W = b h^2 / 6. Stress areas and yield of property class 4.6 from ISO 898-1,
areas of inch threads from ASME B1.1, all from memory; what plywood takes, how hard a hand turns a knob, loads and what
is allowed are common practice, no source. Lengths mm, forces N, stresses N/mm2. Any sled whose base is stiff enough has
sheet enough for its jaw and its bridge; a test shows it, so these refuse no job.
"""

from __future__ import annotations

from geometry.hardware.draw_rod import DrawRod
from geometry.hardware.fittings import bolt_diameter
from geometry.hardware.hold_down import CLAMP, GAP, PIVOT
from geometry.records import Record
from geometry.statics.holding import CUTTING_FORCE, SIDEWAYS
from jigs.stages.held.strength import SHEET_TAKES
from jigs.stages.wedge_rings.layout.bandsaw import BRIDGE_HEIGHT, BandsawLayout
from jigs.stages.wedge_rings.layout.sled import (
    JAW_ABOVE,
    JAW_BOLT,
    JAW_GAP,
    JAW_NUT,
    SCREW_FORCE,
    SCREW_TO_BOLT,
    SledBody,
)

PLYWOOD = 5000.0  # N/mm2, modulus of elasticity, the weaker way of common plywood: from memory
LEANT_ON = 100.0  # N: a hand on the sled, or the cut
OVERHANG = 150.0  # of a base past the table, where it is leant on
BEARS = 150.0  # of a fence that shares the bending beside one hold-down
ALLOWED = 1.0  # by which either may give


class HoldFence(Record):
    """A fence bent back by a hold-down that presses `out` from it on wood so high."""

    out: float  # to the pad's middle
    wood: float

    def gives(self, thickness: float) -> float:
        """At the cam."""
        tall = self.wood + GAP + PIVOT
        return CLAMP * self.out * tall**2 / (2 * PLYWOOD * second_moment(BEARS, thickness))


class RingFence(Record):
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


class SledSheet(Record):
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


STRESS_AREA = {
    "M4": 8.78, "M5": 14.2, "M6": 20.1, "M8": 36.6, "M10": 58.0, "M12": 84.3,
    "#8": 9.03, "#10": 11.3, "1/4 in": 20.5, "5/16 in": 33.8, "3/8 in": 50.0, "1/2 in": 91.5,
}  # fmt: skip
YIELD = 240.0
HARD_HAND = 1500.0  # N mm on a knob, three times what the plan counts on
NUT_FACTOR = 0.25  # dry thread: torque = factor x diameter x tension
TWISTED = 1.3  # of the stress by tension alone, while the nut is turned


class Strained(Record):
    """A wedge-ring sled under its clamps and the cut: how far its fence gives, mm; the rest as shares of what they
    take."""

    fence: float
    rod: float
    jaw: float
    bridge: float | None  # a bandsaw's sled has one


def strained(sled: SledBody) -> Strained:
    """All of it."""
    bridge = bridge_stressed(sled) if isinstance(sled, BandsawLayout) else None
    return Strained(ring_fence(sled).gives(sled.sheet), rod_stressed(sled.rod), jaw_stressed(sled), bridge)


def rod_stressed(rod: DrawRod) -> float:
    """The draw rod, its knob turned as hard as a hand can, or its plug's rubber squeezed as far as it must be."""
    drawn = HARD_HAND / (NUT_FACTOR * bolt_diameter(rod.bolt))
    return TWISTED * max(drawn, rod.squeeze) / (STRESS_AREA[rod.bolt] * YIELD)


def jaw_stressed(sled: SledBody) -> float:
    """The jaw under its screw: between the screw and the bolt beside it, and the wood over the screw's nut."""
    width, window = sled.jaw_layers * sled.sheet, sled.fittings.nut_height
    beside = _bent(SCREW_FORCE * SCREW_TO_BOLT, width, JAW_ABOVE - window)
    across = sled.fittings.nut_window
    over_nut = _bent(SCREW_FORCE * across / 4, min(sled.sheet, across), JAW_NUT - window / 2)
    return max(beside, over_nut) / SHEET_TAKES


def bridge_stressed(layout: BandsawLayout) -> float:
    """The bridge of a bandsaw's sled, one half of the base leant on at its outer edge; the base does not help it."""
    out = layout.right_edge - layout.slot_sides[0]
    return _bent(LEANT_ON * out, layout.sheet, BRIDGE_HEIGHT) / SHEET_TAKES


def _bent(moment: float, width: float, height: float) -> float:
    return 6 * moment / (width * height**2)
