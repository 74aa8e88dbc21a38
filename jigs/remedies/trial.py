"""Trying changes: the job file is read with them, solved, and all its jigs are drawn."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import process_time

from jigs.findings import Finding, Refused
from jigs.jobfile import AnyJob, job_of
from jigs.plan import Plan
from jigs.proof import draw
from jigs.remedies.change import Changes, changed
from jigs.solve import solve
from jigs.toml_source import Source


class OutOfTime(Exception):
    """The time for trying is up."""


@dataclass(frozen=True)
class Outcome:
    """What became of a job with some changes: the job where it could be read, and what refuses it."""

    job: AnyJob | None
    findings: tuple[Finding, ...]

    @property
    def passes(self) -> bool:
        return not self.findings

    @property
    def codes(self) -> frozenset[str]:
        return frozenset(finding.code for finding in self.findings)


class Trials:
    """Outcomes of one job file with changes; none is worked out twice. Raises OutOfTime when its seconds are used."""

    def __init__(self, source: Source, path: Path, seconds: float) -> None:
        self.source = source
        self._path, self._until = path, process_time() + seconds
        self._half = self._until - seconds / 2
        self._solved: dict[str, tuple[Outcome, Plan | None]] = {}
        self._drawn: dict[str, Outcome] = {}

    @property
    def late(self) -> bool:
        """Whether half of the time is used."""
        return process_time() > self._half

    def hurry(self, seconds: float) -> None:
        """Stop after so many seconds more."""
        self._until = min(self._until, process_time() + seconds)

    @contextmanager
    def apart(self, seconds: float) -> Iterator[None]:
        """So many seconds for something else, which the rest does not pay for."""
        begun, until = process_time(), self._until
        self._until = begun + seconds
        try:
            yield
        finally:
            used = process_time() - begun
            self._until, self._half = until + used, self._half + used

    def solved(self, changes: Changes) -> Outcome:
        """Whether the job can be solved; its jigs are not drawn."""
        return self._solve(changes)[0]

    def outcome(self, changes: Changes) -> Outcome:
        """Whether the job passes, its jigs too."""
        known, (outcome, plan) = _known_by(changes), self._solve(changes)
        if plan is None:
            return outcome
        if known not in self._drawn:
            self._check_time()
            self._drawn[known] = _drawn(outcome, plan)
        return self._drawn[known]

    def can_be_solved(self, changes: Changes) -> bool:
        return self.solved(changes).passes

    def passes(self, changes: Changes) -> bool:
        return self.outcome(changes).passes

    def _solve(self, changes: Changes) -> tuple[Outcome, Plan | None]:
        known = _known_by(changes)
        if known not in self._solved:
            self._check_time()
            self._solved[known] = _solved(changed(self.source, changes), self._path)
        return self._solved[known]

    def _check_time(self) -> None:
        if process_time() > self._until:
            raise OutOfTime


def _known_by(changes: Changes) -> str:
    return ", ".join(f"{key}={value!r}" for key, value in sorted(changes.items(), key=lambda item: item[0]))


def _solved(source: Source, path: Path) -> tuple[Outcome, Plan | None]:
    job: AnyJob | None = None
    try:
        job = job_of(source, path)
        return Outcome(job, ()), solve(job, early=True)
    except Exception as error:
        return Outcome(job, _findings(error)), None


def _drawn(outcome: Outcome, plan: Plan) -> Outcome:
    try:
        draw(plan)
    except Exception as error:
        return Outcome(outcome.job, _findings(error))
    return outcome


def _findings(error: Exception) -> tuple[Finding, ...]:
    """What refused it; a change that breaks the tool is no remedy, and what breaks it unchanged the command tells."""
    return error.findings if isinstance(error, Refused) else (Finding("fault", str(error)),)
