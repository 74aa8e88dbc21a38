"""The rings of a vessel's blank as pictures know them, and a point's place in the polygon of its ring.

Lengths mm, angles radians.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np

from geometry.plane.edges import FloatArray, IntArray
from geometry.records import Record, fields


class FlatRing(Record):
    """One ring of a vessel's blank, its axis upright; staves are a ring whose flats may lean.

    `outer` is the apothem of the outer flats, of leaning ones half-way up. `turned` is the angle of the middle of
    the first segment. `gap` is the width between two segments, of a strip or of air, centred on the joint. `shift`
    is where the ring's centre came to lie, for one that is off the vessel's axis. A plug about it is of the first
    segment's wood, its grain the same way.
    """

    bottom: float
    height: float
    segments: int  # 0 is a disc
    outer: float
    turned: float = 0.0
    gap: float = 0.0
    shift: tuple[float, float] = (0.0, 0.0)
    lean: float = 0.0  # of the flats from upright, + where the ring widens upward
    staves: bool = False  # the grain runs up the flats, not along them
    plug: float = 0.0  # radius


def first_normal(ring: FlatRing) -> float:
    """Angle of the first outer flat's normal; that of a disc is such that u runs towards `turned`."""
    return ring.turned if ring.segments else ring.turned - pi / 2


class Polygons(Record):
    """What places need to know of rings: arrays with a row for each of them, or each point's own."""

    segments: IntArray
    outer: FloatArray
    normal: FloatArray
    gap: FloatArray
    shift_x: FloatArray
    shift_y: FloatArray
    lean: FloatArray
    middle: FloatArray  # height
    plug: FloatArray

    @staticmethod
    def of(rings: Sequence[FlatRing]) -> Polygons:
        columns = [
            (max(one.segments, 1), one.outer, first_normal(one), one.gap if one.segments else 0.0, *one.shift,
             one.lean, one.bottom + one.height / 2, one.plug)
            for one in rings
        ]  # fmt: skip
        segments, *others = np.array(columns).T
        return Polygons(segments.astype(np.intp), *others)

    def at(self, ring: IntArray) -> Polygons:
        return Polygons(*(getattr(self, field.name)[ring] for field in fields(self)))

    def places(
        self, angle: FloatArray, distance: FloatArray, z: FloatArray
    ) -> tuple[IntArray, FloatArray, FloatArray, FloatArray]:
        """Segment, u, v, y of points by their angle about, and their distance from, the ring's own axis."""
        pitch = 2 * pi / self.segments
        sector, gap = np.floor((angle - self.normal) / pitch + 0.5), self.gap
        if np.any(self.plug):
            within = distance < self.plug
            sector, gap = np.where(within, 0.0, sector), np.where(within, 0.0, gap)
        turn = angle - self.normal - sector * pitch
        segment = sector.astype(np.intp) % self.segments
        out, u = distance * np.cos(turn), distance * np.sin(turn)
        face, rise = out - self.outer, z - self.middle
        v, y = -face, rise
        if np.any(self.lean):
            c, s = np.cos(self.lean), np.sin(self.lean)
            v, y = rise * s - face * c, face * s + rise * c
        if np.any(gap):
            segment, u, v = in_strips(segment, out, u, v, self.segments, self.outer, gap)
        return segment, u, v, y


def in_strips(
    segment: IntArray, out: FloatArray, u: FloatArray, v: FloatArray, segments: IntArray | int,
    outer: FloatArray | float, gap: FloatArray | float,
) -> tuple[IntArray, FloatArray, FloatArray]:  # fmt: skip
    """Segment, u and v with points in a gap told apart, `out` from the axis towards their segment's flat.

    Near the axis gaps overlap: the nearer joint's it is.
    """
    c, s = np.cos(pi / segments), np.sin(pi / segments)
    away = out * s - np.abs(u) * c  # from the nearer joint's middle plane
    within = (np.asarray(gap) > 0) & (away < np.asarray(gap) / 2)
    before = np.where(u >= 0, segment, (segment - 1) % segments)
    along = outer / c - (out * c + np.abs(u) * s)
    return (
        np.where(within, -1 - before, segment),
        np.where(within, np.where(u >= 0, -away, away), u),
        np.where(within, along, v),
    )
