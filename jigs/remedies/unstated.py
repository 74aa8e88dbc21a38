"""What would do where only what was assumed of a machine is too little: that machine's own size, stated."""

from __future__ import annotations

from jigs.asked.change import Changes, changed
from jigs.asked.jobfile import AnyJob
from jigs.remedies.lessened import lessened
from jigs.remedies.lever import Lever, View
from jigs.remedies.levers import levers_for
from jigs.remedies.order import of_a_machine
from jigs.remedies.search import found
from jigs.remedies.trial import Enough, Outcome, Trials

MOST_SIZES = 3  # of machines in one set


def stating(trials: Trials) -> Changes | None:
    """The least sizes of machines that the file left out with which the job passes; None where they do not do."""
    changes: Changes = {}
    try:
        for _ in range(MOST_SIZES):
            outcome = trials.outcome(changes)
            more = _stated(trials, changes, outcome) if outcome.job is not None else None
            if more is None:
                return None
            changes = more
            if trials.outcome(changes).passes:
                return lessened(trials, changes)
    except Enough:
        pass
    return None


def _stated(trials: Trials, changes: Changes, outcome: Outcome) -> Changes | None:
    """One size more, with which the first finding is gone."""
    job, finding = outcome.job, outcome.findings[0]
    if job is None:
        return None
    view = View(changed(trials.source, changes), job, finding)
    for lever in levers_for(job, finding):
        if _unstated(job, lever) and lever.key not in changes:
            rung = found(trials, changes, outcome, finding, lever, view)
            if rung is not None:
                return {**changes, **rung.changes}
    return None


def _unstated(job: AnyJob, lever: Lever) -> bool:
    return of_a_machine(lever.key) and lever.way == "up" and lever.key not in job.places
