"""The holder in which a piece is sanded to size: its glue face stands out by what is left to take off.

x across the pocket, 0 in its middle; y from the pocket's floor, on which the piece's other end stands, to the
reference edge, which is the finished size. Distances are common practice, no source. Lengths mm.
"""

from __future__ import annotations

from dataclasses import field
from math import floor

from geometry.hardware.fittings import Fittings
from geometry.records import dataclass

SHOULDER = 28.0  # of the reference edge on both sides of the pocket
FLOOR = 30.0  # under the pocket
RELIEF = 2.0  # of the pocket's inner corners
BAR = 18.0  # width of the bar over the piece
BAR_SHORT = 2.0  # of the reference edge
BOLT_SHORT = 10.0
PROUD = 1.0  # of the piece above the plates, so that the bar bears on it
FINGER, NOTCH = 12.0, 15.0  # of the size gauge: width between notches, and their depth
GAUGE_HEIGHT = 45.0


@dataclass(frozen=True)
class SandingHolder:
    """For the faces at one end of side a, or of side b."""

    side: str  # "a" or "b", that is sanded to size
    cut: float  # that side as cut
    finished: float
    across: float  # the other side, as cut
    depth: float
    sheet: float
    play: float
    fittings: Fittings = field(kw_only=True)

    @property
    def left(self) -> float:
        """What is taken off: how far the glue face stands out."""
        return self.cut - self.finished

    @property
    def half(self) -> float:
        """Of the pocket's width."""
        return (self.across + self.play) / 2

    @property
    def half_width(self) -> float:
        """Of the whole."""
        return self.half + SHOULDER

    @property
    def layers(self) -> int:
        """Plates with the pocket, glued to each other: the piece stands proud of them."""
        return max(1, floor((self.depth - PROUD) / self.sheet))

    @property
    def bolts(self) -> tuple[tuple[float, float], tuple[float, float]]:
        x, y = self.half + SHOULDER / 2, min(self.finished / 2, self.finished - BOLT_SHORT)
        return ((-x, y), (x, y))

    @property
    def bar(self) -> tuple[float, float]:
        """y of the bar's two sides."""
        y = self.bolts[0][1]
        return (y - BAR / 2, min(y + BAR / 2, self.finished - BAR_SHORT))

    @property
    def steps(self) -> tuple[float, float, float]:
        """Widths of the gauge's notches: as cut, half of it left, finished."""
        return (self.cut, (self.cut + self.finished) / 2, self.finished)

    @property
    def notches(self) -> tuple[tuple[float, float], ...]:
        """x from and to of each notch."""
        found, x = list[tuple[float, float]](), FINGER
        for width in self.steps:
            found.append((x, x + width))
            x += width + FINGER
        return tuple(found)

    @property
    def bolt_hole(self) -> float:
        """Diameter."""
        return self.fittings.bolt_hole
