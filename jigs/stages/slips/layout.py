"""The box in which slips are cut to length by hand, and what they are slit from.

x along the slip from the saw's line, y from the fence's face towards the front, on the box's base. Distances without
a formula are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from math import ceil

from geometry.hardware.sled_sizes import TAB
from geometry.records import Record
from jigs.words.lengths import MM_PER_INCH, Unit

KERF = 1.0  # of a fine hand saw
PROUD = 2.0  # that a slip is longer than its joint at least: it is trimmed after gluing
STEP: dict[Unit, float] = {
    "mm": 1.0,
    "in": MM_PER_INCH / 16,
}  # its length is a whole number of these: nothing depends on it
SLIT_FROM = 60.0  # least wood between blade and rip fence when a slip is slit off its outside
SLIP_SANDED = 0.2  # off the sawn face of a slip, on a flat board
BEFORE = 60.0  # of base before the saw's line: what is in the hand
PAST = 50.0  # past the longest slip: a clamp for the block
BESIDE = 45.0  # in front of the slips: the hold-down's bolts
BEHIND = 25.0  # behind the fence: a clamp or a vice
BOLT = 22.0  # from the slips to the hold-down's bolts
FENCE = 40.0  # its height
HOLD_TO = 12.0  # the hold-down ends so far before the shortest slip's end: the block stands there


def slip_length(joint: float, unit: Unit) -> float:
    """Of a slip that stands out at both ends of a joint so long."""
    step = STEP[unit]
    return ceil((joint + PROUD) / step - 1e-9) * step


class SlipBox(Record):
    """Sizes by the longest and the shortest slip, and the tallest: they lie flat, as tall as their rings."""

    longest: float
    shortest: float
    tallest: float
    sheet: float
    play: float

    @property
    def ends(self) -> tuple[float, float]:
        """x of the base's two ends."""
        return (-BEFORE, max(self.longest, TAB) + PAST)

    @property
    def sides(self) -> tuple[float, float]:
        """y of the base's two sides."""
        return (-self.sheet - BEHIND, self.tallest + BESIDE)

    @property
    def tabs(self) -> tuple[float, float]:
        """x at which each of the fence's tabs starts, on either side of the saw."""
        left, right = self.ends
        return (left + 10, right - 10 - TAB)

    @property
    def hold(self) -> tuple[float, float]:
        """x of the hold-down's two ends: over both sides of the cut."""
        return (self.ends[0] + 8, max(8.0, self.shortest - HOLD_TO))

    @property
    def bolts(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Of the hold-down, before the slips, on either side of the saw's line."""
        y = self.tallest + BOLT
        return ((self.hold[0] + 12, y), (-14.0, y))
