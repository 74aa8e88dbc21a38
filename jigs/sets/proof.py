"""Whether a job can be made: its plan, and every jig as it will be written."""

from __future__ import annotations

from dataclasses import dataclass

from jigs.asked.job import Job
from jigs.forms.plan import Plan
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.sets.rack import rack
from jigs.words.findings import Finding


@dataclass(frozen=True)
class Proof:
    """A job that can be made."""

    plan: Plan
    parts: list[Part]
    notes: list[Finding]  # of the jigs; the plan has its own


def prove(job: Job) -> Proof:
    """Solve a job and draw all its jigs. Raises Refused with every finding that stops it."""
    return draw(solve(job))


def draw(plan: Plan) -> Proof:
    """Draw all jigs of a plan. Raises Refused where one of them cannot be made."""
    parts, notes = rack(plan)
    return Proof(plan, parts, notes)
