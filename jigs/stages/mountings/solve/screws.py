"""Screws through a faceplate. Common practice, no source."""

from __future__ import annotations

from jigs.stages.mountings.plan.mountings import Screws

ACROSS, DEPTH, SHORT = 5.0, 30.0, 5.0  # of a screw; in the wood; short of its other face
COUNTS, MOST = ((200.0, 4), (400.0, 6)), 8  # up to so many mm across so many of them


def screws_for(diameter: float, thickness: float) -> Screws:
    """For a faceplate on a board or a block of this size."""
    count = next((count for most, count in COUNTS if diameter <= most), MOST)
    return Screws(count, ACROSS, min(DEPTH, thickness - SHORT))
