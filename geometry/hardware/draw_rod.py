"""The rod that draws a wedge ring to its fence: a plug of rubber in the core, a knob behind the fence.

All faces of a wedge ring but those that are cut stand square to the fence, so nothing that touches its outside can
press it there: what does has to take hold in the core. Frame as in the wedge-ring sled's layout; u is the distance
from the fence. In both cuts the ring's middle plane is parallel to the fence and equally far from it, so one setting
of the plug serves both. Sizes of washers from ISO 7094, of inch ones as fender washers are sold, both from memory;
other distances are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from math import ceil, cos, hypot, inf, pi, sin, tan

from geometry.blanks.sawing import WedgeRingCut
from geometry.bodies.torus import outer_flat
from geometry.hardware.fittings import LEAST_CORE, NUTS, Fittings, bolt_diameter
from geometry.records import Record

METAL_CLEAR = 12.0  # least room between metal and the cut
SETTING = 1.0  # that the plug may be set too shallow
ROD_PLAY = 2.0  # of the rod in the fence's hole
TO_STOP = 3.0  # of that hole from the ring's middle, at least: so the rod draws the ring to the stop too
LEAN = 0.16  # of the rod, over sin w: the teeth alone may push with a third of sin w, and 0.11 of PULL holds that
NUT_PLAY = 3.0  # of the plug's nut in the wedge's hole
RUBBER = (8.0, 20.0)  # least and most length
SLIP = 0.5  # of the rubber in the core before it is squeezed
CHEEK_SLIP = 1.0
RUBBER_RING = 10.0  # thickness of the rubber round a hub
SQUEEZE = 3.0  # that the rubber is wider than its hub
BEHIND_FENCE = 30.0  # of rod: washer, knob, and what is left to turn
PULL = 300.0  # N, least, by the knob: 0.5 N m on M6 at a nut factor of 0.25 are 333 N
RUBBER_FRICTION = 0.4  # on wood, a low value
WASHERS = {  # across, thickness
    "M4": (12.0, 1.0), "M5": (18.0, 2.0), "M6": (22.0, 2.0), "M8": (28.0, 3.0), "M10": (34.0, 3.0),
    "M12": (44.0, 4.0),
    "#8": (19.0, 1.6), "#10": (25.4, 1.6), "1/4 in": (31.75, 2.0), "5/16 in": (38.1, 2.0), "3/8 in": (38.1, 2.0),
    "1/2 in": (50.8, 2.3),
}  # fmt: skip
MOST_CORE = {  # its washers would leave the rubber too wide a gap
    "M4": 14.0, "M5": 25.0, "M6": 36.0, "M8": 46.0, "M10": 56.0, "M12": inf,
    "#8": 26.0, "#10": 38.0, "1/4 in": 48.0, "5/16 in": 56.0, "3/8 in": 60.0, "1/2 in": inf,
}  # fmt: skip
MOST_BARE = 70.0  # across flats: above it the rubber goes round a hub between cheeks of sheet


class DrawRod(Record):
    """Rod and plug of one sled, by the ring's core."""

    bolt: str
    fittings: Fittings
    cut: WedgeRingCut
    core_apothem: float
    segments: int
    sheet: float

    @property
    def core(self) -> float:
        """Across the flats of the core."""
        return 2 * self.core_apothem

    @property
    def fits(self) -> bool:
        """Whether the core takes the smallest rod, and the ring is long enough for its plug."""
        return self.core >= self.fittings.smallest_core - 1e-9 and self.rubber >= self.least_rubber - 1e-9

    @property
    def diameter(self) -> float:
        return bolt_diameter(self.bolt)

    @property
    def fence_hole(self) -> float:
        return self.diameter + ROD_PLAY

    @property
    def wedge_hole(self) -> float:
        """Bored through the wedge's plates behind the fence's hole: the plug's nut may stand in it, at the ring's
        middle. As large bits are sold."""
        drill = self.fittings.drill
        return drill * ceil((NUTS[self.bolt][0] + NUT_PLAY + 2 * self.to_stop) / drill - 1e-9)

    @property
    def place(self) -> float:
        """s of the rod: the middle of the ring, in both cuts."""
        return self.cut.stop - self.cut.half_width

    @property
    def fence_place(self) -> float:
        """s of its hole in the fence."""
        return self.place + self.to_stop

    @property
    def to_stop(self) -> float:
        """From the ring's middle to the hole."""
        return max(TO_STOP, ROD_PLAY / 2 + LEAN * sin(self.cut.half_wedge) * self.rubber_middle)

    def drawn_from(self, u: float) -> tuple[float, float]:
        """(s, u) of the way in which it pulls a ring with the rubber's middle at `u`, leaning on the hole's near side:
        to the stop and the fence."""
        aside = self.to_stop - ROD_PLAY / 2
        long = hypot(aside, u)
        return (aside / long, -u / long)

    @property
    def washer(self) -> float:
        """Across the plug's washers: extra large ones, filed down to the core where they are larger."""
        return min(WASHERS[self.bolt][0], self.core - CHEEK_SLIP)

    @property
    def hubbed(self) -> bool:
        """Whether the rubber goes round a hub, between cheeks cut from sheet."""
        return self.core > MOST_BARE

    @property
    def cheek(self) -> float:
        """Across the cheeks and, two thicknesses of rubber less, the hub."""
        return self.core - CHEEK_SLIP

    @property
    def hub(self) -> float:
        return self.core - SLIP - 2 * RUBBER_RING

    @property
    def tip(self) -> float:
        """u of the rod's end: as near to the fence as its plug has room, and no nearer to the cut than it may."""
        start = max(self.core_start, NUTS[self.bolt][1])
        return min(self._farthest, start + 2 * self._end + self._wanted + NUTS[self.bolt][1])

    @property
    def _farthest(self) -> float:
        """The farthest u of any metal: from there the cut is `METAL_CLEAR` and a setting's error away."""
        w = self.cut.half_wedge
        nearest = self.place - max(NUTS[self.bolt][0] / 2, self.diameter / 2)
        return self.cut.gap(nearest) - (METAL_CLEAR + SETTING) / cos(w)

    @property
    def _wanted(self) -> float:
        """The rubber's length where there is room."""
        return self.least_rubber if self.hubbed else RUBBER[1]

    @property
    def metal_clear(self) -> float:
        """Least wood between its metal and either cut."""
        return METAL_CLEAR

    @property
    def below_face(self) -> float:
        """How deep the rod's tip lies below the ring's uncut face, in both cuts."""
        return self.cut.ring_thickness - self.tip

    @property
    def _end(self) -> float:
        """Of either end of the plug between nut and rubber: washer and cheek."""
        return WASHERS[self.bolt][1] + (self.sheet if self.hubbed else 0.0)

    @property
    def rubber_end(self) -> float:
        """u of the rubber's end towards the blade."""
        return self.tip - NUTS[self.bolt][1] - self._end

    @property
    def core_start(self) -> float:
        """u at which the core has begun all round in the second cut, when the ring stands on the wedge."""
        reach = outer_flat(self.core_apothem, self.segments)
        return self.cut.wedge_at_stop + (self.cut.half_width + reach) * tan(self.cut.half_wedge)

    @property
    def least_rubber(self) -> float:
        """A wider plug has more rubber to squeeze for each mm of the core that it presses on."""
        return self.sheet + SQUEEZE if self.hubbed else max(RUBBER[0], self.core / 4)

    @property
    def rubber(self) -> float:
        """Length of the rubber: all of it in the core, nothing of the plug in the fence."""
        in_core = self.rubber_end - self._end - self.core_start
        off_fence = self.rubber_end - self._end - NUTS[self.bolt][1]
        return min(in_core, off_fence, self._wanted)

    @property
    def rubber_middle(self) -> float:
        """u of the rubber's middle."""
        return self.rubber_end - self.rubber / 2

    @property
    def squeeze(self) -> float:
        """What the plug's nut has to squeeze the rubber with (N) to hold `PULL`, touching half of the core.

        Rubber that cannot get away presses all round as hard as it is pressed.
        """
        inside = self.hub if self.hubbed else self.diameter
        area = pi / 4 * (self.core**2 - inside**2)
        return PULL * area / (RUBBER_FRICTION * pi / 2 * self.core * self.rubber)

    @property
    def length(self) -> float:
        """Of the threaded rod."""
        step = self.fittings.step
        return float(step * ceil((self.tip + self.sheet + BEHIND_FENCE) / step))


def draw_rod(
    cut: WedgeRingCut, core_apothem: float, segments: int, sheet: float, fittings: Fittings
) -> DrawRod:
    """The largest rod whose plug the core takes and the ring is long enough for; else the smallest that it takes."""
    core = 2 * core_apothem
    taken = [bolt for bolt in fittings.rods if LEAST_CORE[bolt] - 1e-9 <= core <= MOST_CORE[bolt]]
    rods = [
        DrawRod(bolt, fittings, cut, core_apothem, segments, sheet) for bolt in taken or fittings.rods[:1]
    ]
    return next((rod for rod in reversed(rods) if rod.fits), rods[0])
