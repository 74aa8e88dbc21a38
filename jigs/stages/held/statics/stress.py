"""How near the draw rod, the jaw and the bridge of a wedge-ring sled come to what bends or tears them for good.

Tension F / A on a thread's stress area; bending M / W with W = b h^2 / 6, as in any handbook of mechanics. Stress areas
and yield of property class 4.6 from ISO 898-1, areas of inch threads from ASME B1.1, all from memory; what plywood
takes, and how hard a hand turns a knob, are common practice, no source. Lengths mm, forces N, stresses N/mm2. Any sled
whose base is stiff enough (`stiffness`) has sheet enough for its jaw and its bridge; a test shows it, so these refuse
no job.
"""

from __future__ import annotations

from geometry.hardware.draw_rod import DrawRod
from geometry.hardware.fittings import bolt_diameter
from geometry.records import dataclass
from jigs.stages.held.statics.stiffness import LEANT_ON, ring_fence
from jigs.stages.held.strength import SHEET_TAKES
from jigs.stages.wedge_rings.layout.bandsaw import BRIDGE_HEIGHT, BandsawLayout
from jigs.stages.wedge_rings.layout.sled import JAW_ABOVE, JAW_NUT, SCREW_FORCE, SCREW_TO_BOLT, SledBody

STRESS_AREA = {
    "M4": 8.78, "M5": 14.2, "M6": 20.1, "M8": 36.6, "M10": 58.0, "M12": 84.3,
    "#8": 9.03, "#10": 11.3, "1/4 in": 20.5, "5/16 in": 33.8, "3/8 in": 50.0, "1/2 in": 91.5,
}  # fmt: skip
YIELD = 240.0
HARD_HAND = 1500.0  # N mm on a knob, three times what the plan counts on
NUT_FACTOR = 0.25  # dry thread: torque = factor x diameter x tension
TWISTED = 1.3  # of the stress by tension alone, while the nut is turned


@dataclass(frozen=True)
class Strained:
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
