"""Where everything stands on the carrier that brings a half, or a quarter, to a sanding board.

Seen from above: the torus axis is the origin, the planned line y = 0 is the abrasive's face, the half lies
at y > 0 on one of its flats, its rings counted from +x. The carrier's two feet meet the bare board beside
the abrasive when the planned line is reached. Where strips stand between the rings, the axis lies half of one behind
that line. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, sin, sqrt

from geometry.bodies.torus import Blank
from geometry.records import dataclass

BARE = 40.0  # width of each foot and of the bare board that it meets
BESIDE = 15.0  # between abrasive and foot
FRONT = 4.0  # of the carrier's edge behind the planned line, between its feet
BESIDE_FRONT = 10.0  # of a cheek's slot behind that edge
BAR_PAST = 10.0  # of the clamp's bar past the middle of the rings
BEHIND = 20.0


@dataclass(frozen=True)
class Cheek:
    """One stop cheek: its ring's direction and how far its middle is from the middle of the outer flat."""

    angle: float
    offset: float
    for_quarter: bool = False


@dataclass(frozen=True)
class TruingLayout:
    """Carrier, sanding board and base; `quarter` is how many rings a quarter has."""

    blank: Blank
    quarter: int
    spare: float  # sanded off each end of a half
    abrasive: float
    sheet: float
    play: float
    cheek_length: float

    @property
    def behind(self) -> float:
        """How far the torus axis lies behind the planned line: half of a strip is still to go between the halves."""
        return self.blank.ring_spacer / 2

    @property
    def half(self) -> int:
        return self.blank.wedge_rings // 2

    @property
    def swing(self) -> float:
        return self.blank.swing_radius

    def _ring(self, index: int) -> float:
        return (2 * index + 1) * self.blank.half_wedge

    @property
    def offsets(self) -> tuple[float, ...]:
        """Two cheeks on one flat if they find room on it, so that the half cannot roll."""
        quarter = self.blank.thick_edge / 4
        return (-quarter, quarter) if 2 * quarter >= self.sheet + 4 else (0.0,)

    @property
    def cheeks(self) -> tuple[Cheek, ...]:
        """On two rings of the half, one from each side; one more for a quarter, near its end."""
        first = self.half // 4
        rings = (first, self.half - 1 - first)
        both = tuple(Cheek(self._ring(ring), offset) for ring in rings for offset in self.offsets)
        clear = FRONT + self.sheet / 2 + BESIDE_FRONT
        low = (
            ring for ring in range(self.quarter) if self.blank.outer_radius * sin(self._ring(ring)) > clear
        )
        free = next((ring for ring in low if ring not in rings), None)
        return both if free is None else (*both, Cheek(self._ring(free), 0.0, for_quarter=True))

    @property
    def cheek_end(self) -> float:
        """Radius at which the cheeks end."""
        return self.blank.outer_radius + self.cheek_length

    @property
    def half_width(self) -> float:
        """Of carrier and board: past the half, room for the feet and for every cheek."""
        cheeks = max(self.cheek_end * abs(cos(cheek.angle)) for cheek in self.cheeks) + self.sheet
        return max(self.foot_start + BARE, cheeks + BEHIND)

    @property
    def foot_start(self) -> float:
        """x at which a foot, and the bare board, begins."""
        return self.swing + BESIDE

    @property
    def depth(self) -> float:
        """y of the carrier's rear edge."""
        aside = (-self.sheet / 2, self.sheet / 2)
        ends = (
            self.place(cheek, self.cheek_end, cheek.offset + half) for cheek in self.cheeks for half in aside
        )
        return max(y for _, y in ends) + BEHIND

    @property
    def bolt(self) -> float:
        """y of the clamp's bolt, inside the hole."""
        return max(self.blank.inner_radius / 2, FRONT + BESIDE_FRONT)

    @property
    def bar_length(self) -> float:
        """The bar lies across both sides of the half."""
        return 2 * (sqrt(self.blank.centre**2 - self.bolt**2) + BAR_PAST)

    def place(self, cheek: Cheek, radial: float, across: float) -> tuple[float, float]:
        """A place in a cheek's frame: `radial` from the axis, `across` from the ring's mid-plane."""
        c, s = cos(cheek.angle), sin(cheek.angle)
        return (radial * c - across * s, radial * s + across * c - self.behind)
