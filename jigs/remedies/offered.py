"""What is offered to the turner of a refused job."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from jigs.keys import TABLES
from jigs.remedies.change import Change, Changes, in_order
from jigs.remedies.lessened import lessened
from jigs.remedies.order import only_if_measured, rank
from jigs.remedies.search import alike, sets_that_pass
from jigs.remedies.trial import OutOfTime, Trials
from jigs.remedies.unstated import stating
from jigs.toml_source import Source

SECONDS = 5.0  # of looking for sets, at most
MORE_SECONDS = 0.4  # for other sets, once there is one that needs no other machine
LESSENING = 1.0  # seconds for bringing one set down to what it takes
STATING = 0.6  # seconds for what a machine that the file left out would have to measure
MOST_SETS = 3


@dataclass(frozen=True)
class Remedy:
    """Changes that were tried together: with all of them the job passes."""

    changes: tuple[Change, ...]


def remedies(
    source: Source, path: Path, seconds: float = SECONDS, most: int = MOST_SETS
) -> tuple[Remedy, ...] | None:
    """Sets of changes with each of which the job passes, the smallest first; none where none was found.

    Those that need another machine come after those that need none. Where the file left a machine's size out and
    that alone would do, it is among them. None where the job passes as it is, or cannot be read at all.
    """
    trials = Trials(source, path, seconds)
    try:
        begins = trials.outcome({})
    except OutOfTime:
        return ()
    if begins.passes or begins.job is None:
        return None
    with trials.apart(STATING):
        own = stating(trials)
    found = _sets(trials, most, [own] if own else [])
    return tuple(_remedy(changes) for changes in _first(trials, found, own, most))


def _sets(trials: Trials, most: int, found: list[Changes]) -> list[Changes]:
    """Sets found, each brought down to what it takes, with one at least that needs no other machine if time allows."""
    try:
        for changes in sets_that_pass(trials):
            with trials.apart(LESSENING):
                few = lessened(trials, changes)
            if not alike(found, few):
                found.append(few)
            if not all(only_if_measured(one) for one in found):
                if len(found) >= most:
                    break
                trials.hurry(MORE_SECONDS)
    except OutOfTime:
        pass
    return found


def _first(trials: Trials, found: list[Changes], own: Changes | None, most: int) -> list[Changes]:
    """The first sets in order; the machine's own size, stated, among them where there is room for more than one."""
    with trials.apart(1.0):
        ordered = sorted(found, key=lambda changes: rank(trials, changes))
    kept = ordered[:most]
    return kept if own is None or own in kept or most < 2 else [*kept[:-1], own]


def _remedy(changes: Changes) -> Remedy:
    return Remedy(tuple(in_order((Change(key, value) for key, value in changes.items()), TABLES)))
