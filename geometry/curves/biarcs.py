"""A smooth curve turned into arcs that meet tangentially, within a stated deviation. Lengths mm.

A biarc is two arcs that leave one point and reach another in given directions and share their tangent where
they meet; of all that do, here the one whose ends' tangents are of equal length up to where they cross the
joint's (Bolton, Biarc curves, Computer-Aided Design 7, 1975, from memory). The arcs' least radius can be a
little under the curve's.
"""

from __future__ import annotations

import math
from typing import Protocol

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.crossings import distances
from geometry.plane.edges import SAME_POINT, BoolArray, FloatArray, lengths_of, points_along
from geometry.records import Record

_SAMPLES = 33  # of a stretch of the curve: what they can miss of a deviation's peak is within the margin
_MARGIN = 0.95  # of the tolerance may be used
_WIDEST = math.pi / 2.0  # no arc turns more, so that its points see the curve square to it
_FLAT = 1e-6  # mm, and share of the chord: what leaves it by no more is straight
_NUDGE = 1e-6  # of a stretch: so far inside, the direction at a kink or a stop is that of its own side
_KINK = 1e-4  # how far two unit vectors may differ that are one direction


TOLERANCE = 0.005  # mm, square to the curve


class Curve(Protocol):
    """A curve by parameter, smooth between its `knots` (n,), of which the first and the last are its ends."""

    @property
    def knots(self) -> FloatArray: ...

    def at(self, t: FloatArray) -> FloatArray:
        """Points (m, 2) at the parameters (m,)."""
        ...

    def derivative(self, t: FloatArray) -> FloatArray:
        """Derivatives (m, 2) by the parameter at the parameters (m,)."""
        ...


class _Biarcs(Record):
    """A biarc for each of m stretches: start, joint and end (m, 2), and unit tangents there."""

    start: FloatArray
    joint: FloatArray
    end: FloatArray
    leaving: FloatArray
    along: FloatArray
    arriving: FloatArray

    @property
    def half_sweeps(self) -> FloatArray:
        """Half the angle that each stretch's two arcs turn through, (m, 2): from tangent to chord."""
        first = _angle(self.leaving, self.joint - self.start)
        return np.column_stack((first, _angle(self.end - self.joint, self.arriving)))


def biarcs(curve: Curve, tolerance: float = TOLERANCE) -> FloatArray:
    """Rows (n, 3) of x, y, bulge of an open chain of arcs along the curve, the last row's bulge 0.

    The deviation, measured square to the curve, is no more than `tolerance` (mm) from the curve to the chain
    and from the chain to the curve. Neighbouring arcs are tangent, but at kinks and cusps of the curve. A stretch that
    is straight within 1e-6 mm is one straight edge. Raises ValueError unless the tolerance is more than 0 and
    the curve finite.
    """
    if not tolerance > 0.0:
        raise ValueError(f"the tolerance must be more than 0 mm, not {tolerance:.9g}")
    starts, ends = np.asarray(curve.knots[:-1]), np.asarray(curve.knots[1:])
    found: list[FloatArray] = []  # rows of a stretch's start parameter, x, y, bulge
    while len(starts):
        rows, fits = _fitted(curve, starts, ends, tolerance)
        found.append(rows)
        starts, ends = starts[~fits], ends[~fits]
        middles = (starts + ends) / 2.0
        if not ((starts < middles) & (middles < ends)).all():
            raise ValueError("a curve between its knots must have no gaps")
        starts, ends = np.concatenate((starts, middles)), np.concatenate((middles, ends))
    rows = np.concatenate(found)
    ordered = rows[np.argsort(rows[:, 0], kind="stable"), 1:]
    return np.vstack((ordered, (*curve.at(curve.knots[-1:])[0], 0.0)))


def biarc_rows(
    samples: FloatArray, leaving: FloatArray, arriving: FloatArray, tolerance: float
) -> tuple[FloatArray, BoolArray]:
    """Rows x, y, bulge (m, 2, 3) of one biarc for each of m stretches, and which keep to the samples (m, k, 2).

    Unit tangents at both ends (m, 2). A stretch whose samples are in one line has no bulge.
    """
    with np.errstate(all="ignore"):  # what has no biarc comes out as no number, and follows nothing
        pairs = _biarcs(samples[:, 0], samples[:, -1], leaving, arriving)
        half = pairs.half_sweeps
        follows = (_deviations(pairs, samples) <= tolerance) & _narrow(half)
    first = np.column_stack((pairs.start, np.tan(half[:, 0] / 2.0)))
    second = np.column_stack((pairs.joint, np.tan(half[:, 1] / 2.0)))
    return np.stack((first, second), axis=1), follows


