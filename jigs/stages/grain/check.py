"""Joints of end grain that nothing else holds, and joints that do not close in the glue's time."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from jigs.asked.job import Job
from jigs.stages.glue_up.plan import GluePlan
from jigs.stages.grain.plan import GrainJoint, GrainPlan
from jigs.words.findings import Finding


def grain_findings(job: Job, grain: GrainPlan, glue: GluePlan) -> Iterator[Finding]:
    """End grain to end grain, with nothing across it."""
    for joint in grain.joints:
        if joint.weak:
            yield _end_grain(job, joint)
    yield from _open_time(job, glue)


def _end_grain(job: Job, joint: GrainJoint) -> Finding:
    met = degrees(max(joint.angles))
    message = (
        f"{joint.count} {joint.sort} are glued end grain to end grain, the grain {met:.4g}° off square to the joint, "
        "and nothing else holds them"
    )
    return job.note("end-grain-joint", message)


def _open_time(job: Job, glue: GluePlan) -> Iterator[Finding]:
    """Stages that take longer than the glue stays open, however few are closed at a time."""
    late = [stage for stage in glue.stages if not stage.in_time]
    if late:
        most, names = max(stage.joints for stage in late), dict.fromkeys(stage.what for stage in late)
        yield job.warning(
            "open-time",
            f"{', '.join(names)}: {'one joint takes' if most == 1 else f'up to {most} joints in one go take'} longer "
            f"to spread and close than the glue stays open, which is {job.workshop.glue.open_time:g} min",
            key="glue.open_time",
            remedy="use a slower glue, or lay them out dry and spread it with a helping hand",
        )
