"""Whether the finished form and its stages can be at all, and what of its title is lettered."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.asked.job import Job, TorusJob
from jigs.words.findings import Finding


def form_findings(job: TorusJob) -> list[Finding]:
    """What is impossible before any blank is drawn."""
    form = job.form
    found = []
    if form.hole_diameter <= 2 * form.turning_allowance:
        found.append(
            job.finding(
                "hole-closed",
                f"the hole of {job.show(form.hole_diameter)} is filled by the turning allowance of "
                f"{job.show(form.turning_allowance)}",
                key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
                remedy=f"a hole of at least {job.at_least(2 * form.turning_allowance + 1)}",
            )
        )
    return [*found, *stage_findings(job, form.turning_allowance)]


def stage_findings(job: Job, allowance: float) -> Iterator[Finding]:
    """A stage that the wood left for turning does not hold."""
    if job.gauges.stages[0] <= allowance:
        return
    show = job.show
    yield job.finding(
        "stage-over-allowance",
        f"a stage of {show(job.gauges.stages[0])} needs more wood than the turning allowance of {show(allowance)}",
        key="gauges.stages",
        remedy=f"a largest stage of at most {job.at_most(allowance)}, or a larger allowance",
    )


def title_findings(job: Job) -> Iterator[Finding]:
    """A title with characters that the stroke font cannot draw."""
    if not job.unlettered:
        return
    yield job.warning(
        "title-not-lettered",
        f'the jigs\' lettering has no {" ".join(job.unlettered)}, so the title reads "{job.title}"',
        key="title",
        remedy="nothing need be done, or choose a title in other letters",
    )
