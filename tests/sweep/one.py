"""What becomes of one random job: refused, solved, or made and dry-fitted; or what went wrong."""

from __future__ import annotations

import tempfile
import traceback
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from time import process_time

from jigs.asked.jobfile import load
from jigs.dryfit.fit import DryFit
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.sets.make import make
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from tests.sweep.jobs import RandomJob
from tests.sweep.opinion import Opinion, opinion

NAME = "sweep"


class TookTooLong(BaseException):
    """Raised by the worker's timer; no `except Exception` on the way swallows it."""


@dataclass(frozen=True)
class Outcome:
    """Of one job: `state`, and what to look at where that is no good one."""

    number: int
    kind: str
    state: str  # refused, unreadable, solved, fits, misfits, crashed, too long, refused by make, died
    seconds: float  # of this process
    detail: str = ""
    condemned_right: tuple[str, ...] = ()  # misfits that the independent check finds right
    condemned_wrong: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    overlooked: tuple[str, ...] = ()  # what the independent check finds wrong and the dry fit does not
    faults: tuple[str, ...] = ()  # of the dry fit itself


def outcome(number: int, job: RandomJob, whole: bool) -> Outcome:
    """Solve the job and design its parts; make and dry-fit it too if `whole`. Nothing is raised."""
    begun = process_time()

    def ended(state: str, detail: str = "") -> Outcome:
        return Outcome(number, job.kind, state, process_time() - begun, detail)

    try:
        with tempfile.TemporaryDirectory(prefix="sweep-") as folder:
            return _ended_well(job, Path(folder), whole, ended)
    except TookTooLong:
        return ended("too long", _where(8))
    except Exception as error:  # every crash is a finding of the sweep
        return ended("crashed", f"{type(error).__name__}: {error}\n{_where(6)}")


def _where(last: int) -> str:
    """The last lines of what was running."""
    return "".join(traceback.format_exc().splitlines(keepends=True)[-3 * last :])


def _ended_well(job: RandomJob, root: Path, whole: bool, ended: Callable[..., Outcome]) -> Outcome:
    file = root / f"{NAME}.toml"
    file.write_text(job.text, "utf-8")
    try:
        asked = load(file)
    except Refused as refused:
        return ended("unreadable", _codes(refused))
    try:
        plan = solve(asked)
        rack(plan)
    except Refused as refused:
        return ended("refused", _codes(refused))
    if not whole:
        return ended("solved")
    try:
        folder = make(asked, root).folder
    except Refused as refused:
        return ended("refused by make", str(refused))
    found = dry_fit(asked, folder)
    return _told(ended("misfits" if found.misfits else "fits"), found, plan, folder)


def _codes(refused: Refused) -> str:
    return " ".join(sorted({finding.code for finding in refused.findings}))


def _told(ended: Outcome, found: DryFit, plan: Plan, folder: Path) -> Outcome:
    """With every misfit judged by the independent check."""
    judged: Opinion = opinion(plan, found, folder)
    return replace(ended, **asdict(judged), faults=tuple(check.what for check in found.faults))
