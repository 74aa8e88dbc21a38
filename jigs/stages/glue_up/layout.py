"""Where everything stands on the clamping blocks and on the truing carrier."""

from __future__ import annotations

from math import cos, pi, sin, sqrt, tan

from geometry.bodies.torus import Blank
from geometry.records import Record

RIM_END = 6.0  # height of a rim block beside the joint
LEAST_FACE = 12.0  # of a block, along the joint and square to it; smaller ones are not made
INSET = 2.0  # of a block from the edges of the flat it stands on


class ClampBlocks(Record):
    """Blocks for one side of a joint: on the flats above and below, and on the rim.

    Where strips stand between the rings, the axis is the one that the rings would have without them.
    """

    blank: Blank  # without strips between its rings
    height: float  # of the clamps' faces above the wood
    set_back: float  # from the joint
    parted: float = 0.0  # how much farther from the torus axis strips move the rings

    @property
    def pull_radius(self) -> float:
        """Radius of the joint's middle, through which the two flats' clamps pull together."""
        return self.blank.centre / cos(self.blank.half_wedge)

    @property
    def pull_from_axis(self) -> float:
        """The same from the torus axis, along the joint."""
        return self.pull_radius + self.parted * cos(self.blank.half_wedge)

    @property
    def flat_width(self) -> float:
        """Of the blocks on the flats, square to the flat's long edges."""
        return self.blank.flat_width - 2 * INSET

    @property
    def flat_far(self) -> float:
        """From the joint to the clamp's face, square to it.

        As far as one ring's flat reaches, but no farther than where the pull line, which is straight while the
        flat leans away by w, has 3 mm of face left.
        """
        t, turn = tan(self.blank.half_wedge), 2 * self.blank.half_wedge
        inner = self._flat_edge(-1)
        reach = (inner * tan(turn) - INSET / cos(turn)) / (1 + t * tan(turn))
        return min(reach, (self.flat_width / 2 - 3) / t)

    @property
    def deep(self) -> float:
        """Of the blocks on the flats, square to the joint."""
        return self.flat_far - self.set_back

    @property
    def made(self) -> bool:
        """Whether the flats hold blocks with faces large enough; else a band closes every joint."""
        return min(self.flat_width, self.deep) >= LEAST_FACE

    def _flat_edge(self, side: int) -> float:
        """x at the joint of the block's inner (-1) or outer (1) side."""
        return self.pull_radius + side * self.flat_width / 2 / cos(self.blank.half_wedge)

    @property
    def flat_corners(self) -> tuple[tuple[float, float], ...]:
        """Counter-clockwise from the near inner corner: two sides along the flat, two along the joint."""
        t, near, far = tan(self.blank.half_wedge), self.set_back, self.flat_far
        inner, outer = self._flat_edge(-1), self._flat_edge(1)
        return (
            (inner - near * t, near),
            (outer - near * t, near),
            (outer - far * t, far),
            (inner - far * t, far),
        )

    @property
    def rim_corners(self) -> tuple[tuple[float, float], ...]:
        """The rim's block: foot from joint to far end, then up the clamp's face and back."""
        w = self.blank.half_wedge
        edge = (self.blank.outer_radius / cos(w), 0.0)
        along = (-sin(w), cos(w))

        def foot(distance: float) -> tuple[float, float]:
            return (edge[0] + along[0] * distance, edge[1] + along[1] * distance)

        near, far = foot(self.set_back / cos(w)), foot(self.blank.thick_edge - INSET)
        top = far[0] + self.height
        return (far, near, (near[0] + RIM_END, near[1]), (top, far[1] - self.height / 2), (top, far[1]))

    @property
    def face_angle(self) -> float:
        """Between the rim block's foot and its clamp face: a right angle less w."""
        return pi / 2 - self.blank.half_wedge


def ring_perimeter(blank: Blank) -> float:
    """Round one ring of segments, over its flats and straight across the ends of strips, level with their corners."""
    return blank.segments * (blank.outer_edge + blank.spacer)


def torus_perimeter(blank: Blank) -> float:
    """Round the assembled blank's rim: N thick edges, and straight across the strips between them."""
    return blank.wedge_rings * (blank.thick_edge + blank.ring_spacer)


BARE = 40.0  # width of each foot and of the bare board that it meets
BESIDE = 15.0  # between abrasive and foot
FRONT = 4.0  # of the carrier's edge behind the planned line, between its feet
BESIDE_FRONT = 10.0  # of a cheek's slot behind that edge
BAR_PAST = 10.0  # of the clamp's bar past the middle of the rings
BEHIND = 20.0


class Cheek(Record):
    """One stop cheek: its ring's direction and how far its middle is from the middle of the outer flat."""

    angle: float
    offset: float
    for_quarter: bool = False


class TruingLayout(Record):
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
