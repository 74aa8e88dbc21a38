"""A polygon's flat that is sanded wider, to be glued. Lengths mm, angles radians."""

from __future__ import annotations

from math import inf, pi

import numpy as np

from geometry.plane.edges import FloatArray


def _neighbours(segments: int) -> FloatArray:
    """Angles of the other flats' normals from this one's, on one side, up to 90 degrees."""
    return np.asarray(2 * pi / segments * np.arange(1, segments // 4 + 1), dtype=np.float64)


def half_width_at(apothem: float, segments: int, height: float) -> float:
    """Half the width of a regular polygon (even `segments`) at a `height` of 0 or more towards one of its flats.

    The least over the flats that bound it on one side: x sin a + height cos a = apothem.
    """
    a = _neighbours(segments)
    return float(((apothem - height * np.cos(a)) / np.sin(a)).min())


def sanded_for_flat(apothem: float, segments: int, width: float) -> float:
    """How much to sand off a flat until it is `width` wide; 0 when it is already, inf when it never is."""
    if width / 2 >= half_width_at(apothem, segments, 0.0):
        return inf
    a = _neighbours(segments)
    leaning = a[a < pi / 2 - 1e-9]
    height = ((apothem - width / 2 * np.sin(leaning)) / np.cos(leaning)).min()
    return max(0.0, apothem - float(height))


def flat_after(apothem: float, segments: int, sanded: float) -> float:
    """Width of a flat once `sanded` has come off it, past its neighbours' far corners too."""
    return 2 * half_width_at(apothem, segments, apothem - sanded)
