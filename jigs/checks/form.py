"""Whether the finished form, its title and its stages can be at all."""

from __future__ import annotations

from geometry.lettering import has_glyph
from jigs.checks.nearest import at_least, at_most, show_in
from jigs.findings import Finding
from jigs.job import Job


def form_findings(job: Job) -> list[Finding]:
    """What is impossible before any blank is drawn."""
    form = job.form
    show = show_in(job)
    found = _title(job)
    if form.hole_diameter <= 2 * form.turning_allowance:
        found.append(
            job.finding(
                "hole-closed",
                f"the hole of {show(form.hole_diameter)} is filled by the turning allowance of "
                f"{show(form.turning_allowance)}",
                key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
                remedy=f"a hole of at least {at_least(job, 2 * form.turning_allowance + 1)}",
            )
        )
    if job.gauges.stages[0] > form.turning_allowance:
        found.append(
            job.finding(
                "stage-over-allowance",
                f"a stage of {show(job.gauges.stages[0])} needs more wood than the turning allowance of "
                f"{show(form.turning_allowance)}",
                key="gauges.stages",
                remedy=f"a largest stage of at most {at_most(job, form.turning_allowance)}, or a larger allowance",
            )
        )
    return found


def _title(job: Job) -> list[Finding]:
    missing = sorted({character for character in job.title if not has_glyph(character)})
    if not missing:
        return []
    return [
        job.finding(
            "title-not-lettered",
            f"the jigs' lettering has no {' '.join(missing)}",
            key="title",
            remedy="use plain letters, figures and points",
        )
    ]
