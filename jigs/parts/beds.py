"""Whether something lies on a bed."""

from __future__ import annotations

from geometry.plane.contour import Contour

Bed = tuple[float, float]  # across and deep, mm
SAME = 1e-6  # mm: rounding


def overflow(outline: Contour, bed: Bed) -> float:
    """How far an outline's box stands over the bed, the better way round, mm."""
    x0, y0, x1, y1 = outline.bounds
    return beyond(x1 - x0, y1 - y0, bed)


def beyond(wide: float, high: float, bed: Bed) -> float:
    """How far a box stands over the bed, the better way round, mm; 0 where it is as large, but for rounding."""
    small, large = sorted((wide, high))
    over = max(0.0, small - min(bed)) + max(0.0, large - max(bed))
    return over if over > SAME else 0.0
