"""The square sled that trims slabs to pieces: the piece held between a stop and the blade, the waste free.

x = 0 is the blade's side towards the piece, which lies at x < 0; y runs away from the operator, the fence's face is
y = 0. The slab's slanted end, a face of the stack, first butts against a stop as slanted, so that every piece shows
the same plies; its square end then butts against a square stop. Both stops stand on the same two pins. Distances
without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, sin

from geometry.blanks.sawing import half_chord
from geometry.hardware.hold_down import ABOVE, MARGIN, HoldDown, foot, pad
from geometry.hardware.sled_sizes import BLADE_PAST_RING, HANDLE_LENGTH, LEFT, TAB, TIE
from geometry.hardware.table_sled import TableSled
from geometry.records import dataclass

Point = tuple[float, float]

STOP_GAP = 2.0  # between a stop and the fence: dust
STOP_PAST = 8.0  # of a stop past the piece
STOP_TAIL = 110.0  # of a stop behind its working edge, with its pins
PIN_END, PINS_APART = 12.0, 32.0
EXIT_SIDE = 40.0  # of the exit block beside the blade
BORDER = 15.0  # of base round everything
SQUARE = 0.05  # mm: an end that slants less is square


@dataclass(frozen=True)
class TrimSledLayout(TableSled):
    """Where everything stands on the sled. `slant` is the angle of a slab's ends to its sawn sides."""

    slant: float
    width: float  # of a slab
    length: float  # of the piece along it, as trimmed
    slab_length: float  # from tip to tip
    height: float
    kerf: float

    @property
    def slanted(self) -> bool:
        """Whether the slab's ends have to be squared."""
        return self.run > SQUARE

    @property
    def run(self) -> float:
        """How far the slanted end falls back over the slab's width."""
        return self.width * cos(self.slant) / sin(self.slant)

    @property
    def saw_height(self) -> float:
        return self.height + self.sheet + BLADE_PAST_RING

    @property
    def fence_height(self) -> float:
        return self.height + ABOVE

    @property
    def sides(self) -> tuple[float, float]:
        """The shorter and the longer side of a piece: either is trimmed here, the other against the fence."""
        return (min(self.width, self.length), max(self.width, self.length))

    @property
    def hold(self) -> HoldDown:
        """On the piece, with one finger."""
        (short, long), (left, right) = self.sides, self.foot
        bears = pad(long, self.sheet, short)
        return HoldDown(self.height, self.height, bears, self.sheet, fingers=1, nose=right - left)

    @property
    def foot(self) -> tuple[float, float]:
        """x of the hold-down's finger where it bears, from and to: on the shorter piece that is trimmed here."""
        start, thick = foot(self.sides[0], self.sheet)
        return (-start - thick, -start)

    @property
    def slide(self) -> float:
        """x of the slide's end nearest the blade; it runs on towards -x."""
        return self.foot[0] + self.sheet + MARGIN

    @property
    def hold_left(self) -> float:
        return self.slide - self.hold.width

    @property
    def stop_depth(self) -> tuple[float, float]:
        """y of a stop's two sides."""
        return (STOP_GAP, max(self.width, self.length) + STOP_PAST)

    def slanted_at(self, y: float) -> float:
        """x of the slanted stop's working edge; its line meets the fence at the piece's length from the blade."""
        return -self.length - y * cos(self.slant) / sin(self.slant)

    @property
    def stop_left(self) -> float:
        """x of every stop's rear."""
        return min(self.slanted_at(self.stop_depth[1]), -self.width) - STOP_TAIL

    @property
    def pins(self) -> tuple[Point, Point]:
        """Of every stop."""
        x, y = self.stop_left + PIN_END, sum(self.stop_depth) / 2
        return ((x, y), (x + PINS_APART, y))

    @property
    def fence_ends(self) -> tuple[float, float]:
        """x from and to: past the hold-down, and past the waste of the first cut."""
        waste = self.slab_length - self.length - self.run
        right = max(waste + self.run + BORDER, self.kerf + self.clear_of_blade + TAB + BORDER)
        return (min(self.hold_left - BORDER, -self.clear_of_blade - 2 * TAB - 60), right)

    @property
    def tabs(self) -> tuple[float, float, float]:
        """x at which each tab of the fence starts; none where the blade passes."""
        left, right = self.fence_ends
        return (left + 8, -self.clear_of_blade - 8 - TAB, right - 8 - TAB)

    @property
    def cut_end(self) -> float:
        """y of the blade's front edge when the slab is cut through, inside the exit block."""
        return -half_chord(self.blade_diameter, self.saw_height) - 10

    @property
    def exit_block(self) -> tuple[float, float, float, float]:
        """x and y of its lower left and its upper right corner."""
        return (-EXIT_SIDE, self.cut_end - 20, self.kerf + EXIT_SIDE, -self.sheet)

    @property
    def operator_edge(self) -> float:
        return min(self.cut_end, -self.sheet) - TIE

    @property
    def far_edge(self) -> float:
        return self.stop_depth[1] + BORDER

    @property
    def runner(self) -> tuple[float, float]:
        """x of the mitre slot's two sides."""
        return (-self.slot_distance - self.slot_width, -self.slot_distance)

    @property
    def left_edge(self) -> float:
        hands = -self.hands_clear - HANDLE_LENGTH - BORDER
        return min(-LEFT, hands, self.runner[0] - 20, self.stop_left - BORDER, self.fence_ends[0] - BORDER)

    @property
    def right_edge(self) -> float:
        return max(self.fence_ends[1] + BORDER, self.kerf + EXIT_SIDE + BORDER)
