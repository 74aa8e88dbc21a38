"""Where everything stands on the wedge-ring sled, in numbers.

Places are (s, u) as in `geometry.blanks.sawing`, heights v above the base's top. Plan coordinates: the apex is
the origin, y runs away from the operator along the cutting side of the blade, the base lies at x < 0.
Distances without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import field
from functools import cached_property
from math import ceil, cos, floor, pi, sin, tan

from geometry.blanks.sawing import WedgeRingCut, half_chord, stop_arm
from geometry.hardware.draw_rod import METAL_CLEAR, DrawRod, draw_rod
from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import BATTEN, BLADE_PAST_RING, GUSSET_DEPTH, TAB
from geometry.hardware.wedge_peg import WedgePeg, wedge_peg
from geometry.records import Record

LEAST_FENCE = 65.0  # before the stop: room for two tabs
HOLD = 9.0  # least of the ring under the jaw's far end in the second cut
LEAST_JAW = 40.0  # long
ABOVE_RING = 45.0  # fence above the ring, room for the jaw's bolts
JAW_ABOVE = 40.0  # the jaw's top above its flat
JAW_GAP = 1.0  # between the ring and the jaw, which its screw bridges
JAW_BOLT = 22.0  # bolts above the jaw's flat
JAW_TAIL = 10.0  # of the jaw past its farther bolt
JAW_PLAY = 0.2  # between jaw and ring on the leaning flats, and the gap more
JAW_NUT = 14.0  # from its top to the middle of the screw's nut
SCREW_WOOD = 9.0  # of the jaw from its screw to its far end
SCREW_WALL = 5.5  # from its screw to its front
SCREW_ON_RING = 4.0  # from its screw to the ring's face in the second cut
SCREW_TO_BOLT = 16.0
SCREW_ABOVE = 60.0  # the screw's head above the ring, at most: what a bandsaw's guides have to clear
SCREW_FORCE = 300.0  # N, least, by hand: 0.5 N m on M6 at a nut factor of 0.25 are 333 N, on 1/4 in 315 N
KNOB_CLEAR = 2.0
WEDGE_OVER = 4.0  # of wedge above the hole for the rod
CHEEK_SPACING = 60.0


class SledBody(Record, ABC):
    """What the sled of one wedge-ring cut has on either saw: fence, stop, jaw, gussets, handle."""

    cut: WedgeRingCut
    apothem: float
    core_apothem: float
    mitre: float
    sheet: float  # measured
    play: float  # of a slot over its sheet
    kerf: float
    trim: float  # left on the base for its first pass to trim away
    clear_of_blade: float  # least room between anything fixed and the blade
    hands_clear: float  # least room between the handle and the blade
    fittings: Fittings = field(kw_only=True)

    @property
    def called_height(self) -> str:
        """What stands as high as `saw_height`."""
        return "Blade above the table"

    @property
    @abstractmethod
    def saw_height(self) -> float:
        """How far the blade must stand, or the guides be raised, above the table."""

    @property
    @abstractmethod
    def operator_edge(self) -> float:
        """y of the base's edge nearest the operator."""

    @property
    @abstractmethod
    def left_edge(self) -> float:
        """x of the base's edge farthest from the blade."""

    @property
    def ring_height(self) -> float:
        return 2 * self.apothem

    def room(self, s: float) -> float:
        """How far from the fence towards the blade, at `s`, a fixed thing may reach and still be clear of it."""
        return self.cut.gap(s) - self.clear_of_blade / cos(self.cut.half_wedge)

    @property
    def cheek_length(self) -> float:
        return max(70.0, 1.3 * self.apothem)

    @property
    def fence_start(self) -> float:
        """s at the fence's end nearest the apex, past the ring's inner flat."""
        return self.cut.stop - max(2 * self.cut.half_width + 15, LEAST_FENCE)

    @property
    def fence_end(self) -> float:
        return self.cut.stop + self.cheek_length

    @property
    def fence_height(self) -> float:
        return self.ring_height + ABOVE_RING

    @cached_property
    def rod(self) -> DrawRod:
        """What draws the ring to the fence."""
        return draw_rod(self.cut, self.core_apothem, self.segments, self.sheet, self.fittings)

    @cached_property
    def peg(self) -> WedgePeg | None:
        """What keeps the wedge stack in its place; None where it has no room beside the rod's bore."""
        return wedge_peg(
            self.rod, self.apothem, self.gussets[0] + self.sheet / 2 + self.play, self.wedge_layers
        )

    @property
    def segments(self) -> int:
        return round(pi / self.mitre)

    @property
    def arm(self) -> tuple[float, float]:
        """How far either arm of the stop reaches along the fence to the apex, and up or down from the arris."""
        return stop_arm(self.segments, self.apothem)

    def thin_end(self, wedge_at_stop: float) -> float:
        """Thickness of a wedge stack's thin end, which touches the stop, by its thickness at the stop."""
        return wedge_at_stop + self.arm[0] * tan(self.cut.wedge_angle)

    @cached_property
    def wedge_layers(self) -> int:
        """Plates in the wedge's stack: past the rod where the ring is tall enough, and past its middle."""
        wanted = self.apothem + self.rod.wedge_hole / 2 + WEDGE_OVER
        past_rod = min(ceil(wanted / self.sheet), floor((self.ring_height - 1) / self.sheet))
        return max(past_rod, ceil(self.apothem / self.sheet))

    @cached_property
    def knob(self) -> float:
        """Across the largest knob that turns behind the fence, over the base and between the gussets."""
        beside = min(abs(s - self.rod.fence_place) for s in self.gussets) - self.sheet / 2
        return 2 * (min(beside, self.apothem) - KNOB_CLEAR)

    @property
    def gusset_height(self) -> float:
        return self.fence_height - 15

    @cached_property
    def gussets(self) -> tuple[float, ...]:
        """s of each gusset's middle: one by the fence's end, behind the stop two if there is room for both."""
        half = self.sheet / 2 + 8
        start, middle, end = self.fence_start + half, self.cut.stop + half + 6, self.fence_end - half
        return (start, middle, end) if end - middle >= 2 * half else (start, end)

    @property
    def fence_tabs(self) -> tuple[float, ...]:
        """s at which each tab of the fence starts; none beside the stop cheeks' tabs."""
        first, last = self.fence_start + 5, self.cut.stop + 15
        count = max(2, round((last - first) / 120))
        step = (last - first - TAB) / (count - 1)
        return tuple(first + i * step for i in range(count))

    @property
    def cheek_tab(self) -> float:
        """Where the stop cheek's one tab starts, behind its working edge."""
        return self.cheek_length - TAB - 8

    @property
    def jaw_screw(self) -> tuple[float, float]:
        """(s, u) of the jaw's screw: over the ring's middle in both cuts, in the middle of a sheet if it can be."""
        s = self.cut.stop - self.cut.half_width
        front = self.jaw_layers * self.sheet - SCREW_WALL
        back = self.cut.wedge_at_stop + self.cut.half_width * tan(self.cut.half_wedge) + SCREW_ON_RING
        layers = [(i + 0.5) * self.sheet for i in range(self.jaw_layers)]
        inside = [u for u in layers if back <= u <= front]
        return (s, inside[-1] if inside else (min(back, front) + front) / 2)

    @property
    def jaw_bolts(self) -> tuple[float, float]:
        """s of the jaw's two bolts: one beside its screw, one behind the stop, clear of the gussets."""
        behind = self.cut.stop + 14 + self.sheet if len(self.gussets) > 2 else self.cut.stop + 4
        ahead = min(s for s in self.gussets if s > behind) - self.sheet / 2
        return (self.jaw_screw[0] + SCREW_TO_BOLT, min(behind + 10, (behind + ahead) / 2))

    @property
    def jaw_tail(self) -> float:
        """s of the jaw's end behind the stop."""
        return self.jaw_bolts[1] + JAW_TAIL

    @property
    def cheeks(self) -> tuple[float, ...]:
        """u of each stop cheek's face nearest the fence: one on the fence, the last clear of the blade."""
        room = self.room(self.cut.stop - self.arm[0]) - self.sheet
        if room < self.sheet + 5:
            return (0.0,)
        spaces = max(1, floor(room / CHEEK_SPACING))
        return tuple(room * i / spaces for i in range(spaces + 1))

    def reach_of(self, layers: int) -> float:
        """How far from the stop a jaw of so many sheets holds the ring in both cuts.

        Its far end must be clear of the blade, and in the second cut, when the wedge holds the ring off the
        fence, still lie over the ring.
        """
        t = tan(self.cut.half_wedge)
        clear = (self.room(self.cut.stop) - layers * self.sheet) / t
        hold = (layers * self.sheet - self.cut.wedge_at_stop - HOLD) / t
        whole = max(LEAST_JAW, self.cut.half_width + max(SCREW_WOOD, self.apothem * tan(self.mitre)))
        return min(whole, clear, hold) if self.metal_clear(layers) >= METAL_CLEAR else min(0.0, hold)

    def metal_clear(self, layers: int) -> float:
        """From the blade to the nearest metal in a jaw of so many sheets: its screw, or the sunk head of its bolt."""
        screw, front = self.cut.stop - self.cut.half_width, layers * self.sheet
        radius, (across, deep) = self.fittings.bolt_radius, self.fittings.sink
        metal = (
            (screw - radius, front - SCREW_WALL + radius),
            (screw + SCREW_TO_BOLT - across / 2, front - deep + self.fittings.head),
        )
        return min((self.cut.gap(s) - u) * cos(self.cut.half_wedge) for s, u in metal)

    @property
    def jaw_layers(self) -> int:
        """The fewest sheets that reach farthest over the ring."""
        most = max(1, floor(self.room(self.cut.stop) / self.sheet))
        return max(range(1, most + 1), key=lambda layers: (round(self.reach_of(layers), 6), -layers))

    @property
    def jaw_reach(self) -> float:
        """From the stop towards the apex."""
        return self.reach_of(self.jaw_layers)

    @property
    def blade_leaves_ring(self) -> float:
        """y at which the blade has cut the whole ring."""
        return -self.cut.stop / cos(self.cut.half_wedge)

    @property
    def far_edge(self) -> float:
        return self.plan(self.fence_start, 0)[1] + 40

    @property
    def handle(self) -> float:
        """x of the handle's face nearest the blade: clear of the gussets and out of harm's way."""
        gusset = min(self.plan(s, -self.sheet - GUSSET_DEPTH)[0] for s in self.gussets)
        return min(gusset - 30, -self.hands_clear - 10)

    @property
    def handle_start(self) -> float:
        """y of the handle's end nearest the operator."""
        return self.operator_edge + 20

    @property
    def gusset_mortise(self) -> float:
        """Height of the foot of the gusset's tab into the fence."""
        below_bolts = self.ring_height + JAW_BOLT - 10
        return min(self.gusset_height / 2 - TAB / 2, below_bolts - TAB)

    @property
    def stop_check(self) -> float:
        """From the fence, at the stop, square to it, to the blade: what to measure after trimming."""
        return self.cut.gap(self.cut.stop)

    def plan(self, s: float, u: float) -> tuple[float, float]:
        """Plan coordinates (x, y) of a place (s, u)."""
        w = self.cut.half_wedge
        return (u * cos(w) - s * sin(w), -s * cos(w) - u * sin(w))


