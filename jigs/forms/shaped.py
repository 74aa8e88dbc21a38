"""From a job to its shape alone: what is fast enough to be solved anew while a size is dragged."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from jigs.asked.job import Job, TorusJob

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.asked.vessel_job import VesselJob
    from jigs.plans.plan import Shape


def shaped(job: Job, coarse: bool = False) -> Shape:
    """The job's form, blank and layups; `coarse`, to be fast, measures a vessel's wall at fewer places.

    Raises Refused where there is nothing to draw.
    """
    if isinstance(job, TorusJob):
        from jigs.forms.torus.shaped import torus_shape

        return torus_shape(job)
    from jigs.forms.vessel.shaped import vessel_shape

    return vessel_shape(cast("VesselJob", job), coarse)
