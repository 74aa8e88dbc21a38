"""The segmented rings of which a vessel's blank is glued up: their sizes and their wood.

A ring is a regular polygon, flat on both faces; heights are those of the finished vessel, its foot at 0.
Lengths mm, volumes mm³, angles radians.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin, tan

from geometry.bodies.section import Section
from geometry.records import Record

# mm that a ring with a layup may be larger outside, and deeper inside, than it has to be, so that rings share a layup
# with its sleds and stacks: common practice, no source
ALIKE = (1.0, 3.0)


class Ring(Record):
    """One ring: `segments` of them, 0 for a solid round disc, whose `outer` is its radius.

    `outer` and `core` are the apothems outside and of the opening, `core` 0.0 for a disc and for segments
    that run to the axis. `spacer` is the thickness of the parallel-sided strip, or the width of the gap,
    centred on each joint, 0 for none.
    """

    number: int  # 1 at the bottom
    bottom: float
    height: float
    segments: int
    outer: float
    core: float
    spacer: float = 0.0

    @property
    def top(self) -> float:
        return self.bottom + self.height

    @property
    def mitre(self) -> float:
        """π/n, the angle of each segment end; 0 for a disc."""
        return pi / self.segments if self.segments else 0.0

    @property
    def outer_edge(self) -> float:
        """The segment's longer edge, 2·A·tan μ less the strip's share (0 for a disc)."""
        return _edge(self.outer, self.segments, self.spacer)

    @property
    def inner_edge(self) -> float:
        """The segment's shorter edge; 0 where it runs to a point."""
        return _edge(self.core, self.segments, self.spacer) if self.core else 0.0

    @property
    def depth(self) -> float:
        """Of a segment, from its inner to its outer edge. Strips keep the points of segments off the axis."""
        tip = self.spacer / (2 * sin(self.mitre)) if self.segments else 0.0
        return self.outer - (self.core or tip)

    @property
    def radius(self) -> float:
        """Of the circle round the ring's corners."""
        return self.outer / cos(self.mitre)

    @property
    def core_radius(self) -> float:
        """Of the circle round the core's corners, which the finished wall must clear."""
        return self.core / cos(self.mitre)

    @property
    def volume(self) -> float:
        """Of the whole ring, strips or gaps included."""
        if not self.segments:
            return pi * self.outer**2 * self.height
        return self.segments * tan(self.mitre) * (self.outer**2 - self.core**2) * self.height

    @property
    def segment_volume(self) -> float:
        """Of one segment (0 for a disc)."""
        return (self.outer_edge + self.inner_edge) / 2 * self.depth * self.height if self.segments else 0.0

    @property
    def wood_volume(self) -> float:
        """Of all segments, or of the disc; strips are not counted."""
        return self.segments * self.segment_volume if self.segments else self.volume


def shared_sizes(
    sizes: Sequence[tuple[float, float]], alike: tuple[float, float] = ALIKE
) -> list[tuple[float, float]]:
    """For each ring's (outer, core) apothems those with which one size serves all that are alike.

    Rings share the largest outer and the least core among them, where neither is farther than `alike` from theirs.
    """
    left, found = sorted(range(len(sizes)), key=lambda i: -sizes[i][0]), dict[int, tuple[float, float]]()
    while left:
        group: list[int] = []
        for i in left:
            cores = [sizes[k][1] for k in (*group, i)]
            if sizes[left[0]][0] - sizes[i][0] <= alike[0] and max(cores) - min(cores) <= alike[1]:
                group.append(i)
        size = (sizes[group[0]][0], min(sizes[i][1] for i in group))
        found.update(dict.fromkeys(group, size))
        left = [i for i in left if i not in found]
    return [found[i] for i in range(len(sizes))]


class NoEdge(ValueError):
    """Strips or gaps that leave a segment no edge; they must be thinner than `most`, mm."""

    def __init__(self, number: int, spacer: float, apothem: float, most: float) -> None:
        self.most = most
        super().__init__(
            f"strips of {spacer:.6g} mm leave the segments of ring {number} no edge {apothem:.6g} mm from the axis; "
            f"they must be thinner than {most:.6g} mm"
        )


def ring(
    section: Section,
    number: int,
    bottom: float,
    height: float,
    segments: int,
    allowance: float,
    spacer: float = 0.0,
) -> Ring:
    """The smallest ring that holds the section, grown by the allowance square to itself, over these heights.

    The outer apothem is the largest radius there; the core's is the least times cos μ, since the finished
    circle must clear the core's corners. `segments` 0 makes a disc. Raises ValueError when nothing of the
    section lies there, NoEdge when the strips leave a segment no edge.
    """
    if height <= 0.0 or (segments and segments < 3) or spacer < 0.0:
        raise ValueError(f"ring {number} must be thicker than 0 mm, of 3 or more segments or none")
    needed = section.needs(bottom, bottom + height, allowance)
    if needed is None:
        raise ValueError(f"ring {number}, from {bottom:.6g} mm up, lies wholly off the vessel")
    core = needed[0] * cos(pi / segments) if segments else 0.0
    for apothem in (core, needed[1]):  # the narrower first, which asks for the thinner strips
        if apothem and segments and _edge(apothem, segments, spacer) <= 0.0:
            raise NoEdge(number, spacer, apothem, 2 * apothem * sin(pi / segments))
    return Ring(number, bottom, height, segments, needed[1], core, spacer if segments else 0.0)


def _edge(apothem: float, segments: int, spacer: float) -> float:
    """A segment's edge at an apothem between strips centred on the joints: 2·a·tan μ - s/cos μ."""
    return 2 * apothem * tan(pi / segments) - spacer / cos(pi / segments) if segments else 0.0
