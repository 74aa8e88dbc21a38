"""Which form a job asks for: asked here, as `jigs.plans.plan.by_form` asks it of plans."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar, cast

from jigs.asked.job import Job, TorusJob

if TYPE_CHECKING:  # a torus need not load what a vessel asks
    from jigs.asked.vessel_job import VesselJob

T = TypeVar("T")


def by_job(job: Job, *, torus: Callable[[TorusJob], T], vessel: Callable[[VesselJob], T]) -> T:
    """What its own form's function makes of it."""
    return torus(job) if isinstance(job, TorusJob) else vessel(cast("VesselJob", job))
