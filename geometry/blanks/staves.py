"""Staves: boards that stand side by side round a vessel, leaning or upright, and the saw's angles for them.

A band of n staves spans two heights and is cut off level at both. At each height its outer and its inner
faces form regular n-gons; `lean` is the angle of the faces from vertical, + where the band widens upward.
Lengths mm, angles radians; a mitre is pi/n.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import asin, atan, cos, pi, radians, sin, tan

import numpy as np

from geometry.bodies.flat_rings import FlatRing
from geometry.plane.distinct import distinct
from geometry.plane.edges import BoolArray, FloatArray
from geometry.records import Record, replace

Needs = Callable[[float, float], tuple[float, float]]

# Past it more would come off an end than the wood is thick: common practice, no source.
STEEPEST = radians(45)
SLICES = 64  # of a band, to begin with
SLACK = 0.05  # wood that the slicing may cost on each face, measured level


def blade_tilt(lean: float, mitre: float) -> float:
    """The blade from upright, the stave flat on the saw: asin(cos lean · sin mitre).

    The joint's plane holds the vessel's axis; this is its angle with the normal of the stave's face.
    """
    return asin(cos(lean) * sin(mitre))


def gauge_angle(lean: float, mitre: float) -> float:
    """Mitre gauge off square, or taper of each edge from the middle line: atan(sin lean · tan mitre).

    Negative where the stave narrows upward.
    """
    return atan(sin(lean) * tan(mitre))


class StaveBand(Record):
    """A closed band of equal staves; it is whole while `inner_at` is not negative between its ends."""

    count: int
    low: float
    high: float
    lean: float
    outer_low: float  # apothem of the outer face at `low`
    thickness: float  # square to the face

    @property
    def mitre(self) -> float:
        return pi / self.count

    @property
    def height(self) -> float:
        return self.high - self.low

    @property
    def level_thickness(self) -> float:
        """Between outer and inner face, measured level."""
        return self.thickness / cos(self.lean)

    def outer_at(self, z: float) -> float:
        """Apothem of the outer faces at height z."""
        return self.outer_low + (z - self.low) * tan(self.lean)

    def inner_at(self, z: float) -> float:
        """Apothem of the inner faces at height z."""
        return self.outer_at(z) - self.level_thickness

    def outer_width(self, z: float) -> float:
        """Width of one stave's outer face at height z."""
        return 2 * self.outer_at(z) * tan(self.mitre)

    def grown(self, more: float) -> StaveBand:
        """The same faces, `more` higher, half of it at either end: what is flattened off the glued band."""
        low, high = self.low - more / 2, self.high + more / 2
        return replace(self, low=low, high=high, outer_low=self.outer_at(low))

    def turned_over(self, top: float) -> StaveBand:
        """Upside down: what was at height `top` is at 0."""
        low, high = top - self.high, top - self.low
        return replace(self, low=low, high=high, lean=-self.lean, outer_low=self.outer_at(self.high))

    @property
    def slant_length(self) -> float:
        """Length of the outer face along its middle line."""
        return self.height / cos(self.lean)

    @property
    def stock_length(self) -> float:
        """Least length of a board, ends square: the slanted ends put one face past the other."""
        return self.slant_length + self.thickness * tan(abs(self.lean))

    @property
    def proud(self) -> float:
        """Level height of wood past each end where boards end square: inside at the wide end, outside at the narrow."""
        return self.thickness * sin(abs(self.lean))

    @property
    def proud_along(self) -> float:
        """The same along a stave's face."""
        return self.thickness * tan(abs(self.lean))

    @property
    def board_widths(self) -> tuple[float, float]:
        """Of the outer face where the lower and the upper end of a square-ended board is: past the narrow end."""
        low = self.low - (self.proud if self.lean > 0 else 0.0)
        high = self.high + (self.proud if self.lean < 0 else 0.0)
        return self.outer_width(low), self.outer_width(high)

    @property
    def stock_width(self) -> float:
        """Least width of a board: the outer face is the wider one all along."""
        return max(self.outer_width(self.low), self.outer_width(self.high))

    @property
    def blade_tilt(self) -> float:
        return blade_tilt(self.lean, self.mitre)

    @property
    def gauge_angle(self) -> float:
        return gauge_angle(self.lean, self.mitre)

    @property
    def volume(self) -> float:
        """Of all staves. Area n · tan mitre · (a² - b²) at each height, and a - b is the same at all."""
        middle = (self.low + self.high) / 2
        sums = self.outer_at(middle) + self.inner_at(middle)
        return self.count * tan(self.mitre) * self.level_thickness * sums * self.height


def fit_staves(needs: Needs, low: float, high: float, count: int) -> StaveBand:
    """The band of the thinnest staves that holds a vessel's wall between two heights.

    `needs(low, high)` returns the least and the largest radius of what must be held over these heights. It is
    asked for thin slices, each taken at its extremes, so nothing sticks out between them; slices that bear on
    a face are halved until they cost no more than SLACK on it. Raises ValueError for fewer than three staves,
    heights that do not rise, a wall that reaches the axis, or a largest radius below the least.
    """
    if count < 3 or not low < high:
        raise ValueError(f"{count} staves from {low:g} to {high:g} mm: needs 3 or more, and a height")
    asked = cache(needs)
    heights = np.linspace(low, high, SLICES + 1)
    while True:
        slices = _sliced(asked, heights, pi / count)
        slope = _thinnest(slices)
        coarse = _coarse(slices, slope)
        if not coarse.any():
            return _band(slices, slope, count)
        middles = (heights[1:] + heights[:-1]) / 2
        heights = distinct(np.concatenate((heights, middles[coarse])))


