"""The carriage that takes the stop's arm to where each ring wants it, square to the blade.

The arm lies on the base and turns on a bolt that hangs from the carriage's plate. The plate lies over it on two
shoes, one beyond the arm's rear end, one before its nose, outside the arm's sweep, so nothing is in the way of a
thin strip. The far shoe slides along a guide square to the blade. Two bolts stand in the base; each passes
through a slot in its shoe and in the plate, and its nut clamps them. Places are the sled's: x = 0 is the blade's
kept side, y 0 half-way between the fences; or the plate's own, whose origin is the pivot. Distances without a
formula are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from dataclasses import field
from math import hypot

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import ARM, ARM_FOOT, PAST_STRIP
from geometry.records import Record

SWEPT = hypot(ARM / 2 - 3, ARM_FOOT)  # round the pivot, by the arm's rear end
LEAST_NOSE = 26.0  # from the nose's edge to the pivot: some of it shows beside the plate, to swing it by
EDGE = 11.0  # of the plate beside the pivot
FREE = 3.0  # between the arm's sweep and the shoes
SHOE = 30.0  # width of a shoe
SLOT_FROM = 6.0  # x of a slot's end, from the pivot
SPARE = 5.0  # of the slots beyond both settings
SLOT_END = 14.0  # of plate beyond a slot
LEAST_PLATE = 60.0  # beyond the pivot, so that it does not tilt on its guide
GUIDE = 20.0  # width of the guide
BORDER = 10.0  # of base round everything
PIN_FROM_END = 8.0  # of the arm's nose


class StopCarriage(Record):
    """Sizes that follow from the nearest and the farthest stop, and from the tips: `span` before and behind 0."""

    nearest: float
    farthest: float
    span: float
    clear_of_blade: float
    beside: float = 0.0  # x that the carriage's plate keeps clear of: the gallows
    fittings: Fittings = field(kw_only=True)

    @property
    def nose(self) -> float:
        """From the arm's nose edge to the pivot: the swung arm's rear end stays clear of the blade."""
        clear = self.clear_of_blade + SWEPT, self.beside + FREE + EDGE
        return max(LEAST_NOSE, max(clear) - self.nearest)

    @property
    def reach(self) -> float:
        """From the pivot to the arm's end, along the blade."""
        return 2 * self.span + PAST_STRIP

    def pivot(self, stop: float) -> tuple[float, float]:
        """Of the arm whose nose stands at `stop`."""
        return (stop + self.nose, self.span + PAST_STRIP)

    @property
    def pin(self) -> tuple[float, float]:
        """From the pivot: the pin that backs the arm while the strip is butted; drawn out to swing it clear."""
        return (ARM / 2 + self.fittings.pin / 2, PIN_FROM_END - self.reach)

    @property
    def travel(self) -> float:
        return self.farthest - self.nearest

    @property
    def plate(self) -> tuple[float, float, float, float]:
        """x and y of its lower left and its upper right corner, from the pivot."""
        right = max(LEAST_PLATE, self.slot[1] + SLOT_END)
        return (-EDGE, self.shoes[1] - SHOE / 2, right, self.shoes[0] + SHOE / 2)

    @property
    def shoes(self) -> tuple[float, float]:
        """y of the middles of the far and the near shoe, from the pivot; their slots lie there."""
        aside = FREE + SHOE / 2
        return (SWEPT + aside, -hypot(self.nose, self.reach) - aside)

    @property
    def slot(self) -> tuple[float, float]:
        """x at which a bolt is at the ends of its slot, from the pivot."""
        return (SLOT_FROM, SLOT_FROM + self.travel + 2 * SPARE)

    @property
    def bolts(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """The two bolts that stand in the base, far and near."""
        x, y = self.pivot(self.farthest)
        far, near = self.shoes
        return ((x + SLOT_FROM + SPARE, y + far), (x + SLOT_FROM + SPARE, y + near))

    @property
    def nearest_edge(self) -> float:
        """x of the plate's edge when the stop is nearest the blade."""
        return self.pivot(self.nearest)[0] - EDGE

    @property
    def guide(self) -> tuple[float, float, float, float]:
        """x and y of the guide's lower left and upper right corner: along the far shoe at every setting."""
        low = self.pivot(0.0)[1] + self.plate[3]
        return (self.nearest_edge, low, self.pivot(self.farthest)[0] + self.plate[2], low + GUIDE)

    @property
    def base_far(self) -> float:
        return self.guide[3] + BORDER

    @property
    def base_near(self) -> float:
        return self.pivot(0.0)[1] + self.plate[1] - BORDER

    @property
    def base_right(self) -> float:
        """The arm, swung half a right angle, still lies on the base."""
        swung = 0.75 * self.reach + ARM / 2
        return self.pivot(self.farthest)[0] + max(self.plate[2], swung) + BORDER
