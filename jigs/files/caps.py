"""Faces cut into triangles: flat ones, and walls between two levels."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from manifold3d import triangulate

from geometry.plane.edges import FloatArray, lengths_of
from geometry.plane.sample import IntArray


def cap(loops: Sequence[FloatArray]) -> IntArray:
    """Return counter-clockwise triangles (t, 3) that fill loops (k, 2), solid on the left of each.

    They are numbers into the loops' points, one after the other; every point is used, none is added.
    Raises ValueError where a triangle must be no more than a line, as when a corner touches another edge.
    """
    points = np.concatenate(loops)
    triangles = np.array(triangulate(list(loops)), dtype=np.int64)
    while _flip_one(triangles, flat(points, triangles), points):
        pass
    if (left := flat(points, triangles)).size:
        x, y = points[triangles[left[0], 0]]
        raise ValueError(f"edges meet or double back at ({x:.6g}, {y:.6g})")
    return triangles


def wall(low: IntArray, high: IntArray) -> IntArray:
    """Return the triangles between two loops of equal length by their points' numbers, solid on their left."""
    onward = np.concatenate([low[1:], low[:1]]), np.concatenate([high[1:], high[:1]])
    return np.concatenate([np.column_stack([low, *onward]), np.column_stack([low, onward[1], high])])


def single(points: FloatArray) -> FloatArray:
    """Round to single precision, which is all a file holds, and leave no negative zero."""
    return points.astype(np.float32).astype(np.float64) + 0.0


def flat(points: FloatArray, triangles: IntArray) -> IntArray:
    """Return which triangles are no more than lines: corners of different letters often stand in one line."""
    a, b, c = points[triangles].transpose(1, 0, 2)
    (abx, aby), (acx, acy) = (b - a).T, (c - a).T
    return np.flatnonzero(abx * acy <= aby * acx)


def _flip_one(triangles: IntArray, rows: IntArray, points: FloatArray) -> bool:
    """Share between one flat triangle and its neighbour what they cover; False when that helps none."""
    for row in rows:
        a, b, c = _longest_first(triangles[row], points)
        beyond = np.argwhere((triangles == b) & (np.roll(triangles, -1, axis=1) == a))
        for other, column in beyond:
            d = triangles[other, (column + 2) % 3]
            pair = np.array([(b, c, d), (c, a, d)])
            if not flat(points, pair).size:
                triangles[[row, other]] = pair
                return True
    return False


def _longest_first(triangle: IntArray, points: FloatArray) -> IntArray:
    """Return the corners in the same sense, so that the first two make the longest edge."""
    sides = points[np.roll(triangle, -1)] - points[triangle]
    return np.roll(triangle, -int(lengths_of(sides).argmax()))
