"""The waste block: the faceplate's screws go into it, and the lowest ring is glued to it."""

from __future__ import annotations

from math import cos, pi

from geometry.hardware.fittings import Screws
from geometry.lathe.turning import Runout, rough_speed_limits
from geometry.records import Record
from jigs.asked.woods import KNOWN_HEAVY

EDGE = 10.0  # mm of the block's rim that its screws stay off


class WasteBlock(Record):
    """Sizes in mm, as it is turned."""

    thickness: float
    least: float  # diameter that its glue needs
    most: float  # of the lowest ring
    screws: Screws
    runout: Runout

    @property
    def weighs(self) -> float:
        """N, at most."""
        return KNOWN_HEAVY * 9.81e-9 * pi / 4 * self.most**2 * self.thickness

    @property
    def speed(self) -> tuple[int, int]:
        """rpm, before it is round: corner to corner of eight sides sawn outside its largest circle."""
        return rough_speed_limits(self.most / cos(pi / 8))
