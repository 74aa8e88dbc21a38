"""What is found about the wood of either form."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.asked.job import Job
from jigs.stages.boards.check.names import name_findings
from jigs.stages.boards.check.stock import stock_findings
from jigs.stages.boards.plan.whole import WoodPlan
from jigs.stages.grain.check import grain_findings
from jigs.words.findings import Finding


def wood_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """What the boards do not give, and joints that will not hold."""
    yield from stock_findings(job, wood.lots, wood.classes, wood.shortages)
    yield from name_findings(job, wood)
    yield from grain_findings(job, wood.grain, wood.glue)
