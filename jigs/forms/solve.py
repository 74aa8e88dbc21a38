"""From the job to the plan, or to its shape alone, which is fast enough to be solved anew while a size is dragged.
Refuses, with every reason at once and the nearest value that works.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, cast, overload

from jigs.asked.job import Job, TorusJob
from jigs.words.findings import Refused

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.asked.vessel_job import VesselJob
    from jigs.plans.plan import Plan, Shape
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
    try:
        return _solve(job, early)
    except Refused as refused:
        if early or not job.readings.entries:
            raise
        from jigs.forms.misread import misread

        raise type(refused)([*refused.findings, *misread(job, _solve)]) from refused


def _solve(job: Job, early: bool = False) -> Plan:
    if isinstance(job, TorusJob):
        from jigs.forms.torus.solve import solve_torus

        return solve_torus(job, early)
    from jigs.forms.vessel.solve import solve_vessel

    return solve_vessel(cast("VesselJob", job), early)


def shaped(job: Job, coarse: bool = False) -> Shape:
    """The job's form, blank and layups; `coarse`, to be fast, measures a vessel's wall at fewer places.

    Raises Refused where there is nothing to draw.
    """
    if isinstance(job, TorusJob):
        from jigs.forms.torus.shaped import torus_shape

        return torus_shape(job)
    from jigs.forms.vessel.shaped import vessel_shape

    return vessel_shape(cast("VesselJob", job), coarse)
