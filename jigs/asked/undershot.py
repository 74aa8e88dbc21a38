"""Words for a smooth curve that is thinner than the stations that it goes through."""

from __future__ import annotations

from geometry.curves.undershoot import Undershoot, undershoots
from jigs.asked.vessel_job import VesselJob

SEEN = 0.1  # of the smaller radius: less of an undershoot is not told


def undershot(job: VesselJob, height: float | None = None) -> str:
    """After a semicolon, of the span round a height, or of the deepest; "" where the curve is no thinner."""
    shape = job.outside
    if shape.way != "stations" or shape.profile.fold() is not None:
        return ""
    points = [(shape.profile.radius_at(z), z) for z in shape.stations]
    found = [one for one in undershoots(points) if one.depth > SEEN * one.stated]
    here = [one for one in found if height is None or one.span[0] <= height <= one.span[1]]
    return _told(job, max(here, key=lambda one: one.depth)) if here else ""


def _told(job: VesselJob, one: Undershoot) -> str:
    (low, high), show = one.span, job.show
    thin = f"only {show(2 * one.radius)} across" if one.radius > 0 else "past the axis"
    return (
        f"; the smooth curve between the stations at {show(low)} and {show(high)} is {thin} at height "
        f"{show(one.height)}, {show(2 * one.depth)} less than either station"
    )
