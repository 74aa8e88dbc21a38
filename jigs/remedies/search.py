"""Looking for the smallest set of changes with which a refused job passes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import count
from typing import Any

from jigs.findings import Finding
from jigs.remedies.change import changed
from jigs.remedies.ladder import Rung, nearest
from jigs.remedies.lever import MACHINE, Lever, View
from jigs.remedies.levers import LATEST, levers_for, recipe_for, round_of
from jigs.remedies.trial import Outcome, OutOfTime, Trials

PER_FINDING = 4.0  # what each finding that is still there adds to a set's dearness
MOST_CHANGES = 7  # keys
MOST_LEFT = 99.0
AFRESH = 15.0  # dearness of beginning with common proportions, tried when all that is cheaper has been
SIZE = 3.0  # how much dearer a change is for each time its key's own size

Turned = Mapping[str, str]  # which way each key has been changed: none is turned back


@dataclass(order=True)
class _Node:
    rank: float
    number: int
    changes: Mapping[str, Any] = field(compare=False)
    turned: Turned = field(compare=False)
    spent: Mapping[str, float] = field(compare=False)  # dearness by key


def sets_that_pass(trials: Trials) -> Iterator[Mapping[str, Any]]:
    """Sets of changes with which the job passes, about the smallest first, until the time is up or none is left."""
    numbers = count()
    queue = [_Node(0.0, next(numbers), {}, {}, {}), _Node(AFRESH, next(numbers), {}, {}, {"afresh": AFRESH})]
    seen: set[frozenset[str]] = set()
    while queue:
        node = heappop(queue)
        outcome = trials.outcome(node.changes)
        if outcome.passes:
            yield node.changes
            continue
        for child in (
            _afresh(trials, node, outcome, numbers)
            if node.spent and not node.changes
            else (_children(trials, node, outcome, numbers) if len(node.turned) < MOST_CHANGES else ())
        ):
            known = frozenset(f"{key}={value}" for key, value in child.changes.items())
            if known not in seen:
                seen.add(known)
                heappush(queue, child)


def _afresh(trials: Trials, node: _Node, outcome: Outcome, numbers: Iterator[int]) -> Iterator[_Node]:
    """The job in common proportions, of several the one with the fewest findings."""
    if outcome.job is None:
        return
    ladder = recipe_for(outcome.job).ladder(View(trials.source, outcome.job, outcome.findings[0]))
    best, fewest = None, MOST_LEFT
    for rung in ladder:
        now = trials.solved(rung.changes)
        if now.job is not None and (left := _left(now)) < fewest:
            best, fewest = rung, left
        if not fewest:
            break
    if best is not None:
        yield _Node(AFRESH + PER_FINDING * fewest, next(numbers), best.changes, {}, node.spent)


def _children(trials: Trials, node: _Node, outcome: Outcome, numbers: Iterator[int]) -> Iterator[_Node]:
    """A set more for each lever that removes the first finding."""
    if outcome.job is None:
        return
    finding = outcome.findings[0]
    view = View(changed(trials.source, node.changes), outcome.job, finding)
    for lever in levers_for(outcome.job, finding):
        if lever.way is not None and node.turned.get(lever.key, lever.way) != lever.way:
            continue
        rung = _found(trials, node, outcome, finding, lever, view)
        if rung is None:
            continue
        changes = {**node.changes, **rung.changes}
        spent = {**node.spent, **_cost(lever, rung, node)}
        rank = sum(spent.values()) + PER_FINDING * _left(trials.solved(changes))
        turned = {**node.turned, **({lever.key: lever.way} if lever.way else {})}
        yield _Node(rank, next(numbers), changes, turned, spent)


def _left(outcome: Outcome) -> float:
    """How much there is still to put right; what is refused early may be more than is told."""
    job = outcome.job
    early = job is not None and any(round_of(job, code) < LATEST for code in outcome.codes)
    return len(outcome.codes) + (0.5 if early else 0.0)


def _cost(lever: Lever, rung: Rung, node: _Node) -> dict[str, float]:
    """A machine is another one by however much."""
    before = node.spent.get(lever.key, lever.dearness)
    far = 0.0 if lever.dearness >= MACHINE else SIZE * lever.dearness * min(rung.far, 2.0)
    return {lever.key: before + far}


def _found(
    trials: Trials, node: _Node, outcome: Outcome, finding: Finding, lever: Lever, view: View
) -> Rung | None:
    """The nearest rung with which a finding is gone and no earlier one has come. Jigs are drawn where they refuse."""
    tried = trials.outcome if trials.solved(node.changes).passes else trials.solved

    def works(rung: Rung) -> bool:
        now = tried({**node.changes, **rung.changes})
        return now.job is not None and finding.code not in now.codes and not _earlier(now, outcome, finding)

    ladder = lever.ladder(view)
    if lever.steady:
        return nearest(ladder, works, finding.wants.get(lever.key))
    return next((rung for rung in ladder if works(rung)), None)


def _earlier(now: Outcome, before: Outcome, finding: Finding) -> bool:
    """Whether a job is newly refused so early that what refused it before cannot be told."""
    if now.job is None:
        return True
    limit = round_of(now.job, finding.code)
    return any(round_of(now.job, code) < limit for code in now.codes - before.codes)


def smaller(trials: Trials, changes: Mapping[str, Any]) -> Mapping[str, Any]:
    """The set without those changes that it passes without."""
    for key in list(changes):
        fewer = {other: value for other, value in changes.items() if other != key}
        try:
            if trials.outcome(fewer).passes:
                changes = fewer
        except OutOfTime:
            break
    return changes


def alike(found: Iterable[Mapping[str, Any]], changes: Mapping[str, Any]) -> bool:
    """Whether a set holds all keys of one that was found before."""
    return any(set(before) <= set(changes) for before in found)
