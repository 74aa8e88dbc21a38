"""The radius of an arc that is there already: by three points, or by the best circle through many. Lengths mm."""

from __future__ import annotations

from math import hypot

import numpy as np

from geometry.measuring.estimate import Estimate, propagated
from geometry.plane.edges import FloatArray, lengths_of
from geometry.records import Record


def radius_of_arc(chord: Estimate, height: Estimate) -> Estimate:
    """From a chord and the arc's height over its middle: c²/(8h) + h/2.

    Raises ValueError for a chord of nothing, and for a height that its own accuracy may make nothing.
    """
    if min(chord.value, height.value - height.accuracy) <= 0:
        raise ValueError("the arc's height is no more than its own accuracy")
    return propagated(lambda c, h: c * c / (8 * h) + h / 2, chord, height)


class Circle(Record):
    """The circle nearest to points, square to itself."""

    centre: tuple[float, float]
    radius: Estimate
    scatter: float  # root of the mean of the squares
    worst: float


def best_circle(points: FloatArray, accuracy: float) -> Circle:
    """Through points (n, 2), each within `accuracy`, n at least 3: least squares of the distances (Gauss-Newton).

    It begins at Taubin's algebraic circle. Raises ValueError for points on a line.
    """
    points = np.asarray(points, dtype=np.float64)
    if len(points) < 3:
        raise ValueError("three points are needed")
    found = _taubin(points)
    for _ in range(100):
        away = points - found[:2]
        distance = lengths_of(away)
        slope = np.column_stack([-away / distance[:, None], -np.ones(len(points))])
        step, *_ = np.linalg.lstsq(slope, distance - found[2], rcond=None)
        found = found - step
        if np.abs(step).max() < 1e-12 * (1 + found[2]):
            break
    left = lengths_of(points - found[:2]) - found[2]
    scatter = float(np.sqrt(left @ left / len(points)))
    free = len(points) - 3
    spread = 2 * scatter * (len(points) / free) ** 0.5 if free else 0.0
    cover = float(np.sqrt(np.linalg.inv(slope.T @ slope)[2, 2])) * max(accuracy, spread)
    centre = (float(found[0]), float(found[1]))
    return Circle(centre, Estimate(float(found[2]), cover), scatter, float(np.abs(left).max()))


def _taubin(points: FloatArray) -> FloatArray:
    """Centre and radius (3,) by Taubin's fit, as a singular value decomposition (Taubin, IEEE PAMI 13, 1991)."""
    middle = points.mean(axis=0)
    x, y = (points - middle).T
    square = x * x + y * y
    mean = square.mean()
    if mean == 0:
        raise ValueError("the points are one")
    rows = np.column_stack([(square - mean) / (2 * np.sqrt(mean)), x, y])
    *_, last = np.linalg.svd(rows)[2]
    curved = last[0] / (2 * np.sqrt(mean))
    if abs(curved) * hypot(*np.ptp(points, axis=0)) < 1e-9 * hypot(last[1], last[2]):
        raise ValueError("the points lie on a line")
    level = -mean * curved
    centre = -last[1:] / curved / 2
    radius = np.sqrt(last[1:] @ last[1:] - 4 * curved * level) / abs(curved) / 2
    return np.array((*(centre + middle), radius))
