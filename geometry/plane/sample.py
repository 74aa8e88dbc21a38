"""Arcs broken into chords for meshes, by an absolute deviation shared to both sides of the curve."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray, paired, points_along

if TYPE_CHECKING:
    import numpy.typing as npt

IntArray = np.ndarray[Any, np.dtype[np.int64]]

# An arc's end points stay on the curve, so its first and last chord have less room. A chord that sags A/4
# and rises by d from end to end comes (A - d)²/4A under the curve: d when A = (1 + √2)²·d. Inside: A = 8d.
_END_CHORD = (2.0 + np.sqrt(2.0)) / 4.0
_WIDEST = np.pi / 3.0  # no chord spans more, so that the coarsest circle still has an inside


def chord_counts(contour: Contour, deviation: float) -> IntArray:
    """Chords needed by each edge (n,) so that vertices and chords stay within `deviation` (mm) of the curve.

    Raises ValueError unless the deviation is more than 0.
    """
    if not deviation > 0.0:
        raise ValueError(f"the deviation must be more than 0 mm, not {deviation:.9g}")
    sweep = np.abs(contour.sweeps)
    radius = contour.lengths / np.maximum(sweep, 1e-300)
    share = np.sqrt(deviation / np.maximum(radius, 1e-300))
    widest = np.minimum(4.0 * np.arctan(share), _WIDEST)
    several = 2 + np.ceil(np.maximum(sweep / widest - 2.0 * _END_CHORD, 0.0) - 1e-9)
    alone = np.minimum(4.0 * np.arcsin(np.minimum(share / np.sqrt(2.0), 1.0)), _WIDEST)
    return np.where(sweep <= alone, 1, several).astype(np.int64)


def sample(contour: Contour, deviation: float) -> FloatArray:
    """Vertices (m, 2) of the closed polygon that stays within `deviation` (mm, absolute) of the contour."""
    if contour.straight:
        return contour.points.copy()
    return sample_with_counts(contour, chord_counts(contour, deviation))


def sample_with_counts(contour: Contour, counts: npt.ArrayLike) -> FloatArray:
    """Vertices (m, 2) with the given number of chords (n,) on each edge, m their sum.

    Each edge starts on its own exact vertex; vertices within an arc stand a little outside it, as far as the
    middles of its chords stand inside. Raises ValueError unless there is a count of 1 or more for each edge.
    """
    chords = np.asarray(counts, dtype=np.int64)
    if chords.shape != (len(contour),) or np.count_nonzero(chords < 1):
        raise ValueError(f"each of the {len(contour)} edges needs a count of chords of 1 or more")
    edge = np.repeat(np.arange(len(chords)), chords)
    k = np.arange(len(edge)) - np.repeat(np.cumsum(chords) - chords, chords)
    start, end, sweep = contour.points[edge], contour.ends[edge], contour.sweeps[edge]
    whole = np.maximum(chords[edge] - 2.0, 0.0) + 2.0 * _END_CHORD
    straight = sweep == 0.0
    t = np.where(straight, k / chords[edge], np.maximum(k - 1.0 + _END_CHORD, 0.0) / whole)
    t[k == 0] = 0.0
    points = points_along(start, end, sweep, t)
    chord = end - start
    heading = np.arctan2(chord[:, 1], chord[:, 0]) + (t - 0.5) * sweep
    rise: FloatArray = _rise(contour.lengths[edge], sweep, whole) * (k > 0)
    outward: FloatArray = rise[:, None] * paired(np.sin(heading), -np.cos(heading))
    return points + outward


def _rise(length: FloatArray, sweep: FloatArray, whole: FloatArray) -> FloatArray:
    """How far to the right of travel inner vertices stand: r·tan²(chord angle / 4), 0 on straight edges."""
    radius = length / np.where(sweep == 0.0, np.inf, sweep)
    rise: FloatArray = radius * np.tan(sweep / whole / 4.0) ** 2
    return rise
