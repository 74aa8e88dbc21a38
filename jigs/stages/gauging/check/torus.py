"""Whether gauges, forks and sticks pass the hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.bodies.torus import Blank
from geometry.lathe.size_gauges import most_steps
from jigs.asked.job import TorusJob
from jigs.stages.gauging.plan.torus import GaugePlan, Stage
from jigs.stages.sizes.plate import sizes_plate
from jigs.words.findings import Finding

LEAST_HOLE_WEB = 12.0


def gauge_findings(job: TorusJob, gauges: GaugePlan) -> list[Finding]:
    """Whether the hole gauge passes."""
    if gauges.hole_web >= LEAST_HOLE_WEB:
        return []
    least = job.form.hole_diameter + LEAST_HOLE_WEB - gauges.hole_web
    return [
        job.finding(
            "hole-too-small-for-gauge",
            f"a hole of {job.show(job.form.hole_diameter)} with its allowance leaves a gauge "
            f"{job.show(max(0.0, gauges.hole_web))} wide; {job.show(LEAST_HOLE_WEB)} stay stiff",
            key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
            remedy=f"a hole of at least {job.at_least(least)}",
        )
    ]


def sizes_findings(job: TorusJob, blank: Blank, stages: Sequence[Stage]) -> list[Finding]:
    """A plate too thick for the hole at its first stage; a stick with more steps than the rim has room for."""
    return [*_plate_fills_hole(job, blank, stages), *_too_many(job, stages)]


def _too_many(job: TorusJob, stages: Sequence[Stage]) -> Iterator[Finding]:
    rim = job.form.major_radius + job.form.tube_radius
    most = most_steps(rim)
    if len(stages) <= most:
        return
    yield job.finding(
        "too-many-stages",
        f"a stick across a rim of {job.show(2 * rim)} has room for {most} stages, not {len(stages)}",
        key="gauges.stages",
        remedy=f"give at most {most}" if most else "a larger rim",
    )


def _plate_fills_hole(job: TorusJob, blank: Blank, stages: Sequence[Stage]) -> Iterator[Finding]:
    plate, hole = sizes_plate(job, blank), job.form.major_radius - job.form.tube_radius - stages[0].offset
    if plate <= hole:
        return
    thick, across = job.show(plate), job.show(2 * hole)
    yield job.finding(
        "plate-fills-hole",
        f"a fork or stick of {thick} is too thick for a hole of {across} at its first stage",
        key="made.sizes",
        remedy=f'print them (made.sizes = "print"), or cut them from {job.show(hole)} or thinner',
    )
