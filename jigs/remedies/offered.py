"""What is offered to the turner of a refused job."""

from __future__ import annotations

from pathlib import Path

from geometry.records import Record
from jigs.asked.change import Change, Changes, changed, in_order
from jigs.asked.jobfile import AnyJob
from jigs.asked.keys import TABLES
from jigs.asked.toml_source import Source
from jigs.progress import Progress, silent_progress
from jigs.remedies.glued import some_glued
from jigs.remedies.lessened import lessened
from jigs.remedies.lever import Lever, View
from jigs.remedies.levers import levers_for
from jigs.remedies.order import of_a_machine, only_if_measured, rank
from jigs.remedies.put_back import put_back
from jigs.remedies.search import alike, found, sets_that_pass
from jigs.remedies.shared import in_other_units
from jigs.remedies.trial import MOST_FOR_ONE, Enough, Outcome, Trials

# How much is tried, counted as trials are: about 10 ms each.
SEARCHING = 150  # for sets, lever by lever
MORE = 50  # for other sets, once there is one that needs no other machine
PUTTING_BACK = 150  # from common proportions to the turner's own, where no lever does
LESSENING = 80  # for bringing one set down to what it takes
FARTHER = 200  # once more, from where the search stood, where nothing was found
STATING = 80  # for what a machine that the file left out would have to measure
MOST_SETS = 3
OF_WOOD = {"glued-rings", "glued-half", "glued-top-far"}  # no other job makes it other wood


class Remedy(Record):
    """Changes that were tried together: with all of them the job passes."""

    changes: tuple[Change, ...]


def remedies(
    source: Source, path: Path, most: int = MOST_SETS, progress: Progress = silent_progress
) -> tuple[Remedy, ...] | None:
    """Sets of changes with each of which the job passes, the smallest first; none where none was found.

    Those that need another machine come after those that need none. Where the file left a machine's size out and
    that alone would do, it is among them. None where the job passes as it is, cannot be read at all, or is refused
    for what its readings say of wood that is glued; and where nothing was found for such wood, since a refusal says
    more than that.
    """
    trials = Trials(source, path, SEARCHING, progress)
    try:
        begins = trials.outcome({})
        if begins.passes or begins.job is None or begins.codes & OF_WOOD:
            return None
        with trials.apart(STATING):
            own = stating(trials)
        found = _sets(trials, most, [own] if own else [])
        if not found:
            with trials.apart(FARTHER):
                found = _sets(trials, most, [])
        if not found and some_glued(begins.job.readings):
            return None
        return tuple(_remedy(changes) for changes in _first(trials, found, own, most))
    except Enough:  # every trial takes very long
        return ()


def _sets(trials: Trials, most: int, found: list[Changes]) -> list[Changes]:
    """Sets found, each brought down to what it takes, with one at least that needs no other machine if any does.

    The file's own numbers in the other unit are but a question: the same keys otherwise are another answer to it.
    """
    retyped, others = _retyped(trials), list(found)
    try:
        for changes in sets_that_pass(trials):
            few = _few(trials, changes)
            if not alike(others, few):
                found.append(few)
                others += [] if few.items() <= retyped.items() else [few]
            if not _only_machines(others):
                if len(found) >= most:
                    break
                trials.hurry(MORE)
    except Enough:
        pass
    if _only_machines(found):
        found += [one for one in _afresh(trials) if not alike(found, one)]
    return found


def _retyped(trials: Trials) -> Changes:
    outcome = trials.outcome({})
    return in_other_units(View(trials.source, outcome.job, outcome.findings[0])) if outcome.job else {}


def _only_machines(found: list[Changes]) -> bool:
    return all(only_if_measured(one) for one in found)


def _few(trials: Trials, changes: Changes) -> Changes:
    """A lever alone was pulled no farther than it takes."""
    if len(changes) == 1:
        return changes
    with trials.apart(LESSENING):
        return lessened(trials, changes)


def _afresh(trials: Trials) -> list[Changes]:
    try:
        with trials.apart(PUTTING_BACK):
            changes = put_back(trials)
    except Enough:
        return []
    if changes is None:
        return []
    with trials.apart(LESSENING):
        return [lessened(trials, changes)]


def _first(trials: Trials, found: list[Changes], own: Changes | None, most: int) -> list[Changes]:
    """The first sets in order; the machine's own size, stated, among them where there is room for more than one."""
    with trials.apart(len(found) * MOST_FOR_ONE):
        ordered = sorted(found, key=lambda changes: rank(trials, changes))
    kept = ordered[:most]
    return kept if own is None or own in kept or most < 2 else [*kept[:-1], own]


def _remedy(changes: Changes) -> Remedy:
    return Remedy(tuple(in_order((Change(key, value) for key, value in changes.items()), TABLES)))


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
