"""Trying changes: the job file is read with them, solved, and all its jigs are drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import process_time

from geometry.records import Record
from jigs.asked.by_job import by_job
from jigs.asked.change import Changes, changed
from jigs.asked.jobfile import AnyJob, job_of
from jigs.asked.toml_source import Source
from jigs.asked.vessel_job import VesselJob
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.progress import Progress, silent_progress
from jigs.remedies.glued import OTHERS, Made, are_others, rings_made
from jigs.sets.rack import draw
from jigs.words.findings import Finding, Refused, RefusedSoon

# What a trial counts, about 10 ms each on a common machine. Counted, so that every machine answers alike.
UNREAD = 1
TORUS, VESSEL = (1, 3), (3, 8)  # refused by its shape alone; else
DRAWN = 10
USUAL_RINGS = 15  # a vessel of more counts for more, as its solving takes longer than in proportion
MOST_FOR_ONE = VESSEL[1] + DRAWN
LONGEST = 60.0  # seconds: the last resort for a job of which every trial takes long


class Enough(Exception):
    """No more is to be tried."""


class Outcome(Record):
    """What became of a job with some changes: the job where it could be read, and what refuses it."""

    job: AnyJob | None
    findings: tuple[Finding, ...]
    soon: bool = False  # refused by its shape alone: more may be wrong

    @property
    def passes(self) -> bool:
        return not self.findings

    @property
    def codes(self) -> frozenset[str]:
        return frozenset(finding.code for finding in self.findings)


class Trials:
    """Outcomes of one job file with changes; none is worked out twice. Raises Enough when its count is used up."""

    def __init__(self, source: Source, path: Path, most: int, progress: Progress = silent_progress) -> None:
        self.source, self._progress = source, progress
        self.counted = 0
        self._path, self._most, self._begun = path, most, process_time()
        self._solved: dict[str, tuple[Outcome, Plan | None]] = {}
        self._drawn: dict[str, Outcome] = {}
        self._made: tuple[Made, ...] | None = None  # rings that are glued already, once asked for

    def hurry(self, count: int) -> None:
        """Stop after counting so much more."""
        self._most = min(self._most, self.counted + count)

    @contextmanager
    def apart(self, count: int) -> Iterator[None]:
        """So much for something else, which the rest does not pay for."""
        begun, most = self.counted, self._most
        self._most = begun + count
        try:
            yield
        finally:
            self._most = most + self.counted - begun

    def solved(self, changes: Changes) -> Outcome:
        """Whether the job can be solved; its jigs are not drawn."""
        return self._solve(changes)[0]

    def outcome(self, changes: Changes) -> Outcome:
        """Whether the job passes, its jigs too."""
        known, (outcome, plan) = _known_by(changes), self._solve(changes)
        if plan is None:
            return outcome
        if known not in self._drawn:
            self._check()
            self._drawn[known] = _drawn(outcome, plan)
            self.counted += DRAWN
        return self._drawn[known]

    def can_be_solved(self, changes: Changes) -> bool:
        return self.solved(changes).passes

    def passes(self, changes: Changes) -> bool:
        return self.outcome(changes).passes

    def _solve(self, changes: Changes) -> tuple[Outcome, Plan | None]:
        known = _known_by(changes)
        if known not in self._solved:
            self._check()
            outcome, plan = _solved(changed(self.source, changes), self._path)
            if plan is not None and self._glued_are_others(plan):
                outcome, plan = Outcome(outcome.job, (OTHERS,)), None
            self._solved[known] = outcome, plan
            self.counted += _cost(outcome)
        return self._solved[known]

    def _glued_are_others(self, plan: Plan) -> bool:
        """Whether a change makes rings that are glued already other rings."""
        if self._made is None:
            self._made = rings_made(job_of(self.source, self._path))
        return are_others(self._made, plan)

    def _check(self) -> None:
        self._progress(self.counted, self._most, "looking for what would do")
        if self.counted >= self._most or process_time() > self._begun + LONGEST:
            raise Enough


def _cost(outcome: Outcome) -> int:
    if outcome.job is None:
        return UNREAD
    late = 0 if outcome.soon else 1
    return by_job(outcome.job, torus=lambda _: TORUS[late], vessel=lambda own: _of_vessel(own, VESSEL[late]))


def _of_vessel(job: VesselJob, cost: int) -> int:
    return math.ceil(cost * math.pow(max(1.0, _rings(job) / USUAL_RINGS), 1.5))


def _rings(job: VesselJob) -> float:
    """About how many rings a vessel has; with heights to be chosen, as many as is usual."""
    heights = job.rings.heights
    return (
        USUAL_RINGS
        if isinstance(heights, str)
        else (job.outside.profile.top - job.outside.profile.bottom) / heights[-1]
    )


def _known_by(changes: Changes) -> str:
    return ", ".join(f"{key}={value!r}" for key, value in sorted(changes.items(), key=lambda item: item[0]))


def _solved(source: Source, path: Path) -> tuple[Outcome, Plan | None]:
    job: AnyJob | None = None
    try:
        job = job_of(source, path)
        return Outcome(job, ()), solve(job, early=True)
    except Exception as error:
        return Outcome(job, _findings(error), isinstance(error, RefusedSoon)), None


def _drawn(outcome: Outcome, plan: Plan) -> Outcome:
    try:
        draw(plan)
    except Exception as error:
        return Outcome(outcome.job, _findings(error))
    return outcome


def _findings(error: Exception) -> tuple[Finding, ...]:
    """What refused it; a change that breaks the tool is no remedy, and what breaks it unchanged the command tells."""
    return error.findings if isinstance(error, Refused) else (Finding("fault", str(error)),)
