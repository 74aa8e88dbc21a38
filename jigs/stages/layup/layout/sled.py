"""The sled that cuts slabs from a stack of strips at a layup's angle: blade upright, one fence, a pin for the pitch.

The stack lies flat, its depth upright, its first or last ply against the fence, its tail towards the operator, so
that the thrust of the blade pushes it back along the fence and not into the blade. x = 0 is the blade's side
towards the slab, y runs away from the operator; the origin is where the fence's face meets x = 0. A place at the
fence is (along, out): from the origin down the fence to the tail, and from its face towards the stack. Distances
without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, pi, sin

from geometry.blanks.sawing import half_chord
from geometry.hardware import hold_down
from geometry.hardware.sled_sizes import BLADE_PAST_RING, HANDLE_LENGTH, TAB, TIE, TableSled
from geometry.records import Record

Point = tuple[float, float]

FENCE_LENGTH = 220.0  # from the hold-down to the tail
FOOT_WIDTH = 20.0  # of the foot on a slab, square to the blade, at most
FOOT_SHORT = 0.5  # of it, at the slab's far side
FROM_FENCE = 1.0  # of it
LEAST_FOOT = 10.0  # of it, out from the fence
PAST_SLAB = 10.0  # of the fence past a slab
EXIT_LEFT, EXIT_RIGHT = 25.0, 45.0  # of the exit block beside the blade
EXIT_BEHIND, EXIT_DEPTH, LEAST_EXIT = 20.0, 60.0, 20.0  # behind and before the end of the cut
BETWEEN = 3.0  # of the exit block and the fence
BORDER = 15.0  # of base round everything
HANDLE_BORDER = 25.0  # of base before the handle
LEVEL = pi / 4  # a fence at a lower angle runs so near the operator that the handle stands beyond the stack


def tail_held(angle: float, kerf: float, clear_of_blade: float) -> float:
    """Stack, along the fence from the blade's kept side, that the hold-down has to find in the last cut."""
    return (kerf + clear_of_blade) / sin(angle) + hold_down.HOLD_WIDTH


class Foot(Record):
    """A strip of sheet between a finger and a slab, its sides parallel to the blade, its ends to the fence."""

    left: float  # from the blade to its near side
    width: float
    out: tuple[float, float]  # of its two ends, from the fence's face


class LayupSledLayout(TableSled):
    """Where everything stands on the sled."""

    angle: float  # of the plies, and of the fence, to the blade
    width: float  # of a slab, from its one sawn side to the other
    stack: float  # across the plies: strips and their thickness
    height: float  # of the stack: the depth of a piece
    kerf: float

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
        return self.height + hold_down.ABOVE

    def place(self, along: float, out: float = 0.0) -> Point:
        """x and y of a place at the fence."""
        c, s = cos(self.angle), sin(self.angle)
        return (-along * s - out * c, -along * c + out * s)

    def beside_blade(self, x: float, out: float) -> Point:
        """x and y of a place so far out from the fence, on the line parallel to the blade at `x`."""
        return self.place(-(x + out * cos(self.angle)) / sin(self.angle), out)

    @property
    def pin(self) -> Point:
        """Touches the middle of the sawn end when the stack has moved on by the pitch."""
        return (
            self.width + self.fittings.pin / 2,
            (self.width * cos(self.angle) + self.stack / 2) / sin(self.angle),
        )

    @property
    def hold(self) -> hold_down.HoldDown:
        """On the stack."""
        return hold_down.HoldDown((self.height,), hold_down.pad(self.stack, self.sheet), self.sheet)

    @property
    def stack_hold(self) -> float:
        """Along the fence: the end nearest the blade of the stack's slide, which runs on to the tail."""
        return self.stack_feet[0] - hold_down.MARGIN

    @property
    def slab_foot(self) -> Foot:
        """What bears on the slab: parallel to the blade, from beside the fence to near the slab's other end."""
        wide = min(self.width - FOOT_SHORT, FOOT_WIDTH + hold_down.FOOT_CLEAR) - hold_down.FOOT_CLEAR
        return Foot(hold_down.FOOT_CLEAR, wide, (FROM_FENCE, max(0.9 * self.stack, FROM_FENCE + LEAST_FOOT)))

    @property
    def slab_pins(self) -> tuple[Point, Point]:
        """x and y of the two pins in it."""
        foot, s = self.slab_foot, sin(self.angle)
        x = max(hold_down.PIN_CLEAR, foot.left + foot.width / 2)
        outs = (foot.out[0] + hold_down.PIN_END * s, foot.out[1] - hold_down.PIN_END * s)
        first, second = ((x, self.beside_blade(x, out)[1]) for out in outs)
        return (first, second)

    @property
    def slab_finger(self) -> float:
        """Along the fence: the middle of the finger that presses the foot, over the foot's middle."""
        foot = self.slab_foot
        return -((foot.left + foot.width / 2) + sum(foot.out) / 2 * cos(self.angle)) / sin(self.angle)

    @property
    def slab_hold(self) -> hold_down.HoldDown:
        """Its slide, which passes over the foot, and its finger, which lies on it."""
        out, gap = self.slab_foot.out, self.sheet + 1.0
        reach = (self.sheet + 1.0, sum(out) / 2 + self.sheet)
        return hold_down.HoldDown(
            (self.height,), reach, self.sheet, fingers=1, gap=gap, foot=self.sheet,
            pivot=hold_down.PIVOT + hold_down.GAP - gap,
        )  # fmt: skip

    @property
    def slab_slide(self) -> float:
        """Along the fence: the end nearest the blade of the slab's slide, which runs on away from the tail."""
        return self.slab_finger + self.sheet / 2 + hold_down.MARGIN

    @property
    def stack_feet(self) -> tuple[float, float]:
        """Along the fence: from and to, of the fingers on the stack."""
        end = tail_held(self.angle, self.kerf, self.clear_of_blade)
        return (end - hold_down.HOLD_WIDTH, end)

    @property
    def fence_start(self) -> float:
        """Along the fence: its end beyond the slab."""
        tab = self.clear_of_blade / sin(self.angle) + TAB + PAST_SLAB
        slide = self.slab_hold.width - self.slab_slide + PAST_SLAB
        return -max((self.width + PAST_SLAB) / sin(self.angle), tab, slide)

    @property
    def fence_end(self) -> float:
        return self.stack_feet[0] + FENCE_LENGTH

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
        return max(fence + BORDER, self.pin[0] + self.fittings.pin / 2 + BORDER, 100.0)
