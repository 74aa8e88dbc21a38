"""Screws through a faceplate. Common practice, no source."""

from __future__ import annotations

from geometry.hardware.fasteners import Screws
from geometry.hardware.fittings import Fittings

SHORT = 5.0  # of the wood's other face
COUNTS, MOST = ((200.0, 4), (400.0, 6)), 8  # up to so many mm across so many of them


def screws_for(fittings: Fittings, diameter: float, thickness: float) -> Screws:
    """For a faceplate on a board or a block of this size."""
    count = next((count for most, count in COUNTS if diameter <= most), MOST)
    across, deep = fittings.wood_screw
    return Screws(count, across, min(deep, thickness - SHORT))