class SledLayout(SledBody):
    """The sled for a saw with a mitre slot; the blade ends its cut in an exit block."""

    blade_diameter: float
    slot_distance: float
    slot_width: float
    slot_depth: float
    table_front: float  # from the table's front edge to the blade's axle

    @property
    def saw_height(self) -> float:
        """How far the blade must stand above the table."""
        return self.ring_height + self.sheet + BLADE_PAST_RING

    @property
    def exit_block_length(self) -> float:
        """Along the blade: what the blade occupies at table level, and 30 mm to spare."""
        return half_chord(self.blade_diameter, self.saw_height) + 30

    @property
    def exit_block_start(self) -> float:
        return self.blade_leaves_ring - 10

    @property
    def exit_block_end(self) -> float:
        return self.exit_block_start - self.exit_block_length

    @property
    def exit_block_sides(self) -> tuple[float, float]:
        """x of its two sides."""
        return (-(self.clear_of_blade - 2), self.kerf + 45)

    @property
    def feed_end(self) -> float:
        """y of the blade's front edge when the feed ends: inside the exit block, its axle past the ring."""
        return self.axle_end - half_chord(self.blade_diameter, self.saw_height)

    @property
    def axle_end(self) -> float:
        """y of the blade's axle when the feed ends."""
        return self.blade_leaves_ring - 5

    @property
    def batten(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Ends of the batten's working edge, under the base, on the wider side of the runner.

        It meets the table's front edge when the feed has to end.
        """
        y = self.axle_end - self.table_front
        beside = (10 - self.slot_distance, -20.0)
        beyond = (self.handle + 12, -self.slot_distance - self.slot_width - 10)
        x0, x1 = max(beside, beyond, key=lambda side: side[1] - side[0])
        return ((x0, y), (x1, y))

    @property
    def operator_edge(self) -> float:
        behind = min(self.exit_block_end, self.plan(self.fence_end, 0)[1]) - 20
        return min(behind, self.axle_end - self.table_front - BATTEN - 5)

    @property
    def left_edge(self) -> float:
        return min(self.handle - 50, -self.slot_distance - self.slot_width - 20)
