"""What is offered to the turner of a refused job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jigs.keys import TABLES
from jigs.remedies.change import Change, in_order
from jigs.remedies.search import alike, sets_that_pass, smaller
from jigs.remedies.trial import OutOfTime, Trials
from jigs.toml_source import Source

SECONDS = 1.6  # of trying, at most
MORE_SECONDS = 0.4  # for other sets, once there is one
MOST_SETS = 3


@dataclass(frozen=True)
class Remedy:
    """Changes that were tried together: with all of them the job passes."""

    changes: tuple[Change, ...]


def remedies(
    source: Source, path: Path, seconds: float = SECONDS, most: int = MOST_SETS
) -> tuple[Remedy, ...] | None:
    """Sets of changes with each of which the job passes, about the smallest first; none where none was found.

    None where the job passes as it is, or cannot be read at all: its values are no matter then.
    """
    trials, found = Trials(source, path, seconds), list[Mapping[str, Any]]()
    try:
        begins = trials.outcome({})
        if begins.passes or begins.job is None:
            return None
        for changes in sets_that_pass(trials):
            few = smaller(trials, changes)
            if not alike(found, few):
                found.append(few)
            if len(found) == most:
                break
            trials.hurry(MORE_SECONDS)
    except OutOfTime:
        pass
    return tuple(_remedy(changes) for changes in found)


def _remedy(changes: Mapping[str, Any]) -> Remedy:
    return Remedy(tuple(in_order((Change(key, value) for key, value in changes.items()), TABLES)))
