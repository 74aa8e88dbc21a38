"""The wedge-ring sled on a bandsaw: same fence and stop, the base open in front and tied behind.

Frame as in the wedge-ring sled's layout: the cut runs along x = 0, y away from the operator. The blade comes in at the
base's far edge; the last part of the base, towards the operator, is never cut. A rail clamped to the
table's left edge gives the direction: it tapers by the measured drift, and a strip under the base runs on
it. Distances without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from geometry.hardware.sled_sizes import BATTEN, BLADE_PAST_RING, TAB, EdgeGuide
from jigs.stages.wedge_rings.layout.sled import SCREW_ABOVE, SledBody

SLOT = 3.0  # drawn beside the wood that the first pass trims
PAST_RING = 12.0  # of the cut, behind the ring
BEHIND_BRIDGE = 25.0  # of base
BRIDGE_HEIGHT = 70.0
BRIDGE_LEFT = 110.0  # of the bridge beside the blade
RELEASE = 8.0  # of the slot's end, where the trimmed strip comes free
FREE_SIDE = 60.0  # of the base beyond the slot, for the offcut


class BandsawLayout(SledBody):
    """The sled of one wedge-ring cut, for a bandsaw."""

    guide: EdgeGuide

    @property
    def called_height(self) -> str:
        return "Guides above the table"

    @property
    def saw_height(self) -> float:
        """Fence, jaw and the jaw's screw pass under the guides too."""
        return self.ring_height + SCREW_ABOVE + self.sheet + BLADE_PAST_RING

    @property
    def feed_end(self) -> float:
        """y of the teeth when the feed must stop: the ring is cut through."""
        return self.blade_leaves_ring - PAST_RING

    @property
    def slot_end(self) -> float:
        """The drawn slot's end, a little past the end of the feed."""
        return self.feed_end - 5

    @property
    def slot_sides(self) -> tuple[float, float]:
        """x of the drawn slot's two sides; the first pass trims what is left of it."""
        return (self.trim, self.trim + SLOT)

    @property
    def right_edge(self) -> float:
        return self.slot_sides[1] + FREE_SIDE

    @property
    def operator_edge(self) -> float:
        return min(self.bridge[0] - BEHIND_BRIDGE, min(y for _, y in self.batten) - BATTEN - 5)

    @property
    def left_edge(self) -> float:
        return min(self.handle - 50, self.guide.base_edge)

    @property
    def bridge(self) -> tuple[float, float]:
        """y of the upright bridge's two faces, behind the end of the cut and behind fence and cheeks."""
        cheek = self.plan(self.fence_end, self.cheeks[-1] + self.sheet)[1] - 8
        face = min(self.slot_end - 20, cheek)
        return (face - self.sheet, face)

    @property
    def bridge_sides(self) -> tuple[float, float]:
        """x of its two ends."""
        return (max(-BRIDGE_LEFT, self.handle + 10), self.right_edge - 5)

    @property
    def bridge_tabs(self) -> tuple[float, ...]:
        """x at which each of its tabs starts: one in either half of the base."""
        left, right = self.bridge_sides
        return (left + 10, right - 10 - TAB)

    @property
    def batten(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Ends of its working edge: from beside strip or handle, across the cut's line, to the right."""
        left, right = max(15 - self.guide.table_left, self.handle + 10), self.right_edge - 10
        front = self.guide.table_front_line
        return ((left, front(self.feed_end, left)), (right, front(self.feed_end, right)))
