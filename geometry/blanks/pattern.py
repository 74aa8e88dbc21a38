"""Which ply of a layup shows at a place in a segment. Lengths mm, angles radians."""

from __future__ import annotations

from math import cos, sin

import numpy as np

from geometry.blanks.planes import Mirrored, Plane
from geometry.bodies.places import Places
from geometry.plane.edges import FloatArray, IntArray
from geometry.records import Record


class Pattern(Record):
    """How the pieces of a layup make a segment.

    In the plane of the pattern a piece is a rectangle a x b as cut, side a at `angle` to the plies. A side that
    is mirrored is half of the segment's, and has lost `sanding` at the seam. `turned` pieces run the other way
    along a. `off` is how far the seams lie off the middle along a and b, so that neighbours slip by twice that.
    """

    plies: tuple[float, ...]  # thicknesses; they repeat
    angle: float
    plane: Plane
    mirrored: Mirrored
    a: float
    b: float
    sanding: float = 0.0
    turned: bool = False
    flip_segments: bool = False  # every other segment is a mirror image, left for right
    flip_rings: bool = False  # every other ring, up for down
    off: tuple[float, float] = (0.0, 0.0)

    @property
    def left_and_right(self) -> bool:
        return self.mirrored in ("left and right", "both")

    @property
    def up_and_down(self) -> bool:
        return self.mirrored in ("up and down", "both")


def ply_at(places: Places, pattern: Pattern) -> IntArray:
    """The index of the ply at each place, in the shape of the places; of strips it says nothing.

    Where plies meet it is the next one.
    """
    d = _across(places, pattern)
    repeat = sum(pattern.plies)
    d -= repeat * np.floor(d / repeat)
    return np.searchsorted(np.cumsum(pattern.plies)[:-1], d, side="right")


def _across(places: Places, pattern: Pattern) -> FloatArray:
    """Distance square to the plies from the corner of the piece."""
    u = _flipped(places.u, places.segment, pattern.flip_segments)
    y = _flipped(places.y, places.ring, pattern.flip_rings)
    p, q = _in_piece(u, places.v, y, pattern)
    if pattern.turned:
        p = pattern.a - p
    return np.asarray(sin(pattern.angle) * p + cos(pattern.angle) * q)


def _in_piece(u: FloatArray, v: FloatArray, y: FloatArray, pattern: Pattern) -> tuple[FloatArray, FloatArray]:
    """Distances along a and b from the seams, or from a piece's end where it is not mirrored."""
    off_a, off_b = pattern.off
    if pattern.plane == "end":
        return v + off_a, _from_seam(y + off_b, pattern.up_and_down, pattern.b, pattern.sanding)
    p = _from_seam(u + off_a, pattern.left_and_right, pattern.a, pattern.sanding)
    if pattern.plane == "face":
        return p, v + off_b
    return p, _from_seam(y + off_b, pattern.up_and_down, pattern.b, pattern.sanding)


def _from_seam(x: FloatArray, mirrored: bool, side: float, sanding: float) -> FloatArray:
    return np.abs(x) + sanding if mirrored else x + side / 2


def _flipped(x: FloatArray, counted: IntArray, flip: bool) -> FloatArray:
    """Turned about for every other one of what is counted."""
    return np.where(counted & 1, -x, x) if flip else x
