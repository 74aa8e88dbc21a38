"""How the outer gauge is divided by height."""

from __future__ import annotations

from itertools import pairwise
from math import ceil

import numpy as np

from geometry.plane.profile import Profile
from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import GaugePiece

LEAST_EDGE = 10.0  # of working edge on the lowest piece
BOLT_INSET = 12.0  # from the ends of a piece
TRIED = 9  # places for each division


def pieces_of(job: VesselJob, outer: Profile, faceplate: float, width: float) -> tuple[GaugePiece, ...]:
    """Pieces no longer than is handy and than the bed, divided where the profile stands steepest."""
    bounds = _bounds(outer, faceplate, _longest(job, width))
    return tuple(GaugePiece(k, *ends, _bolts(*ends)) for k, ends in enumerate(pairwise(bounds), 1))


def _longest(job: VesselJob, width: float) -> float:
    """As long as is handy, and lies on the bed beside the width; what is too wide anyhow is joined from halves."""
    shop = job.workshop
    bed = shop.printer.bed if shop.made.gauges == "print" else shop.cutter.bed
    return min(job.gauges.longest_in_hand, max(bed) if width <= min(bed) else min(bed))


def _bounds(outer: Profile, low: float, longest: float) -> list[float]:
    top = outer.top
    count = ceil((top - low) / longest - 1e-9)
    each = (top - low) / count
    slack = min((longest - each) / 2, each / 4)
    even = [low + k * each for k in range(1, count)]
    if not even or even[0] + slack >= LEAST_EDGE:
        return [low, *(_steepest(outer, max(z - slack, LEAST_EDGE), z + slack) for z in even), top]
    # A deep waste block: the lowest piece is as long as that asks for.
    return [low, *_bounds(outer, LEAST_EDGE, longest)] if top > 2 * LEAST_EDGE else [low, top]


def _steepest(outer: Profile, low: float, high: float) -> float:
    """The height between two at which the profile leans least, the middle one of equals."""
    tried = np.linspace(low, high, TRIED).tolist()
    middle = (low + high) / 2
    return float(min(tried, key=lambda z: (round(abs(outer.lean_at(z)), 3), abs(z - middle))))


def _bolts(low: float, high: float) -> tuple[float, float]:
    inset = min(BOLT_INSET, (high - low) / 4)
    return low + inset, high - inset
