"""From a job that passes back to the turner's own, as far as that passes too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.change import Changes
from jigs.remedies.afresh import WHOLE, afresh, all_cut, usual_machines
from jigs.remedies.lessened import Passes, confirmed, last, without_idle
from jigs.remedies.lever import View, dearness
from jigs.remedies.trial import Outcome, Trials

Unit = tuple[str, ...]  # keys that are put back together


def put_back(trials: Trials) -> Changes | None:
    """What of a job in common proportions a refused one needs; None where no such job passes."""
    outcome = trials.outcome({})
    if outcome.job is None:
        return None
    whole = _whole(trials, outcome)
    if whole is None:
        return None
    begins = without_idle(trials, whole)
    ways: tuple[Passes, ...] = (trials.can_be_solved, trials.passes)
    for passes in ways:  # drawing takes long, and mostly tells nothing more
        least = last(begins, _fewer(begins, _units(begins), passes))
        if confirmed(trials, least):
            return least
    return begins


def _whole(trials: Trials, outcome: Outcome) -> Changes | None:
    """The nearest job in common proportions that passes; on other machines only where none does on the turner's."""
    job = outcome.job
    if job is None:
        return None
    view = View(trials.source, job, outcome.findings[0])
    candidates = list(afresh(view))
    machines, sawn = usual_machines(job), all_cut(job)
    for changes in (*candidates, *({**changes, **machines} for changes in candidates if machines)):
        if trials.passes(changes):
            return changes
        if "larger-than-bed" in trials.outcome(changes).codes and trials.passes({**changes, **sawn}):
            return {**changes, **sawn}
    return None


def _units(changes: Changes) -> list[Unit]:
    """The dearest first: they are the first that are tried without."""
    found: dict[str, list[str]] = {}
    for key in changes:
        table = key.partition(".")[0]
        found.setdefault(table if table in WHOLE else key, []).append(key)
    units = [tuple(keys) for keys in found.values()]
    return sorted(units, key=lambda unit: max(dearness(key) for key in unit), reverse=True)


def _fewer(changes: Changes, units: Sequence[Unit], passes: Passes) -> Iterator[Changes]:
    """The changes without more and more of the units, all of which pass: without all, else half by half."""
    waiting = [units]
    while waiting:
        some = waiting.pop()
        gone = {key for unit in some for key in unit}
        fewer = {key: value for key, value in changes.items() if key not in gone}
        if passes(fewer):
            yield (changes := fewer)
        elif len(some) > 1:
            half = len(some) // 2
            waiting += [some[half:], some[:half]]
