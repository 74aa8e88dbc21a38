"""From the job to the plan. Refuses, with every reason at once and the nearest value that works."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast, overload

from jigs.asked.job import Job, TorusJob

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.asked.vessel_job import VesselJob
    from jigs.plans.plan import Plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


@overload
def solve(job: TorusJob, early: bool = False) -> TorusPlan: ...
@overload
def solve(job: VesselJob, early: bool = False) -> VesselPlan: ...
@overload
def solve(job: Job, early: bool = False) -> Plan: ...
def solve(job: Job, early: bool = False) -> Plan:
    """Solve the whole job.

    Raises Refused with every finding that stops it, or if `early` with those known as soon as there are any.
    Findings that do not stop it are the plan's notes.
    """
    if isinstance(job, TorusJob):
        from jigs.forms.torus.solve import solve_torus

        return solve_torus(job, early)
    from jigs.forms.vessel.solve import solve_vessel

    return solve_vessel(cast("VesselJob", job), early)