def deviation(curve: Curve, rows: FloatArray) -> float:
    """The farthest that the curve is from a chain of rows x, y, bulge, or the chain from the curve, mm.

    Measured densely: at 60 points of every span of the curve and 20 of every edge.
    """
    knots = np.asarray(curve.knots)
    t = (knots[:-1, None] + np.diff(knots)[:, None] * np.linspace(0.0, 1.0, 61)).ravel()
    from_curve = distances(Contour(rows).edges()[:-1], curve.at(t))
    sweeps = 4.0 * np.arctan(rows[:-1, 2, None])
    on_chain = points_along(rows[:-1, None, :2], rows[1:, None, :2], sweeps, np.linspace(0.0, 1.0, 21))
    from_chain = max(_from_curve(curve, t, points).max() for points in on_chain)
    return float(max(from_curve.max(), from_chain))


def _from_curve(curve: Curve, t: FloatArray, points: FloatArray) -> FloatArray:
    """Distance of each point (m, 2) from the curve: from the nearest chord of the places `t`, then its foot."""
    known = curve.at(t)
    chord, way = np.diff(known, axis=0), points[:, None] - known[:-1]
    share = np.clip((way * chord).sum(axis=-1) / np.maximum((chord**2).sum(axis=-1), 1e-300), 0.0, 1.0)
    off = way - share[..., None] * chord
    k = np.hypot(off[..., 0], off[..., 1]).argmin(axis=1)
    near = t[k] + share[np.arange(len(k)), k] * (t[k + 1] - t[k])
    gap = lengths_of(points - curve.at(near))
    for _ in range(3):
        speed = curve.derivative(near)
        ahead = ((points - curve.at(near)) * speed).sum(axis=1)
        near = np.clip(near + ahead / np.maximum((speed**2).sum(axis=1), 1e-300), t[0], t[-1])
        gap = np.minimum(gap, lengths_of(points - curve.at(near)))
    return np.asarray(gap, dtype=np.float64)


def _fitted(
    curve: Curve, starts: FloatArray, ends: FloatArray, tolerance: float
) -> tuple[FloatArray, BoolArray]:
    """Rows of start parameter, x, y, bulge of the stretches that one biarc follows, and which these are."""
    t = starts[:, None] + (ends - starts)[:, None] * np.linspace(0.0, 1.0, _SAMPLES)
    t[:, -1] = ends
    samples = curve.at(t.ravel()).reshape(*t.shape, 2)
    if not np.isfinite(samples).all():
        raise ValueError("a curve's points must be finite numbers")
    with np.errstate(all="ignore"):  # what has no biarc comes out as no number, and follows nothing
        pairs = _biarcs(samples[:, 0], samples[:, -1], *_tangents(curve, starts, ends))
        half = pairs.half_sweeps
        follows = (_deviations(pairs, samples) <= _MARGIN * tolerance) & _narrow(half)
    straight = _straight(samples) | (_specks(samples) & ~follows)
    two = follows & ~straight
    first = np.column_stack((starts, pairs.start, np.where(straight, 0.0, np.tan(half[:, 0] / 2.0))))
    second = np.column_stack((starts, pairs.joint, np.tan(half[:, 1] / 2.0)))
    some = straight & (lengths_of(pairs.end - pairs.start) > SAME_POINT)
    rows = np.stack((first, second), axis=1)[two].reshape(-1, 4)
    return np.concatenate((rows, first[some])), follows | straight


def _narrow(half_sweeps: FloatArray) -> BoolArray:
    return np.asarray((np.abs(half_sweeps) <= _WIDEST / 2.0).all(axis=1))


