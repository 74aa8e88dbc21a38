"""Blocks that give clamps faces parallel to a joint, and the length of clamp bands.

Frame of a joint, seen along the torus axis: the axis is the origin, x runs along the joint, y square to it
into the wedge ring, whose other face lies at the angle 2w. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, pi, sin, tan

from geometry.bodies.torus import Blank
from geometry.records import dataclass

RIM_END = 6.0  # height of a rim block beside the joint
LEAST_FACE = 12.0  # of a block, along the joint and square to it; smaller ones are not made
INSET = 2.0  # of a block from the edges of the flat it stands on


@dataclass(frozen=True)
class ClampBlocks:
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
