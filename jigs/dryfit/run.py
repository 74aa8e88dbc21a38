"""The whole dry fit of one job's folder."""

from __future__ import annotations

from pathlib import Path

from jigs.asked.job import TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.fit import DryFit
from jigs.dryfit.torus import torus_fit
from jigs.dryfit.vessel.run import vessel_fit


def dry_fit(job: TorusJob | VesselJob, folder: Path, sheets: bool = True) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`, whole sheets too unless they are left out."""
    return vessel_fit(job, folder, sheets) if isinstance(job, VesselJob) else torus_fit(job, folder, sheets)
