"""An STL as numpy-stl reads it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import shapely
from stl import mesh as stl_mesh

from geometry.plane.edges import FloatArray
from jigs.dryfit.model import Plate
from jigs.words.file_names import what_of
from jigs.words.findings import Finding, Refused

LEVEL = 1e-6  # mm, of a face
FLOOR = 1e-3  # mm


def read_stl(file: Path) -> Plate:
    """A plate lying on the bed, or one piece of it. Raises Refused where it cannot be read."""
    try:
        triangles = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False).vectors.astype(np.float64)
    except (OSError, RuntimeError, AssertionError, ValueError) as error:
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    heights = triangles[:, :, 2]
    floor = heights.min()
    level = np.ptp(heights, axis=1) < LEVEL
    plate = float(heights[level & (heights[:, 0] > floor + LEVEL)].min())
    walls = np.unique(np.round(heights[(heights > floor + FLOOR) & (heights < plate - FLOOR)], 4))
    land = float(walls[0] if len(walls) else plate) - float(floor)
    bed = triangles[level & (np.abs(heights[:, 0] - floor) < LEVEL)]
    return Plate(what_of(file), _face(bed[:, :, :2]), plate - float(floor), land)


def _face(triangles: FloatArray) -> shapely.Polygon:
    """What flat triangles (t, 3, 2) cover: the edges that only one of them has, joined to loops."""
    corners, ids = np.unique(triangles.reshape(-1, 2), axis=0, return_inverse=True)
    ids = ids.reshape(-1, 3)
    sides = np.sort(np.concatenate([ids[:, [0, 1]], ids[:, [1, 2]], ids[:, [2, 0]]]), axis=1)
    pairs, counts = np.unique(sides, axis=0, return_counts=True)
    rings = shapely.polygonize(shapely.linestrings(corners[pairs[counts == 1]]))
    parts: list[shapely.Polygon] = list(rings.geoms)
    return max(parts, key=lambda part: float(part.area))
