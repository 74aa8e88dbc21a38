"""The square of wood that a lid's knob is turned from."""

from __future__ import annotations

from jigs.asked.vessel_job import VesselJob

# Common practice, no source, both; mm.
ENDS = 12.0  # at either end, for the centres
ROUND_OVER = 4.0  # of the square over the round


def knob_blank(job: VesselJob) -> tuple[float, float] | None:
    """Its side, and its length along the grain; None where there is no knob."""
    if job.knob is None:
        return None
    line = job.knob.shape.profile
    widest = 2 * line.radii(line.bottom, line.top)[1]
    return widest + ROUND_OVER, line.top + job.knob.tenon_length + 2 * ENDS


def knob_species(job: VesselJob) -> str:
    """As asked, else the lid's lowest ring's first."""
    return (job.knob.species if job.knob else None) or job.rings.woods(1)[0]
