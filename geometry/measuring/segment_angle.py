"""The tilt of the blade for segments, from a dry ring under a band, and from half of one on a straight edge.

Each of a segment's ends is out by tau: n segments span n 2 tau more than a turn. An end face is (A - C)/cos mu long.
Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, pi, sin

from geometry.measuring.estimate import Estimate, propagated
from geometry.measuring.wedge_angle import seen
from geometry.records import Record


class DryRing(Record):
    """A ring of so many segments, `depth` from its core to its flats."""

    segments: int
    depth: float

    @property
    def length(self) -> float:
        """Of a segment's end face."""
        return self.depth / cos(pi / self.segments)


def tilt_from_ring(ring: DryRing, at_rim: Estimate | None, at_core: Estimate | None) -> Estimate:
    """tau from the light at all joints together, under a band that keeps each joint's other edge tight.

    Light at the rim is a tilt that is too small. g = n 2 d sin|tau| for end faces of length d. Raises ValueError where
    no gap was read.
    """
    if at_rim is None and at_core is None:
        raise ValueError("no gap was read")
    n, length = ring.segments, ring.length
    rim, core = at_rim or Estimate(0.0, 0.0), at_core or Estimate(0.0, 0.0)
    return propagated(lambda a, b: seen(b, 2 * n * length) - seen(a, 2 * n * length), rim, core)


def tilt_from_half(ring: DryRing, at_rim: Estimate | None, at_core: Estimate | None) -> Estimate:
    """tau from the light between the two ends of half a ring and a straight edge, both ends together.

    Half a ring spans n tau more than half a turn, half of that at each end: g = 2 d sin(n |tau|/2). Raises ValueError
    as `tilt_from_ring` does.
    """
    if at_rim is None and at_core is None:
        raise ValueError("no gap was read")
    n, length = ring.segments, ring.length
    rim, core = at_rim or Estimate(0.0, 0.0), at_core or Estimate(0.0, 0.0)
    return propagated(lambda a, b: 2 * (seen(b, 2 * length) - seen(a, 2 * length)) / n, rim, core)


def light_of(ring: DryRing, tilt: float) -> float:
    """At all joints of a ring together."""
    return 2 * ring.segments * ring.length * abs(sin(tilt))
