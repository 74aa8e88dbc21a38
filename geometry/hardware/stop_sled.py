"""A sled with one fence, a stop on two pins before it, and a hold-down: the piece held between stop and blade.

x = 0 is the blade's side towards the piece, which lies at x < 0; y runs away from the operator, the fence's face is
y = 0. Distances without a formula are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from abc import abstractmethod

from geometry.blanks.sawing import half_chord
from geometry.hardware.hold_down import ABOVE, MARGIN, HoldDown
from geometry.hardware.sled_sizes import TAB, TIE, TableSled
from geometry.plane.edges import Point

STOP_GAP = 2.0  # between a stop and the fence: dust
STOP_TAIL = 110.0  # of a stop behind its working edge, with its pins
PIN_END, PINS_APART = 12.0, 32.0
EXIT_SIDE = 40.0  # of the exit block beside the blade
BORDER = 15.0  # of base round everything


class StopSled(TableSled, kw_only=True):
    """What such sleds have alike, for a piece of a height."""

    height: float
    kerf: float

    @property
    @abstractmethod
    def saw_height(self) -> float:
        """Along the blade, from the table."""

    @property
    @abstractmethod
    def cut_right(self) -> float:
        """x of the blade's far side at the piece's top."""

    @property
    @abstractmethod
    def foot(self) -> Point:
        """x of the hold-down's finger where it bears, from and to."""

    @property
    @abstractmethod
    def pad(self) -> Point:
        """y from and to, where the finger bears."""

    @property
    @abstractmethod
    def stop_left(self) -> float:
        """x of every stop's rear."""

    @property
    @abstractmethod
    def pin_line(self) -> float:
        """y of every stop's two pins."""

    @property
    @abstractmethod
    def fence_ends(self) -> Point:
        """x from and to."""

    @property
    @abstractmethod
    def far_edge(self) -> float: ...

    @property
    @abstractmethod
    def right_edge(self) -> float: ...

    @property
    @abstractmethod
    def runner(self) -> Point:
        """x of the mitre slot's two sides."""

    @property
    def hold(self) -> HoldDown:
        """On the piece, with one finger."""
        left, right = self.foot
        return HoldDown((self.height,), self.pad, self.sheet, fingers=1, nose=right - left)

    @property
    def slide(self) -> float:
        """x of the slide's end nearest the blade; it runs on towards -x."""
        return self.foot[0] + self.sheet + MARGIN

    @property
    def pins(self) -> tuple[Point, Point]:
        """Of every stop."""
        x, y = self.stop_left + PIN_END, self.pin_line
        return ((x, y), (x + PINS_APART, y))

    @property
    def fence_height(self) -> float:
        return self.height + ABOVE

    @property
    def tabs(self) -> tuple[float, float, float]:
        """x at which each tab of the fence starts; none where the blade passes."""
        left, right = self.fence_ends
        return (left + 8, -self.clear_of_blade - 8 - TAB, right - 8 - TAB)

    @property
    def cut_end(self) -> float:
        """y of the blade's front edge when the piece is cut through, inside the exit block."""
        return -half_chord(self.blade_diameter, self.saw_height) - 10

    @property
    def exit_block(self) -> tuple[float, float, float, float]:
        """x and y of its lower left and its upper right corner."""
        return (-EXIT_SIDE, self.cut_end - 20, self.cut_right + EXIT_SIDE, -self.sheet)

    @property
    def operator_edge(self) -> float:
        return min(self.cut_end, -self.sheet) - TIE
