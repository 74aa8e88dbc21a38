"""What small errors come to."""

from __future__ import annotations

from math import atan, radians

from geometry.blanks.sawing import WedgeRingCut, included_angle_error
from geometry.blanks.truing import half_error, largest_error, to_line, until_clean, wood_left
from geometry.bodies.torus import Blank, least_wood
from geometry.measuring.wedge_angle import face_length
from jigs.asked.job import TorusJob
from jigs.measured.planned import paper_length
from jigs.stages.blank.plan import ErrorsPlan, HalfError
from jigs.stages.gauging.plan.torus import CheckPlan

RING = radians(0.1)
SHIM = 0.1  # mm: a sheet of writing paper
HALVES = tuple(radians(sign * degrees) for degrees in (0.1, 0.2, 0.5) for sign in (-1, 1))


def solve_errors(job: TorusJob, blank: Blank, cut: WedgeRingCut, check: CheckPlan) -> ErrorsPlan:
    """A shim turns the wedge about its thin end, which stays at the stop."""
    spare = job.form.half_sanding
    wood = least_wood(blank, job.form.major_radius, job.form.tube)
    turns = atan(SHIM / paper_length(job, cut, blank))
    return ErrorsPlan(
        ring=RING,
        gap=included_angle_error(blank, RING),
        half=half_error(blank, RING),
        shim=SHIM,
        shim_turns=turns,
        shim_closes=face_length(blank) * check.rings * turns,
        halves=tuple(_half(blank, wood, spare, error) for error in HALVES),
        most_step=wood,
        most_short=largest_error(blank, wood, spare),
    )


def _half(blank: Blank, wood: float, spare: float, error: float) -> HalfError:
    trued = to_line(blank, error, spare)
    return HalfError(
        error=error,
        light=until_clean(blank, error).most,
        at_hole=trued.inner,
        at_rim=trued.outer,
        lost=trued.shift,
        left=max(0.0, wood_left(wood, trued)),
    )
