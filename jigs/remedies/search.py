"""Looking for the smallest set of changes with which a refused job passes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from itertools import count
from typing import Any

from jigs.asked.change import Changes, changed
from jigs.remedies.ladder import Rung, nearest
from jigs.remedies.lever import MACHINE, SIZE, Lever, View
from jigs.remedies.levers import LATEST, levers_for, round_of
from jigs.remedies.trial import Outcome, Trials
from jigs.words.findings import Finding

PER_FINDING = 4.0  # what each finding that is still there adds to a set's dearness
MOST_CHANGES = 7  # keys
EXPECTED = 1.3  # times a lever's dearness is what a set with it is thought to cost before it is pulled

Turned = Mapping[str, str]  # which way each key has been changed: none is turned back


@dataclass(order=True)
class _Node:
    """A set of changes; with a lever, the sets that pulling it makes of this one, not looked for yet."""

    rank: float
    number: int
    changes: Mapping[str, Any] = field(compare=False)
    turned: Turned = field(compare=False)
    spent: Mapping[str, float] = field(compare=False)  # dearness by key
    lever: Lever | None = field(compare=False, default=None)


def sets_that_pass(trials: Trials) -> Iterator[Mapping[str, Any]]:
    """Sets of changes with which the job passes, about the smallest first, until enough is tried or none is left.

    A lever is pulled when no set that could be cheaper is waiting: most of the time goes into pulling.
    """
    numbers = count()
    queue, seen = [_Node(0.0, next(numbers), {}, {}, {})], set[str]()
    while queue:
        node = heappop(queue)
        if node.lever is not None:
            new_nodes = _pulled(trials, node, node.lever)
        elif (outcome := trials.outcome(node.changes)).passes:
            yield node.changes
            continue
        else:
            new_nodes = _levers(node, outcome) if len(node.turned) < MOST_CHANGES else iter(())
        for new in new_nodes:
            known = repr(sorted(new.changes.items(), key=lambda item: item[0])) + (
                new.lever.name if new.lever else ""
            )
            if known not in seen:
                seen.add(known)
                heappush(queue, replace(new, number=next(numbers)))


def _levers(node: _Node, outcome: Outcome) -> Iterator[_Node]:
    """The levers that may remove the first finding, each with the least that it can cost."""
    if outcome.job is None:
        return
    others = PER_FINDING * max(0.0, _left(outcome) - 1)
    for lever in levers_for(outcome.job, outcome.findings[0]):
        if lever.way is None or node.turned.get(lever.key, lever.way) == lever.way:
            least = 0.0 if lever.key in node.spent else EXPECTED * lever.dearness
            yield replace(node, rank=sum(node.spent.values()) + least + others, lever=lever)


def _pulled(trials: Trials, node: _Node, lever: Lever) -> Iterator[_Node]:
    """The set with the nearest rung of a lever that removes the first finding."""
    outcome = trials.outcome(node.changes)
    if outcome.job is None:
        return
    finding = outcome.findings[0]
    view = View(changed(trials.source, node.changes), outcome.job, finding)
    rung = found(trials, node.changes, outcome, finding, lever, view)
    if rung is None:
        return
    changes = {**node.changes, **rung.changes}
    spent = {**node.spent, **_cost(lever, rung, node)}
    rank = sum(spent.values()) + PER_FINDING * _left(trials.solved(changes))
    turned = {**node.turned, **({lever.key: lever.way} if lever.way else {})}
    yield replace(node, rank=rank, changes=changes, turned=turned, spent=spent, lever=None)


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


def found(
    trials: Trials, changes: Changes, outcome: Outcome, finding: Finding, lever: Lever, view: View
) -> Rung | None:
    """The nearest rung with which a finding is gone and no earlier one has come. Jigs are drawn where they refuse."""
    tried = trials.outcome if trials.solved(changes).passes else trials.solved

    def works(rung: Rung) -> bool:
        now = tried({**changes, **rung.changes})
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


def alike(others: Iterable[Changes], changes: Changes) -> bool:
    """Whether a set holds all keys of one that was found before."""
    return any(set(before) <= set(changes) for before in others)
