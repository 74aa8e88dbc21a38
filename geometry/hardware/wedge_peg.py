"""The wooden peg that keeps the wedge stack in its place on the sled's fence.

The stack lies loose between fence and ring, and the ring squeezes it towards the apex. The peg, glued in its fence face
near the thick end, goes into a hole in the fence: it stops the stack along the fence both ways, and up. Frame as in
the layout of the wedge-ring sled. Distances are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from math import hypot, tan

import numpy as np

from geometry.blanks.sawing import WedgeRingCut
from geometry.hardware.draw_rod import DrawRod
from geometry.records import Record

PEG_DEPTH = 10.0  # glued into the stack, at most
LEAST_DEPTH = 5.0
PEG_FLOOR = 3.0  # of stack left under the bore
PEG_WALL = 3.0  # of wood beside peg or hole
_END = 8.0  # of stack from the peg's middle to the thick end, at least
_STEP = 0.5  # of heights tried where no plate's middle will do


class WedgePeg(Record):
    """Where the peg's hole stands in the fence."""

    cut: WedgeRingCut
    place: float  # s
    height: float

    @property
    def to_stop(self) -> float:
        """From the stop, along the fence."""
        return self.cut.stop - self.place

    def thickness(self, thinner: float = 0.0) -> float:
        """Of the stack at the peg, for the sled's wedge or one thinner by this."""
        return self.cut.wedge_at_stop - thinner + self.to_stop * tan(self.cut.half_wedge)

    def depth(self, thinner: float = 0.0) -> float:
        """Of its bore, blind."""
        return min(PEG_DEPTH, self.thickness(thinner) - PEG_FLOOR)

    def fits(self, thinner: float = 0.0) -> bool:
        """Whether the stack is thick enough."""
        return self.depth(thinner) >= LEAST_DEPTH - 1e-9


def wedge_peg(rod: DrawRod, height: float, gusset: float, layers: int) -> WedgePeg | None:
    """As near to the thick end as the gusset behind the fence leaves room to bore through it; None where the draw rod's
    bore leaves no room beside it.

    `height` is the rod's above the base, `gusset` the s of the gusset's side, `layers` the stack's plates.
    """
    cut, hole, sheet = rod.cut, rod.fittings.peg_hole / 2, rod.sheet
    place = max(gusset + hole + PEG_WALL, cut.stop - 2 * cut.half_width + _END)
    plates = [(i + 0.5) * sheet for i in range(layers)]
    low, high = hole + PEG_WALL, layers * sheet - rod.fittings.peg / 2 - PEG_WALL
    heights = [v for v in (*plates, *np.arange(low, high + 1e-9, _STEP).tolist()) if low <= v <= high]
    clear, beside = rod.wedge_hole / 2 + rod.fittings.peg / 2 + PEG_WALL, rod.fence_place - place
    free = (v for v in heights if beside > 0 and hypot(beside, v - height) >= clear)
    found = next(free, None)
    return None if found is None else WedgePeg(cut, place, found)
