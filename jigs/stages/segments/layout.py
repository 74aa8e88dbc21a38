"""Where everything stands on the carriers that cut segments.

Carrier for strips lying flat, blade tilted: x along the fence, from where the blade's kept side meets the
base's top; y away from the operator, the fence's face at y = 0; the blade leans towards -x. The strip comes
from -x; the segment is kept on +x, where the blade leans away from it and nothing traps it. Its tip, the
corner of its outer edge, is up; the strip is turned over after every cut. For a blade that tilts to the right all of
it is mirrored as it is drawn; the mitre slot is then on the segment's side. Distances without a formula are
common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, floor, tan

from geometry.blanks.sawing import half_chord
from geometry.bodies.torus import SegmentCut
from geometry.hardware.hold_down import ABOVE, HOLD_WIDTH, MARGIN, HoldDown, foot, pad
from geometry.hardware.sled_sizes import (
    ARM,
    ARM_FOOT,
    BATTEN,
    BLADE_PAST_RING,
    HANDLE_BORDER,
    HANDLE_LENGTH,
    LEFT,
    PAST_STRIP,
    STRIP,
    TIE,
    EdgeGuide,
    TableSled,
)
from geometry.records import replace

RIGHT = 175.0  # of base past the stop: the segment's lever and a gusset beyond it


def strip_held(clear_of_blade: float) -> float:
    """Of a strip cut across, that has to be left for the hold-down in the last cut."""
    return clear_of_blade + HOLD_WIDTH


class CarrierLayout(TableSled):
    """The carrier of one segment cut, blade tilted by the mitre angle."""

    cut: SegmentCut
    guide: EdgeGuide | None  # on a bandsaw, whose table tilts: instead of blade and mitre slot
    rail: float = 0.0  # width of the rail beside blocks that are too short to be strips
    slot_on_kept_side: bool = False  # of the table saw: where the blade leans away from the mitre slot

    @property
    def mirrored(self) -> bool:
        """Whether it is drawn the other way round."""
        return self.slot_on_kept_side

    @property
    def width(self) -> float:
        """Of what lies against the fence: the strip, or blocks and their rail."""
        return self.cut.length + self.rail

    @property
    def held(self) -> float:
        """Strip that has to be left for the hold-down in the last cut."""
        return strip_held(self.clear_of_blade)

    @property
    def stop(self) -> float:
        """From the blade's kept side, at the base's top, to the stop: half of outer and inner edge."""
        return (self.cut.outer_edge + self.cut.inner_edge) / 2

    @property
    def lean(self) -> float:
        """How far the blade leans over at the strip's top."""
        return self.cut.depth * tan(self.cut.tilt)

    @property
    def blade_height(self) -> float:
        """Along the tilted blade, from the table; on a bandsaw of its guides, which have to pass over the fence."""
        above = ABOVE if self.guide else 0.0
        return (self.cut.depth + self.sheet + above) / cos(self.cut.tilt) + BLADE_PAST_RING

    @property
    def called_height(self) -> str:
        """What stands so high."""
        return f"{'Guides' if self.guide else 'Blade'} above the table, along the {'blade' if self.guide else 'tilt'}"

    @property
    def pivot(self) -> tuple[float, float]:
        return (self.stop + ARM / 2, self.width + PAST_STRIP)

    @property
    def arm_reach(self) -> float:
        """From the pivot to the arm's nose, over most of the strip but clear of the hold-downs."""
        width = self.width
        return PAST_STRIP + width - min(0.7 * width, max(0.25 * width, self.sheet + 5))

    @property
    def pin(self) -> tuple[float, float]:
        """The pin that backs the arm while the strip is butted; drawn out to swing it clear."""
        return (self.stop + ARM + self.fittings.pin / 2, self.width + PAST_STRIP - self.arm_reach + 8)

    @property
    def packings(self) -> int:
        """How many thicknesses of sheet raise the arm so that the strip's top face meets its nose."""
        return max(0, floor((self.cut.depth - 2) / self.sheet))

    @property
    def fence_height(self) -> float:
        return self.cut.depth + ABOVE

    @property
    def blade_at_table(self) -> tuple[float, float]:
        """x of the blade's two sides at the table, under the base: the far one, the kept one."""
        kept = self.sheet * tan(self.cut.tilt)
        return (kept - self.cut.kerf / cos(self.cut.tilt), kept)

    @property
    def runner(self) -> tuple[float, float]:
        """x of the mitre slot's two sides."""
        far, kept = self.blade_at_table
        if self.slot_on_kept_side:
            return (kept + self.slot_distance, kept + self.slot_distance + self.slot_width)
        return (far - self.slot_distance - self.slot_width, far - self.slot_distance)

    @property
    def strip_edge(self) -> float:
        """x of the working edge of the strip that runs on the bandsaw's rail."""
        return self.blade_at_table[0] + self.guide.strip if self.guide else 0.0

    @property
    def left_edge(self) -> float:
        guided = self.strip_edge - STRIP if self.guide else self.runner[0] - 20
        blade = -self.lean - self.cut.kerf / cos(self.cut.tilt)  # where it stands out of the strip
        return min(-LEFT, guided, blade - self.hands_clear - HANDLE_LENGTH - HANDLE_BORDER)

    @property
    def right_edge(self) -> float:
        needed = self.stop + max(self.arm_reach + ARM, RIGHT)
        return max(needed, self.runner[1] + 20) if self.slot_on_kept_side else needed

    @property
    def far_edge(self) -> float:
        return self.pivot[1] + ARM_FOOT + 15

    @property
    def cut_end(self) -> float:
        """y at which the blade's teeth have cut the strip."""
        return -6.0 if self.guide else -half_chord(self.blade_diameter, self.blade_height) - 10

    @property
    def operator_edge(self) -> float:
        """The fence and this much of the base behind the cut tie both halves."""
        tied = min(self.cut_end, -self.sheet) - TIE
        return min(tied, min(y for _, y in self.batten) - BATTEN - 5) if self.guide else tied

    @property
    def batten(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Ends of the working edge of the batten that ends the feed on a bandsaw; beside strip and handle."""
        left = max(self.strip_edge + 15, self.left_edge + HANDLE_LENGTH + 25)
        right, end = self.right_edge - 10, self.cut_end
        if self.guide is None:
            return ((left, end), (right, end))
        return (
            (left, self.guide.table_front_line(end, left)),
            (right, self.guide.table_front_line(end, right)),
        )

    @property
    def hold(self) -> HoldDown:
        """On the strip, with two fingers."""
        return HoldDown((self.cut.depth,), pad(self.width, self.sheet), self.sheet)

    @property
    def strip_top(self) -> float:
        """x of the strip's end at its top, once it is cut."""
        return -self.lean - self.cut.kerf / cos(self.cut.tilt)

    @property
    def strip_hold(self) -> float:
        """x of the end nearest the blade of the strip's slide, which runs on towards -x."""
        return self.strip_top - self.clear_of_blade + MARGIN

    @property
    def strip_feet(self) -> tuple[float, float]:
        """x from and to, of the fingers on the strip."""
        return (self.strip_hold - MARGIN - HOLD_WIDTH, self.strip_hold - MARGIN)

    @property
    def segment_foot(self) -> tuple[float, float]:
        """x from and to, of the finger where it bears on the segment."""
        start, thick = foot(self.cut.outer_edge, self.sheet)
        return (start - self.lean, start + thick - self.lean)

    @property
    def on_segment(self) -> HoldDown:
        left, right = self.segment_foot
        return replace(self.hold, fingers=1, nose=right - left)

    @property
    def segment_hold(self) -> float:
        """x of the end nearest the blade of the segment's slide, which runs on towards +x."""
        return self.segment_foot[1] - self.sheet - MARGIN
