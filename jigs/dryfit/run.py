"""The whole dry fit of one job's folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

from jigs.asked.by_job import by_job
from jigs.asked.job import Job, TorusJob
from jigs.dryfit.fit import DryFit
from jigs.dryfit.torus import torus_fit
from jigs.dryfit.vessel.run import vessel_fit
from jigs.progress import Progress, silent_progress

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob


def dry_fit(
    job: Job,
    folder: Path,
    sheets: bool = True,
    progress: Progress = silent_progress,
    turned: Job | None = None,
) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`, whole sheets too unless they are left out.

    `turned` is the job with its form as it was measured on the lathe, where it was: the blank is the job's own.
    """
    return by_job(
        job,
        torus=lambda own: torus_fit(own, cast("TorusJob", turned or own), folder, sheets, progress),
        vessel=lambda own: vessel_fit(own, cast("VesselJob", turned or own), folder, sheets, progress),
    )
