"""Curves of drawings as rational Bezier pieces: what splines, Bezier paths and ellipses all come to, exactly."""

from __future__ import annotations

import math

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record


class Bezier(Record, eq=False):
    """A rational Bezier curve over 0 to 1. `control` (p + 1, 3): weight·x, weight·y, weight."""

    control: FloatArray

    @property
    def knots(self) -> FloatArray:
        return np.array((0.0, 1.0))

    @property
    def polygon(self) -> FloatArray:
        """The control points in the plane, (p + 1, 2)."""
        return np.asarray(self.control[:, :2] / self.control[:, 2:])

    def at(self, t: FloatArray) -> FloatArray:
        """Points at the parameters t (m,), as (m, 2)."""
        held = _bernstein(self.control, t)
        return np.asarray(held[:, :2] / held[:, 2:])

    def derivative(self, t: FloatArray) -> FloatArray:
        """Derivatives at the parameters t (m,), as (m, 2): (P / w)' = (P' - (P / w)·w') / w."""
        held = _bernstein(self.control, t)
        rate = _bernstein(np.diff(self.control, axis=0) * (len(self.control) - 1), t)
        return np.asarray((rate[:, :2] - held[:, :2] / held[:, 2:] * rate[:, 2:]) / held[:, 2:])


def bezier(points: FloatArray) -> Bezier:
    """The Bezier curve with these control points (p + 1, 2), all weights 1."""
    return Bezier(np.column_stack((points, np.ones(len(points)))))


def bspline_pieces(control: FloatArray, knots: FloatArray, degree: int) -> list[Bezier]:
    """The Bezier pieces of a B-spline with control points (n, 3), weights in the last column, in homogeneous form.

    Control point j of the piece over [a, b] is the blossom at p - j times a and j times b (Ramshaw), by
    de Boor's recursion; knots (n + p + 1,) that do not rise are taken as they come, clamped or not.
    """
    spans = [i for i in range(degree, len(control)) if knots[i] < knots[i + 1]]
    return [
        Bezier(np.array([_blossom(control, knots, degree, i, j) for j in range(degree + 1)])) for i in spans
    ]


def elliptic_pieces(
    centre: FloatArray, p: FloatArray, q: FloatArray, start: float, sweep: float
) -> list[Bezier]:
    """centre + p·cos t + q·sin t for t from `start` through `sweep` (radians), in pieces of a quarter at most.

    The middle control point of a piece of half angle h has the weight cos h (standard conic form).
    """
    count = max(1, math.ceil(abs(sweep) / (math.pi / 2.0) - 1e-9))
    half = sweep / count / 2.0
    pieces = []
    for k in range(count):
        angles = start + half * (2 * k + np.arange(3.0))
        weights = np.array((1.0, math.cos(half), 1.0))
        arms = np.outer(np.cos(angles), p) + np.outer(np.sin(angles), q)
        pieces.append(Bezier(np.column_stack((arms + np.outer(weights, centre), weights))))
    return pieces


def _bernstein(control: FloatArray, t: FloatArray) -> FloatArray:
    """De Casteljau's corner cutting: (m, columns of control)."""
    t = np.asarray(t, dtype=np.float64)[:, None, None]
    held = np.broadcast_to(control, (len(t), *control.shape))
    while held.shape[1] > 1:
        held = held[:, :-1] * (1.0 - t) + held[:, 1:] * t
    return np.array(held[:, 0])


def _blossom(control: FloatArray, knots: FloatArray, degree: int, span: int, highs: int) -> FloatArray:
    low, high = knots[span], knots[span + 1]
    held = control[span - degree : span + 1]
    for step in range(1, degree + 1):
        at = high if step <= highs else low
        left = knots[span - degree + step : span + 1]
        right = knots[span + 1 : span + 1 + degree - step + 1]
        share = ((at - left) / (right - left))[:, None]
        held = held[:-1] * (1.0 - share) + held[1:] * share
    return np.asarray(held[0])
