"""The whole dry fit of one job's folder."""

from __future__ import annotations

from pathlib import Path

from jigs.asked.job import TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.fit import DryFit
from jigs.dryfit.torus import torus_fit
from jigs.dryfit.vessel.run import vessel_fit
from jigs.progress import Progress, silent_progress


def dry_fit(
    job: TorusJob | VesselJob, folder: Path, sheets: bool = True, progress: Progress = silent_progress
) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`, whole sheets too unless they are left out."""
    if isinstance(job, VesselJob):
        return vessel_fit(job, folder, sheets, progress)
    return torus_fit(job, folder, sheets, progress)
