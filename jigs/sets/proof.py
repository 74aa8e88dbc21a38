"""Whether a job can be made: its plan, and every jig as it will be written."""

from __future__ import annotations

from geometry.records import dataclass
from jigs.asked.job import Job
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.sets.rack import rack
from jigs.words.findings import Finding
from jigs.work.lean import left_out


@dataclass(frozen=True)
class Proof:
    """A job that can be made."""

    plan: Plan
    parts: list[Part]
    notes: list[Finding]  # of the jigs; the plan has its own
    without: tuple[Part, ...] = ()  # of them, those that a lean rack leaves out

    @property
    def made(self) -> list[Part]:
        """Those that are made."""
        return [part for part in self.parts if part not in self.without]


def prove(job: Job, lean: bool = False) -> Proof:
    """Solve a job and draw all its jigs. Raises Refused with every finding that stops it.

    If `lean`, as for a turner who owns sleds: what is left out stops nothing.
    """
    return draw(solve(job), lean)


def draw(plan: Plan, lean: bool = False) -> Proof:
    """Draw all jigs of a plan. Raises Refused where one of them that is made cannot be."""
    parts, notes = rack(plan, lean)
    return Proof(plan, parts, notes, left_out(parts) if lean else ())
