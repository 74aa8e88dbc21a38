"""Which of several sets of changes the turner would rather hear of first."""

from __future__ import annotations

from jigs.asked.change import Changes, raw_value
from jigs.asked.jobfile import AnyJob
from jigs.remedies.ladder import number_held
from jigs.remedies.lever import SIZE, dearness
from jigs.remedies.trial import Trials

MACHINES = ("saw", "bandsaw", "lathe", "printer", "cutter")  # what they measure no file can change
ANOTHER_SHAPE = 1.0  # how far a change of a list, or of a choice, goes: its own size again


def of_a_machine(key: str) -> bool:
    return key.partition(".")[0] in MACHINES


def only_if_measured(changes: Changes) -> bool:
    """Whether a set holds what no file can change."""
    return any(of_a_machine(key) for key in changes)


def rank(trials: Trials, changes: Changes) -> tuple[bool, bool, float]:
    """Sets that need no other machine first, then those whose machine was never stated; each by how little changes."""
    before, now = trials.outcome({}).job, trials.solved(changes).job
    machine = only_if_measured(changes)
    stated = any(of_a_machine(key) and before is not None and key in before.places for key in changes)
    return (
        machine,
        stated,
        sum(
            dearness(key) * (1 + SIZE * (0.0 if _kept(trials, key, new) else _far(trials, before, now, key)))
            for key, new in changes.items()
        ),
    )


def _kept(trials: Trials, key: str, new: object) -> bool:
    """Whether all stations stay, others between them: the curve comes nearer to what they state."""
    old = raw_value(trials.source, key)
    return (
        key == "profile.stations"
        and isinstance(old, list)
        and isinstance(new, list)
        and all(row in new for row in old)
    )


def _far(trials: Trials, before: AnyJob | None, now: AnyJob | None, key: str) -> float:
    """How far a change goes, 1 for its own size again, at most 2."""
    if of_a_machine(key):
        return 0.0
    old, new = (number_held(job, key) if job is not None else None for job in (before, now))
    if old is not None and new is not None:
        return min(abs(new - old) / max(abs(old), 1.0), 2.0)
    return ANOTHER_SHAPE if raw_value(trials.source, key) is not None else 0.0
