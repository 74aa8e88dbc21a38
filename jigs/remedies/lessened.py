"""A set of changes with which a job passes, brought down to what it takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import Any

from jigs.asked.change import Changes, raw_value
from jigs.asked.key import Wrong
from jigs.asked.values import read_value
from jigs.remedies.ladder import ALL, number_held, rungs
from jigs.remedies.lever import dearness
from jigs.remedies.trial import Enough, Trials
from jigs.words.lengths import BadLength, Unit

CONFIRMING = 16  # counted, for the jigs of what came of it
HALVINGS = 4  # of the way back, several numbers at once
MOST_IN_PAIRS = 4  # numbers, the dearest
Passes = Callable[[Changes], bool]


def lessened(trials: Trials, changes: Changes) -> Changes:
    """The set without what changes nothing or is not needed, its numbers as near to the turner's own as pass.

    As far as the count goes; what comes back passes, its jigs too, whenever `changes` does.
    """
    begins = without_idle(trials, changes)
    ways: tuple[Passes, ...] = (trials.can_be_solved, trials.passes)
    for passes in ways:  # drawing takes long, and mostly tells nothing more
        least = last(begins, _steps(trials, begins, passes))
        if confirmed(trials, least):
            return least
    return begins


def confirmed(trials: Trials, changes: Changes) -> bool:
    """Whether the jigs of a job that can be solved can be drawn."""
    with trials.apart(CONFIRMING):
        return trials.outcome(changes).passes


def last(begins: Changes, steps: Iterator[Changes]) -> Changes:
    """The last of the steps that the count allows."""
    least = begins
    try:
        for step in steps:
            least = step
    except Enough:
        pass
    return least


def _steps(trials: Trials, changes: Changes, passes: Passes) -> Iterator[Changes]:
    """Smaller and smaller sets, all of which pass, until none is left."""
    while (fewer := _one_fewer(changes, passes)) is not None:
        yield (changes := fewer)
    dearest = sorted(changes, key=dearness, reverse=True)
    for keys in (dearest, *combinations(dearest[:MOST_IN_PAIRS], 2)):
        yield (changes := _together(trials, changes, keys, passes))
    before: Changes = {}
    while before != changes:  # one number nearer may let another come nearer, or go
        before = changes
        for key in sorted(changes, key=dearness, reverse=True):
            yield (changes := _nearer(trials, changes, key, passes))
        while (fewer := _one_fewer(changes, passes)) is not None:
            yield (changes := fewer)


def without_idle(trials: Trials, changes: Changes) -> Changes:
    """The set without what says again what the file says."""
    job = trials.solved({}).job
    unit = job.unit if job else "mm"
    return {
        key: value
        for key, value in changes.items()
        if not _same(key, raw_value(trials.source, key), value, unit)
    }


def _same(key: str, old: Any, new: Any, unit: Unit) -> bool:
    """Whether both are read as one value."""
    if old is None or new is None or key not in ALL:
        return bool(old is None and new is None)
    try:
        return read_value(ALL[key], old, unit) == read_value(ALL[key], new, unit)
    except (Wrong, BadLength):
        return False


def _one_fewer(changes: Changes, passes: Passes) -> Changes | None:
    """The set without the dearest change that it passes without."""
    for key in sorted(changes, key=dearness, reverse=True):
        fewer = {other: value for other, value in changes.items() if other != key}
        if passes(fewer):
            return fewer
    return None


def _together(trials: Trials, changes: Changes, keys: Sequence[str], passes: Passes) -> Changes:
    """The set with some of its numbers the same part of the way back to the turner's own, by halves."""
    ladders = [ladder for key in keys if (ladder := _between(trials, changes, key))]
    first, last, best = 0.0, 1.0, changes
    for _ in range(HALVINGS if len(ladders) > 1 else 0):
        middle = (first + last) / 2
        near = dict(changes)
        for ladder in ladders:
            near.update(ladder[int(middle * len(ladder))])
        if passes(near):
            last, best = middle, near
        else:
            first = middle
    return best


def _nearer(trials: Trials, changes: Changes, key: str, passes: Passes) -> Changes:
    """The set with one of its numbers as near to what held before as still passes, by halves."""
    between = _between(trials, changes, key)
    first, last = 0, len(between)  # of `between`, the nearest that may pass; the nearest that is known to
    while first < last:
        middle = (first + last) // 2
        if passes({**changes, **between[middle]}):
            last = middle
        else:
            first = middle + 1
    return {**changes, **between[last]} if last < len(between) else changes


def _between(trials: Trials, changes: Changes, key: str) -> list[Mapping[str, Any]]:
    """Values of a key from what holds without the set to what holds with it, neither of them among these."""
    before, now = trials.outcome({}).job, trials.solved(changes).job
    if key not in ALL or changes[key] is None or before is None or now is None:
        return []
    old, new = number_held(before, key), number_held(now, key)
    if old is None or new is None or old == new:
        return []
    ladder = rungs(before, key, "up" if new > old else "down")
    return [rung.changes for rung in ladder if (rung.at < new - 1e-6 if new > old else rung.at > new + 1e-6)]
