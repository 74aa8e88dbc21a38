"""The whole dry fit of one job's folder."""

from __future__ import annotations

from pathlib import Path

from jigs.dryfit.fit import DryFit
from jigs.dryfit.torus import torus_fit
from jigs.dryfit.vessel.run import vessel_fit
from jigs.job import TorusJob
from jigs.vessel_job import VesselJob


def dry_fit(job: TorusJob | VesselJob, folder: Path, sheets: bool = True) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`, whole sheets too unless they are left out."""
    return vessel_fit(job, folder, sheets) if isinstance(job, VesselJob) else torus_fit(job, folder, sheets)
