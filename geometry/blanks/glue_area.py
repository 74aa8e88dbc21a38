"""How much of two rings' faces lies on each other as they are glued, before turning. Lengths mm, areas mm²."""

from __future__ import annotations

from math import pi

import numpy as np

from geometry.blanks.ring_stack import Ring
from geometry.plane.arcs import FloatArray

_PLACES = 2880  # round the axis; 1e-4 of the area at most


def contact_area(lower: Ring, upper: Ring, turned: float) -> float:
    """Where both have wood, the upper ring turned by `turned` radians on the lower; gaps and strips as wood.

    By sectors round the axis: half the squares of the nearer outside less the farther opening.
    """
    angles = np.asarray((np.arange(_PLACES) + 0.5) * (2 * pi / _PLACES), dtype=np.float64)
    outer = np.minimum(
        _apothem_at(lower, lower.outer, angles), _apothem_at(upper, upper.outer, angles - turned)
    )
    inner = np.maximum(
        _apothem_at(lower, lower.core, angles), _apothem_at(upper, upper.core, angles - turned)
    )
    return float(np.maximum(outer**2 - inner**2, 0.0).sum() * pi / _PLACES)


def _apothem_at(ring: Ring, apothem: float, angles: FloatArray) -> FloatArray:
    """From the axis to a polygon in these directions; the middle of a flat lies at angle 0."""
    if not ring.segments:
        return np.full_like(angles, apothem)
    pitch = 2 * ring.mitre
    return np.asarray(apothem / np.cos((angles + ring.mitre) % pitch - ring.mitre))
