"""Two halves of a torus offered to each other: what comes off their ends so that both joints close at once.

Seen along the axis of the torus, joint 1 lies at x, joint 2 at -x, each between h (the hole's edge) and r (the rim's)
from the axis. Stiff halves touch at one edge of each joint; there the gap is 0, at the other edge it is the light.
Closing them moves one half by v + p x towards the other (p small), so at each edge v + p x less its gap comes off both
ends together, nowhere less than nothing. The least v is where an edge of each joint is left as it is: of the four such
pairs the one that asks for most, since what is least over p is a largest of lines that fall and lines that rise.
"""

from __future__ import annotations

from math import cos

from geometry.bodies.torus import Blank
from geometry.measuring.wedge_angle import face_length, seen
from geometry.records import Record


class Taper(Record):
    """Off each of the two ends at a joint, mm; nothing at one edge."""

    hole: float
    rim: float

    @property
    def most(self) -> float:
        return max(self.hole, self.rim)


class HalvesMeet(Record):
    first: Taper  # at joint 1
    second: Taper
    error: float  # by how much both together span more than a turn
    oval: float  # square to the joint, the torus is then smaller (-) or larger (+) across by so much


def halves_meet(blank: Blank, first: float, second: float) -> HalvesMeet:
    """From the light at the two joints: + at the rim, - at the hole.

    Alike, each joint closes by itself. Else what is sanded at one lets the halves come together there, which would open
    the other: both get their share.
    """
    length = face_length(blank)
    h, r = (radius / cos(blank.half_wedge) for radius in (blank.inner_radius, blank.outer_radius))
    gaps = [{h: max(0.0, -light), r: max(0.0, light)} for light in (first, second)]
    come, turn = max(
        ((a * y + b * x) / (x + y), (a - b) / (x + y)) for x, a in gaps[0].items() for y, b in gaps[1].items()
    )
    offs = [
        Taper(*(max(0.0, come + way * turn * x - gap[x]) / 2 for x in (h, r)))
        for gap, way in zip(gaps, (1, -1), strict=True)
    ]
    error = -(seen(first, length) + seen(second, length))
    return HalvesMeet(offs[0], offs[1], error, -come - _nearer(first, second, h, r))


def _nearer(first: float, second: float, h: float, r: float) -> float:
    """By how much the middles of the halves lie together where these touch, each end being out by half of its joint."""
    at = [(h if light >= 0 else r) for light in (first, second)]
    near = [light * x / (r - h) for light, x in zip((first, second), at, strict=True)]
    return (near[0] * at[1] + near[1] * at[0]) / sum(at)
