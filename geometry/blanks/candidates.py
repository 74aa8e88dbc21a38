"""Many blanks for one torus at once: every count of wedge rings with every count of segments and every board.

All are arrays of one length, one entry for each candidate; lengths mm, angles radians. The formulas are those of
`geometry.bodies.torus`, which the tests hold them against one by one.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.bodies.torus import ARRIS_OUT, flat_normals, least_apothem, wall_left
from geometry.bodies.tube import Tube
from geometry.plane.distinct import distinct
from geometry.plane.edges import BoolArray, FloatArray
from geometry.plane.sample import IntArray
from geometry.records import Record


class Candidates(Record, eq=False):
    """Blanks that hold the torus with its allowance; whether saws and wood allow them is not asked here."""

    wedge_rings: IntArray
    segments: IntArray
    apothem: FloatArray
    centre: FloatArray
    core: FloatArray  # apothem of the opening, negative where a board is too thick for one
    wall: FloatArray  # between core and finished surface
    spacer: float = 0.0  # thickness of the strips between segments
    ring_spacer: float = 0.0  # and between wedge rings

    @property
    def half_wedge(self) -> FloatArray:
        return np.asarray(np.pi / self.wedge_rings)

    @property
    def mitre(self) -> FloatArray:
        return np.asarray(np.pi / self.segments)

    @property
    def half_width(self) -> FloatArray:
        """To the outer flat or arris."""
        arris = self.segments % 4 == ARRIS_OUT
        return np.asarray(np.where(arris, self.apothem / np.cos(self.mitre), self.apothem))

    @property
    def depth(self) -> FloatArray:
        """Of a segment: what the board has, planed."""
        return np.asarray(self.apothem - self.core)

    @property
    def thick_edge(self) -> FloatArray:
        return np.asarray(2 * (self.centre + self.half_width) * np.tan(self.half_wedge) - self._strip)

    @property
    def thin_edge(self) -> FloatArray:
        return np.asarray(2 * (self.centre - self.half_width) * np.tan(self.half_wedge) - self._strip)

    @property
    def _strip(self) -> FloatArray:
        """What a strip between rings takes of every edge of a ring."""
        return np.asarray(self.ring_spacer / np.cos(self.half_wedge))

    @property
    def outer_edge(self) -> FloatArray:
        """Of a segment, between strips."""
        return np.asarray(2 * self.apothem * np.tan(self.mitre) - self.spacer / np.cos(self.mitre))

    @property
    def inner_edge(self) -> FloatArray:
        """The same at the core."""
        return np.asarray(2 * self.core * np.tan(self.mitre) - self.spacer / np.cos(self.mitre))

    @property
    def swing_radius(self) -> FloatArray:
        return np.asarray((self.centre + self.half_width) / np.cos(self.half_wedge))

    @property
    def pieces(self) -> IntArray:
        return self.wedge_rings * self.segments

    @property
    def volume(self) -> FloatArray:
        """Of the blank."""
        length = 2 * self.wedge_rings * np.tan(self.half_wedge) * self.centre
        return np.asarray(length * self.segments * np.tan(self.mitre) * (self.apothem**2 - self.core**2))

    def closing_gap(self, error: float) -> FloatArray:
        """At the rim, where every ring's included angle is out by `error` (radians)."""
        return np.asarray(self.swing_radius * self.wedge_rings * error)

    def sawn(self, clean_up: float, kerf: float) -> FloatArray:
        """Wood that the segments are sawn from: strips as wide as a ring is thick, with the kerf of every cut."""
        pitch = (self.outer_edge + self.inner_edge) / 2 + kerf / np.cos(self.mitre)
        return np.asarray(self.pieces * pitch * self.depth * (self.thick_edge + 2 * clean_up))

    def chosen(self, which: BoolArray | IntArray) -> Candidates:
        """Those of a mask or of these places, in order."""
        return Candidates(
            self.wedge_rings[which],
            self.segments[which],
            self.apothem[which],
            self.centre[which],
            self.core[which],
            self.wall[which],
            self.spacer,
            self.ring_spacer,
        )

    def __len__(self) -> int:
        return len(self.wedge_rings)


def candidates(
    major: float, tube: Tube, allowance: float, rings: Sequence[int], segments: Sequence[int],
    depths: Sequence[float], core: float, spacer: float = 0.0,
    ring_spacer: float = 0.0,
) -> Candidates:  # fmt: skip
    """For each pair of counts one candidate with this core's apothem, and one for each depth of segment.

    Raises ValueError unless the tube with its allowance leaves a hole.
    """
    reach = tube.beyond(allowance)
    if not major > reach.wide > 0:
        raise ValueError("the tube leaves no hole")
    parts = [_of_count(major, tube, reach, np.asarray(rings), n, depths, core) for n in segments]
    counts, flats, *sizes = (np.concatenate(column) for column in zip(*parts, strict=True))
    apothem, centre, cores, wall = sizes
    return Candidates(counts, flats, apothem, centre, cores, wall, spacer, ring_spacer)


def _of_count(
    major: float, tube: Tube, reach: Tube, rings: IntArray, n: int, depths: Sequence[float], core: float
) -> tuple[IntArray, IntArray, FloatArray, FloatArray, FloatArray, FloatArray]:
    """All with n segments: (N x (1 + depths),) each."""
    apothem, centre = _least_apothems(major, reach, rings, n)
    each = 1 + len(depths)
    cores = np.column_stack(
        [np.full(len(rings), core), apothem[:, None] - np.asarray(depths)[None, :]]
    ).ravel()
    counts, apothem, centre = np.repeat(rings, each), np.repeat(apothem, each), np.repeat(centre, each)
    wall = _walls(major, tube, counts, n, centre, cores)
    return counts, np.full(len(counts), n), apothem, centre, cores, wall


def _least_apothems(major: float, tube: Tube, rings: IntArray, n: int) -> tuple[FloatArray, FloatArray]:
    """`torus.least_apothem` for many counts of rings; one after the other round an ellipse."""
    if not tube.round:
        found = np.array([least_apothem(major, tube, count, n) for count in rings.tolist()]).reshape(-1, 2)
        return found[:, 0], found[:, 1]
    reach = tube.wide
    cosines = np.abs(np.cos(flat_normals(n)))
    u = distinct(cosines[cosines > 1e-9].round(12))[None, :]
    s, c = np.sin(np.pi / rings)[:, None], np.cos(np.pi / rings)[:, None]
    u0 = float(u.max())
    excess = u0 * (major * u * (1 - c) - reach * (1 - np.sqrt(1 - s**2 * u**2))) / (u0 + u)
    apothem = reach + excess.max(axis=1)
    return apothem, major - (apothem - reach) / u0


def _walls(
    major: float, tube: Tube, rings: IntArray, n: int, centre: FloatArray, core: FloatArray
) -> FloatArray:
    """`torus.wall_left` for many blanks of n segments; one after the other in an ellipse."""
    if not tube.round:
        many = zip(rings.tolist(), centre.tolist(), core.tolist(), strict=True)
        return np.array([wall_left(major, tube, count, n, *ring) for count, *ring in many])
    angles = flat_normals(n) + np.pi / n
    radius = (core / np.cos(np.pi / n))[:, None]
    x, z = centre[:, None] + radius * np.cos(angles), radius * np.sin(angles)
    c = np.cos(np.pi / rings)[:, None]
    farthest = np.maximum(np.hypot(x - major, z), np.hypot(x / c - major, z)).max(axis=1)
    return np.asarray(tube.wide - farthest)
