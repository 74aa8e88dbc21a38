"""Two shapes in one section: gaps between them, and how deep one stands in the other."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import affinity

from geometry.plane.arcs import FloatArray


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
