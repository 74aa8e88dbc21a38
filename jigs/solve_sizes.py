"""The sizes' share of the plan."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.size_gauges import groups, plate_sagitta
from geometry.torus import Blank
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan import Stage
from jigs.plan_sizes import SizesPlan, SizeStage
from jigs.processes import plate_thickness

LEG = 16.0  # width of a fork's legs
HOLE_PLAY = 2.0  # of the inner leg in the hole
CLEAR_OF_BOARD = 4.0  # of the tips
CLEAR_OF_FRONT = 3.0


def sizes_findings(job: Job, blank: Blank, stages: Sequence[Stage]) -> list[Finding]:
    """A plate too thick for the hole at its first stage."""
    plate, hole = _plate(job, blank), job.form.major_radius - job.form.tube_radius - stages[0].offset
    if plate <= hole:
        return []
    thick, across = show_length(plate, job.unit), show_length(2 * hole, job.unit)
    return [
        job.finding(
            "plate-fills-hole",
            f"a fork or stick of {thick} is too thick for a hole of {across} at its first stage",
            key="made.sizes",
            remedy=f'print them (made.sizes = "print"), or cut them from {show_length(hole, job.unit)} or thinner',
        )
    ]


def _plate(job: Job, blank: Blank) -> float:
    process = job.workshop.made.sizes
    longest = 2 * (job.form.major_radius + blank.apothem)
    return plate_thickness("cut" if process == "paper" else process, job.workshop, longest)


def solve_sizes(job: Job, blank: Blank, stages: Sequence[Stage]) -> SizesPlan:
    """Every stage's sizes; stages share a gauge as far as its tips stay clear of the first board."""
    plate = _plate(job, blank)
    sizes = tuple(_stage(job, k, stage, plate) for k, stage in enumerate(stages, 1))
    shared = groups([size.tube for size in sizes], blank.apothem - CLEAR_OF_BOARD)
    return SizesPlan(
        plate=plate,
        stages=sizes,
        groups=tuple(tuple(sizes[k] for k in group) for group in shared),
        above=blank.apothem + CLEAR_OF_FRONT,
        leg=min(LEG, 2 * sizes[0].hole - HOLE_PLAY),
    )


def _stage(job: Job, number: int, stage: Stage, plate: float) -> SizeStage:
    tube, major = job.form.tube_radius + stage.offset, job.form.major_radius
    hole = major - tube
    return SizeStage(number, stage.label, tube, major + tube, hole, plate_sagitta(hole, plate))