class _Slices(Record, eq=False):
    """The wall in slices between the heights z (n + 1,); apothems that the faces must clear, (n,)."""

    z: FloatArray
    inner: FloatArray  # the inner face, at most
    outer: FloatArray  # the outer face, at least

    def faces(self, slope: float, whole: bool = True) -> tuple[FloatArray, FloatArray]:
        """Apothems at height 0, (n,), of an inner and an outer face with this slope that bear on each slice.

        On the whole of it; else only where it costs the faces least, for it may be no wider elsewhere.
        """
        bottom, top = slope * self.z[:-1], slope * self.z[1:]
        low, high = np.minimum(bottom, top), np.maximum(bottom, top)
        return (self.inner - high, self.outer - low) if whole else (self.inner - low, self.outer - high)

    def thickness(self, slope: float, whole: bool = True) -> float:
        """Of the thinnest staves of this slope, square to their faces."""
        inner, outer = self.faces(slope, whole)
        return float(outer.max() - inner.min()) * cos(atan(slope))


def _sliced(needs: Needs, heights: FloatArray, mitre: float) -> _Slices:
    spans = zip(heights[:-1].tolist(), heights[1:].tolist(), strict=True)
    least, largest = np.array([needs(*span) for span in spans], dtype=np.float64).T
    if not (least > 0).all() or not (largest >= least).all():
        worst = int(np.argmin(np.minimum(least, largest - least)))
        raise ValueError(
            f"staves hold a wall with a hollow inside it, not one from {least[worst]:g} to {largest[worst]:g} mm "
            f"from the axis at height {heights[worst]:g}"
        )
    return _Slices(heights, least * cos(mitre), largest)


def _thinnest(slices: _Slices) -> float:
    """The tangent of the lean of the thinnest staves; of equals the one nearest to upright.

    Each slice is taken where it costs least, so that no lean is passed over for slices that are still coarse.
    The thickness is the width of a set of points across the lean. While the faces turn about the same two
    points it is the cosine of a growing angle times their distance, which is concave: the least lies where a
    face lies along an edge of the hull, or at an end of the range.
    """
    least, most = _slopes_allowed(slices)
    bottom, top = slices.z[:-1], slices.z[1:]
    widening = np.append(_hull_slopes(bottom, slices.inner), -_hull_slopes(top, -slices.outer))
    narrowing = np.append(_hull_slopes(top, slices.inner), -_hull_slopes(bottom, -slices.outer))
    found = (np.clip(widening, 0.0, most), np.clip(narrowing, least, 0.0), (0.0, least, most))
    slopes: list[float] = sorted(set(np.concatenate(found).tolist()), key=abs)
    return min(slopes, key=lambda slope: round(slices.thickness(slope, whole=False), 9))


def _slopes_allowed(slices: _Slices) -> tuple[float, float]:
    """Least and greatest slope whose inner face keeps to its side of the axis at both ends."""
    z, inner = slices.z, slices.inner
    least = -float((inner / (z[-1] - z[:-1])).min())
    most = float((inner / (z[1:] - z[0])).min())
    return max(least, -tan(STEEPEST)), min(most, tan(STEEPEST))


def _hull_slopes(z: FloatArray, x: FloatArray) -> FloatArray:
    """Slopes dx/dz of the lower convex hull of points with z rising (Andrew's monotone chain)."""
    hull: list[tuple[float, float]] = []
    for c in zip(z.tolist(), x.tolist(), strict=True):
        while len(hull) > 1 and _turns_down(hull[-2], hull[-1], c):
            hull.pop()
        hull.append(c)
    corners = np.array(hull)
    return np.asarray(np.diff(corners[:, 1]) / np.diff(corners[:, 0]))


def _turns_down(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) <= (b[1] - a[1]) * (c[0] - a[0])


def _coarse(slices: _Slices, slope: float) -> BoolArray:
    """Which slices may still cost a face more than SLACK, (n,): deep ones that it bears on, or nearly."""
    inner, outer = slices.faces(slope)
    cost = abs(slope) * np.diff(slices.z)
    near = np.minimum(inner - inner.min(), outer.max() - outer) < cost
    return np.asarray((cost > SLACK) & near)


def _band(slices: _Slices, slope: float, count: int) -> StaveBand:
    low, high = float(slices.z[0]), float(slices.z[-1])
    outer_low = float(slices.faces(slope)[1].max()) + slope * low
    return StaveBand(count, low, high, atan(slope), outer_low, slices.thickness(slope))


def stave_ring(band: StaveBand, turned: float = 0.0) -> FlatRing:
    """A band of staves as a ring."""
    middle = band.outer_at((band.low + band.high) / 2)
    return FlatRing(band.low, band.height, band.count, middle, turned, lean=band.lean, staves=True)
