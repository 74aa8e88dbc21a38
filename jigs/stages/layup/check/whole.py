"""Whether layups and their jigs can be made; without one nothing that sees to it is loaded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from jigs.asked.job import Job
from jigs.words.findings import Finding

if TYPE_CHECKING:
    from jigs.stages.layup.plan import LayupJigs, LayupPlan


def findings(job: Job, layups: Sequence[LayupPlan], jigs: Sequence[LayupJigs]) -> Iterator[Finding]:
    """What refuses a job's layups or keeps their jigs from being built, and what is worth knowing of them."""
    if job.layup is None:
        return
    from jigs.stages.layup.check.jigs import layup_jig_findings
    from jigs.stages.layup.check.layup import layup_findings

    yield from layup_findings(job, layups)
    yield from layup_jig_findings(job, layups, jigs)