def _straight(samples: FloatArray) -> BoolArray:
    """Which stretches are as good as straight."""
    way = samples - samples[:, :1]
    size = lengths_of(way[:, -1])[:, None]
    chord = (way[:, -1] / np.maximum(size, 1e-300))[:, None]
    onward = (np.diff((way * chord).sum(axis=-1), axis=1) > 0.0).all(axis=1)
    flat = (np.abs(_cross(chord, way)) <= _FLAT * np.minimum(size, 1.0)).all(axis=1)
    return np.asarray(onward & flat)


def _specks(samples: FloatArray) -> BoolArray:
    """Which stretches have no size, as at a cusp."""
    way = samples - samples[:, :1]
    return np.asarray((np.hypot(way[..., 0], way[..., 1]) <= _FLAT).all(axis=1))


def _tangents(curve: Curve, starts: FloatArray, ends: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Unit tangents at both ends of each stretch; at a kink, or where the curve stops, its own side's."""
    step = _NUDGE * (ends - starts)
    at = np.concatenate((starts, ends, starts + step, ends - step))
    own, beside = np.split(unit(curve.derivative(at)), 2)
    differ = ~(lengths_of(own - beside) <= _KINK)
    leaving, arriving = np.split(np.where(differ[:, None], beside, own), 2)
    return leaving, arriving


def _biarcs(start: FloatArray, end: FloatArray, leaving: FloatArray, arriving: FloatArray) -> _Biarcs:
    """The biarcs with end tangents of equal length d: |end - start - d·(leaving + arriving)| = 2d."""
    chord = end - start
    size = (chord**2).sum(axis=1)
    along = (chord * (leaving + arriving)).sum(axis=1)
    turn = ((leaving - arriving) ** 2).sum(axis=1)  # 2 - 2·cos of the angle between the tangents
    d = (size / (along + np.sqrt(along**2 + turn * size)))[:, None]
    joint = (start + end + d * (leaving - arriving)) / 2.0
    tangent = unit(chord - d * (leaving + arriving))
    return _Biarcs(start, joint, end, leaving, tangent, arriving)


def _deviations(pairs: _Biarcs, samples: FloatArray) -> FloatArray:
    """The largest distance of a stretch's samples (m, k, 2) from its biarc, square to this, (m,).

    Up to the joint's normal they belong to the first arc. As the curve joins the ends, each of the arcs' own
    points has the curve before or behind it no farther away.
    """
    from_joint = samples - pairs.joint[:, None]
    second = (from_joint * pairs.along[:, None]).sum(axis=-1) > 0.0
    bends = 2.0 * np.sin(pairs.half_sweeps) / _chords(pairs)
    first_off = _off_arc(samples - pairs.start[:, None], pairs.leaving, bends[:, 0])
    off = np.where(second, _off_arc(from_joint, pairs.along, bends[:, 1]), first_off)
    return np.asarray(off.max(axis=1), dtype=np.float64)


def _chords(pairs: _Biarcs) -> FloatArray:
    chords = np.stack((pairs.joint - pairs.start, pairs.end - pairs.joint), axis=1)
    return np.maximum(np.hypot(chords[..., 0], chords[..., 1]), 1e-300)


def _off_arc(way: FloatArray, tangent: FloatArray, bend: FloatArray) -> FloatArray:
    """Distance of points, as the way (m, k, 2) to them from a point of a circle, from that circle.

    The circle by its unit tangent there (m, 2) and curvature (m,), + to the left; a line where that is 0.
    """
    x, y = (way * tangent[:, None]).sum(axis=-1), _cross(tangent[:, None], way)
    k = bend[:, None]
    off = np.abs(k * (x * x + y * y) - 2.0 * y) / (1.0 + np.hypot(k * x, 1.0 - k * y))
    return np.asarray(off, dtype=np.float64)


def _cross(a: FloatArray, b: FloatArray) -> FloatArray:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0], dtype=np.float64)


def _angle(a: FloatArray, b: FloatArray) -> FloatArray:
    """The angle from each vector (m, 2) to the other, -π to π."""
    return np.asarray(np.arctan2(_cross(a, b), (a * b).sum(axis=-1)), dtype=np.float64)


def unit(vectors: FloatArray) -> FloatArray:
    """The vectors (n, 2), each of length 1."""
    return np.asarray(vectors / np.hypot(vectors[:, :1], vectors[:, 1:]), dtype=np.float64)
