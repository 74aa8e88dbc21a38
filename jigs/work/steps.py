"""The plan's steps of the wood, as the stages ask for them: what is set and checked there is the plan's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.boards.plan.steps import Step, Work

MOST = 16  # kinds of parts told in one step
PIECES = {
    "stave": "staves",
    "base": "disc",
    "upright": "solid piece",
    "plug": "core plug",
    "knob": "knob",
    "spacer": "between",
    "ring strip": "between rings",
}


def steps_of(plan: Plan, *works: Work) -> list[Step]:
    """Those of some kinds, in the plan's order."""
    return [step for step in plan.wood.steps if step.work in works]


def piece_of(plan: Plan, step: Step) -> str:
    """What its pieces are, where they are not segments."""
    found = {PIECES.get(plan.wood.lot(lot).piece, "") for lot in step.lots}
    return found.pop() if len(found) == 1 else ""


def spares_of(plan: Plan, steps: Sequence[Step]) -> list[int]:
    """How many of each step's pieces are spare; none is told of a layup's."""
    return [sum(plan.wood.lot(lot).spares for lot in step.lots) for step in steps]


def nth(number: int) -> str:
    """What an id ends in: nothing for the first of its kind, then "-2", "-3"."""
    return "" if number == 1 else f"-{number}"


def by_page(parts: Sequence[Part]) -> Iterator[tuple[str, Sequence[Part]]]:
    """As many as one step tells, in their order, with what its id ends in."""
    return ((nth(1 + k // MOST), parts[k : k + MOST]) for k in range(0, len(parts), MOST))
