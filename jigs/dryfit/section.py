"""Two shapes in one section: gaps between them, and how deep one stands in the other."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import affinity

from geometry.plane.arcs import FloatArray

FAR = 1e4  # mm
TOUCHES = 0.01  # mm


def spans(face: shapely.Polygon, at: float, axis: int = 0) -> list[tuple[float, float]]:
    """From and to where a level line is on a plate, its holes filled; along axis 1 an upright line."""
    ends = [(-FAR, at), (FAR, at)] if axis == 0 else [(at, -FAR), (at, FAR)]
    cut = shapely.Polygon(face.exterior).intersection(shapely.LineString(ends))
    parts = [part.bounds for part in getattr(cut, "geoms", [cut]) if part.length > TOUCHES]
    return sorted((part[axis], part[axis + 2]) for part in parts)


def moved(shape: shapely.Polygon, dx: float, dy: float = 0.0) -> shapely.Polygon:
    """The shape in another place."""
    return affinity.translate(shape, dx, dy)


def gaps(points: FloatArray, shape: shapely.Polygon) -> FloatArray:
    """Distance of each point (m, 2) from the shape, negative by its depth inside, (m,)."""
    places = shapely.points(points)
    inside = shapely.contains(shape, places)
    return np.where(inside, -shapely.distance(shape.exterior, places), shapely.distance(shape, places))


def depth(one: shapely.Polygon, other: shapely.Polygon) -> float:
    """How deep one plate stands in another, 0 where they only touch, mm."""
    points = np.concatenate([dense(one), dense(other)])
    half = len(dense(one))
    inside = np.concatenate([gaps(points[:half], other), gaps(points[half:], one)])
    return float(max(0.0, -inside.min()))


def dense(shape: shapely.Polygon) -> FloatArray:
    """Points along the outline no more than 0.5 mm apart, (m, 2)."""
    return np.asarray(shapely.segmentize(shape.exterior, 0.5).coords)
