"""Two shapes in one section: gaps between them, and how deep one stands in the other."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import affinity

from geometry.curves.biarcs import BoolArray
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
    inside, found = _inside(points, shape), np.empty(len(points))
    found[inside] = -shapely.distance(shape.exterior, shapely.points(points[inside]))
    found[~inside] = shapely.distance(shape, shapely.points(points[~inside]))
    return found


def deepest(points: FloatArray, shape: shapely.Polygon) -> float:
    """How deep the deepest of some points (m, 2) stands in a shape, 0 where none does."""
    inside = points[_inside(points, shape)]
    return float(shapely.distance(shape.exterior, shapely.points(inside)).max(initial=0.0))


def farthest(points: FloatArray, shape: shapely.Polygon) -> float:
    """How far the farthest of some points (m, 2) lies off a shape, 0 where none does."""
    outside = points[~_inside(points, shape)]
    return float(shapely.distance(shape, shapely.points(outside)).max(initial=0.0))


def depth(one: shapely.Polygon, other: shapely.Polygon) -> float:
    """How deep one plate stands in another, 0 where they only touch, mm."""
    return max(deepest(dense(one), other), deepest(dense(other), one))


def _inside(points: FloatArray, shape: shapely.Polygon) -> BoolArray:
    shapely.prepare(shape)
    return np.asarray(shapely.contains_xy(shape, points[:, 0], points[:, 1]))


def dense(shape: shapely.Polygon) -> FloatArray:
    """Points along the outline no more than 0.5 mm apart, (m, 2)."""
    return np.asarray(shapely.segmentize(shape.exterior, 0.5).coords)
