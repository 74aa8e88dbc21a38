"""The sled that cuts slabs from a stack of strips at a layup's angle: blade upright, one fence, a pin for the pitch.

The stack lies flat, its depth upright, its first or last ply against the fence, its tail towards the operator, so
that the thrust of the blade pushes it back along the fence and not into the blade. x = 0 is the blade's side
towards the slab, y runs away from the operator; the origin is where the fence's face meets x = 0. A place at the
fence is (along, out): from the origin down the fence to the tail, and from its face towards the stack. Distances
without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, cos, pi, sin

from geometry.sawing import half_chord
from geometry.segment_carrier import FENCE_ABOVE, HOLD_WIDTH, PIN, TIE
from geometry.sled import BLADE_PAST_RING, HANDLE_LENGTH, TAB

Point = tuple[float, float]

FENCE_LENGTH = 220.0  # from the hold-down to the tail
PAST_SLAB = 10.0  # of the fence past a slab
EXIT_LEFT, EXIT_RIGHT = 25.0, 45.0  # of the exit block beside the blade
EXIT_BEHIND, EXIT_DEPTH, LEAST_EXIT = 20.0, 60.0, 20.0  # behind and before the end of the cut
BETWEEN = 3.0  # of the exit block and the fence
BORDER = 15.0  # of base round everything
HANDLE_BORDER = 25.0  # of base before the handle
LEVEL = pi / 4  # a fence at a lower angle runs so near the operator that the handle stands beyond the stack


def tail_held(angle: float, kerf: float, clear_of_blade: float) -> float:
    """Stack, along the fence from the blade's kept side, that the hold-down has to find in the last cut."""
    return (kerf + clear_of_blade) / sin(angle) + HOLD_WIDTH


@dataclass(frozen=True)
class LayupSledLayout:
    """Where everything stands on the sled."""

    angle: float  # of the plies, and of the fence, to the blade
    width: float  # of a slab, from its one sawn side to the other
    stack: float  # across the plies: strips and their thickness
    height: float  # of the stack: the depth of a piece
    sheet: float
    play: float
    clear_of_blade: float
    hands_clear: float
    blade_diameter: float
    kerf: float
    slot_distance: float
    slot_width: float

    @property
    def pitch(self) -> float:
        """How far the stack moves on along the fence from one cut to the next."""
        return (self.width + self.kerf) / sin(self.angle)

    @property
    def slab_length(self) -> float:
        """Of a slab along its sawn sides, from tip to tip."""
        return (self.stack + self.width * cos(self.angle)) / sin(self.angle)

    @property
    def saw_height(self) -> float:
        return self.height + self.sheet + BLADE_PAST_RING

    @property
    def fence_height(self) -> float:
        return self.height + FENCE_ABOVE

    def place(self, along: float, out: float = 0.0) -> Point:
        """x and y of a place at the fence."""
        c, s = cos(self.angle), sin(self.angle)
        return (-along * s - out * c, -along * c + out * s)

    @property
    def pin(self) -> Point:
        """Touches the middle of the sawn end when the stack has moved on by the pitch."""
        return (self.width + PIN / 2, (self.width * cos(self.angle) + self.stack / 2) / sin(self.angle))

    @property
    def hold(self) -> tuple[float, float]:
        """Along the fence: the hold-down's two ends."""
        end = tail_held(self.angle, self.kerf, self.clear_of_blade)
        return (end - HOLD_WIDTH, end)

    @property
    def fence_start(self) -> float:
        """Along the fence: its end beyond the slab."""
        tab = self.clear_of_blade / sin(self.angle) + TAB + PAST_SLAB
        return -max((self.width + PAST_SLAB) / sin(self.angle), tab)

    @property
    def fence_end(self) -> float:
        return self.hold[0] + FENCE_LENGTH

    @property
    def tabs(self) -> tuple[float, float, float]:
        """Along the fence: where each tab starts; none where the blade passes."""
        past = self.kerf + self.clear_of_blade + self.sheet * cos(self.angle)
        return (self.fence_start + PAST_SLAB / 2, past / sin(self.angle), self.fence_end - 20 - TAB)

    @property
    def free_behind(self) -> float:
        """y that the fence's rear leaves free over the width of the exit block."""
        x = -self.kerf - EXIT_LEFT
        along = (self.sheet * cos(self.angle) - x) / sin(self.angle)
        return self.place(along, -self.sheet)[1] - BETWEEN

    @property
    def cut_end(self) -> float:
        """y of the blade's front edge when the stack is cut through, inside the exit block."""
        corner = self.place(self.kerf / sin(self.angle))[1]
        through = corner - half_chord(self.blade_diameter, self.saw_height) - 10
        return min(through, self.free_behind - LEAST_EXIT)

    @property
    def exit_block(self) -> tuple[float, float, float, float]:
        """x and y of its lower left and its upper right corner."""
        far = min(self.cut_end + EXIT_DEPTH, self.free_behind)
        return (-self.kerf - EXIT_LEFT, self.cut_end - EXIT_BEHIND, EXIT_RIGHT, far)

    @property
    def exit_layers(self) -> int:
        return ceil((self.height + 15) / self.sheet)

    @property
    def handle(self) -> Point:
        """Its left end, on the side away from the operator: behind the fence, or beyond the stack."""
        c, s = cos(self.angle), sin(self.angle)
        y = min(self.cut_end, self.place(self.fence_end, -self.sheet)[1]) - TIE + HANDLE_BORDER + self.sheet
        right = -self.kerf - self.hands_clear
        left = right - HANDLE_LENGTH
        if self.angle >= LEVEL:  # its left end behind the fence's rear
            return (left, min(y, (left * c - self.sheet - BORDER) / s))
        return (min(right, ((y - self.sheet) * s - self.stack - BORDER) / c) - HANDLE_LENGTH, y)

    @property
    def operator_edge(self) -> float:
        return self.handle[1] - self.sheet - HANDLE_BORDER

    @property
    def far_edge(self) -> float:
        """Under the whole sawn end, and past the fence's end."""
        corner = self.place(-self.width / sin(self.angle))[1] + self.stack / sin(self.angle)
        return max(corner, self.place(self.fence_start)[1]) + BORDER

    @property
    def runner(self) -> tuple[float, float]:
        """x of the mitre slot's two sides."""
        near = -self.kerf - self.slot_distance
        return (near - self.slot_width, near)

    @property
    def left_edge(self) -> float:
        return min(self.place(self.fence_end)[0] - BORDER, self.runner[0] - 20, self.handle[0] - BORDER)

    @property
    def right_edge(self) -> float:
        fence = max(self.place(self.fence_start, out)[0] for out in (0.0, -self.sheet))
        return max(fence + BORDER, self.pin[0] + PIN / 2 + BORDER, 100.0)
