"""Points of a turned surface by their distance from the axis, angle about it, and height. mm, radians."""

from __future__ import annotations

import numpy as np

from geometry.bodies.meridian import Outline
from geometry.plane.edges import FloatArray
from geometry.records import Record

INTO_WOOD = 1e-6  # mm; a surface in the plane of a joint shows the wood under it


class Spots(Record, eq=False):
    """Arrays that broadcast to one shape; `out` and `up` are the outward normal's: a turned form has no third.

    Pictures have points (n,) in all of them, grids radii, heights and normals (h, 1) and angles (w,).
    """

    radius: FloatArray
    phi: FloatArray
    z: FloatArray
    out: FloatArray
    up: FloatArray

    @property
    def points(self) -> FloatArray:
        """(..., 3), in the shape that all broadcast to."""
        x, y = self.radius * np.cos(self.phi), self.radius * np.sin(self.phi)
        return np.stack(np.broadcast_arrays(x, y, self.z), axis=-1)

    def moved(self, x: float, y: float) -> Spots:
        """The same as seen from an axis at (x, y), its normals as they were."""
        from_x, from_y = self.radius * np.cos(self.phi) - x, self.radius * np.sin(self.phi) - y
        return Spots(np.hypot(from_x, from_y), np.arctan2(from_y, from_x), self.z, self.out, self.up)


def at_points(points: FloatArray, normals: FloatArray) -> Spots:
    """Of points and unit normals (n, 3), moved into the wood by a trifle."""
    x, y, z = points.T
    radius = np.hypot(x, y)
    out = (normals[:, 0] * x + normals[:, 1] * y) / np.maximum(radius, 1e-12)
    up = normals[:, 2]
    return Spots(radius - INTO_WOOD * out, np.arctan2(y, x), z - INTO_WOOD * up, out, up)


def on_grid(outline: Outline, phi: FloatArray) -> Spots:
    """Of an outline's points (h,) at angles (w,), moved into the wood by a trifle."""
    radius, z = (outline.points - INTO_WOOD * outline.normals).T
    out, up = outline.normals.T
    return Spots(radius[:, None], phi, z[:, None], out[:, None], up[:, None])
