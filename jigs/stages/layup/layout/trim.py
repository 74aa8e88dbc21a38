"""The square sled that trims slabs to pieces: the piece held between a stop and the blade, the waste free.

x = 0 is the blade's side towards the piece, which lies at x < 0; y runs away from the operator, the fence's face is
y = 0. The slab's slanted end, a face of the stack, first butts against a stop as slanted, so that every piece shows
the same plies; its square end then butts against a square stop. Both stops stand on the same two pins. Distances
without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, sin

from geometry.hardware.hold_down import foot, pad
from geometry.hardware.sled_sizes import BLADE_PAST_RING, HANDLE_LENGTH, LEFT, TAB
from geometry.hardware.stop_sled import BORDER, EXIT_SIDE, STOP_GAP, STOP_TAIL, StopSled

Point = tuple[float, float]

STOP_PAST = 8.0  # of a stop past the piece
SQUARE = 0.05  # mm: an end that slants less is square


class TrimSledLayout(StopSled):
    """Where everything stands on the sled. `slant` is the angle of a slab's ends to its sawn sides."""

    slant: float
    width: float  # of a slab
    length: float  # of the piece along it, as trimmed
    slab_length: float  # from tip to tip

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
    def sides(self) -> tuple[float, float]:
        """The shorter and the longer side of a piece: either is trimmed here, the other against the fence."""
        return (min(self.width, self.length), max(self.width, self.length))

    @property
    def cut_right(self) -> float:
        return self.kerf

    @property
    def pad(self) -> tuple[float, float]:
        return pad(self.sides[1], self.sheet, self.sides[0])

    @property
    def foot(self) -> tuple[float, float]:
        """x of the hold-down's finger where it bears, from and to: on the shorter piece that is trimmed here."""
        start, thick = foot(self.sides[0], self.sheet)
        return (-start - thick, -start)

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
    def pin_line(self) -> float:
        return sum(self.stop_depth) / 2

    @property
    def fence_ends(self) -> tuple[float, float]:
        """x from and to: past the hold-down, and past the waste of the first cut."""
        waste = self.slab_length - self.length - self.run
        right = max(waste + self.run + BORDER, self.kerf + self.clear_of_blade + TAB + BORDER)
        return (min(self.hold_left - BORDER, -self.clear_of_blade - 2 * TAB - 60), right)

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
