"""Which way the fibres run at a place, as the square of their share along the surface's normal needs it.

Solid segments have one direction each. In a layup the fibres run along the plies' strips: cos angle · a + or
- sin angle · b, a and b the pattern's axes; the sign changes wherever the pattern is mirrored.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

import numpy as np

from geometry.blanks.pattern import Pattern
from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.places import IntArray, Places, torus_grain, vessel_grain
from geometry.bodies.torus import Blank
from geometry.plane.arcs import FloatArray
from geometry.records import dataclass
from jigs.looks.spots import Spots
from jigs.looks.woods import Layups

AXES = {"flat": ("u", "y"), "end": ("v", "y"), "face": ("u", "v")}  # a and b, in the segment's own frame


@dataclass(frozen=True, eq=False)
class Grain:
    """By segment, (rings, columns, 3): `along`, and what a layup adds or takes off, nothing in other rings."""

    along: FloatArray
    across: FloatArray
    layups: tuple[Layups, ...]

    def into_surface(self, spots: Spots, places: Places) -> FloatArray:
        """How far the fibres point into the surface or out of it, -1 to 1, in the places' shape."""
        columns = self.along.shape[1]
        row = places.ring * columns + places.segment % columns
        found = _dot(self.along, row, spots)
        if self.layups:
            found = found + self._hands(places) * _dot(self.across, row, spots)
        return found

    def _hands(self, places: Places) -> FloatArray:
        """1 or -1. Layups of one job seldom differ in this, so it is worked out once where they do not."""
        hands = {(one.pattern.flip_segments, one.pattern.flip_rings) for one in self.layups}
        if len(hands) == 1:
            return _hand(places, self.layups[0].pattern)
        found = np.ones(np.broadcast_shapes(places.ring.shape, places.u.shape))
        for layup in self.layups:
            found = np.where(np.isin(places.ring, layup.rings), _hand(places, layup.pattern), found)
        return found


def _dot(table: FloatArray, row: IntArray, spots: Spots) -> FloatArray:
    x, y, z = (table[..., k].take(row) for k in range(3))
    return np.asarray((x * np.cos(spots.phi) + y * np.sin(spots.phi)) * spots.out + z * spots.up)


def _hand(places: Places, pattern: Pattern) -> FloatArray:
    """The sign of b's share, a's taken as positive."""
    a = b = np.ones(())
    if "u" in AXES[pattern.plane]:
        a = _sense(places.u, places.segment, pattern.flip_segments, pattern.left_and_right, pattern.off[0])
    if "y" in AXES[pattern.plane]:
        b = _sense(places.y, places.ring, pattern.flip_rings, pattern.up_and_down, pattern.off[1])
    return np.asarray(a * b if pattern.turned else -a * b)


def _sense(x: FloatArray, counted: IntArray, flip: bool, mirrored: bool, off: float) -> FloatArray:
    """1 where the pattern's distance grows with x, else -1."""
    turned = np.where(counted & 1, -1.0, 1.0) if flip else np.ones(())
    return np.asarray(turned * np.where(turned * x + off < 0, -1.0, 1.0) if mirrored else turned)


def torus_grains(
    blank: Blank, joints: FloatArray | None, shape: tuple[int, int], layups: Sequence[Layups]
) -> Grain:
    """Of segments that lie along the flats."""
    u, y = (torus_grain(_every(*shape), blank, joints, along) for along in (False, True))
    return _plied(u, {"u": u, "v": np.cross(u, y), "y": y}, layups)


def vessel_grains(rings: Sequence[FlatRing], shape: tuple[int, int], layups: Sequence[Layups]) -> Grain:
    """Strips between segments, the later half of the columns, keep their own."""
    u = vessel_grain(_every(*shape), rings)
    y = np.broadcast_to((0.0, 0.0, 1.0), u.shape)
    return _plied(u, {"u": u, "v": np.cross(y, u), "y": y}, layups, shape[1] // 2)


def _plied(
    plain: FloatArray, axes: dict[str, FloatArray], layups: Sequence[Layups], columns: int | None = None
) -> Grain:
    along, across = plain.copy(), np.zeros_like(plain)
    for layup in layups:
        a, b = (axes[name][layup.rings, :columns] for name in AXES[layup.pattern.plane])
        along[layup.rings, :columns] = cos(layup.pattern.angle) * a
        across[layup.rings, :columns] = sin(layup.pattern.angle) * b
    return Grain(along, across, tuple(layups))


def _every(rings: int, columns: int) -> Places:
    """A place in every segment, (rings, columns)."""
    ring, segment = np.mgrid[:rings, :columns]
    nothing = np.zeros(ring.shape)
    return Places(ring, segment, nothing, nothing, nothing)
