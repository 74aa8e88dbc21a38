"""Operations out of the plan's steps of the wood: what is set and made is the plan's, the words are the stage's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from jigs.plan import Plan
from jigs.plan.wood.steps import Step, Work
from jigs.work.model import Check, JigUse, Operation
from jigs.work.rack import Rack


@dataclass(frozen=True)
class Told:
    """How a stage tells one kind of step. Minutes by rule: to set up, then for each piece."""

    id: str  # of its operation within the stage
    does: str
    comes: str
    how: tuple[str, ...] = ()
    trial: str = ""
    check: str = ""
    if_not: str = ""
    cautions: tuple[str, ...] = ()
    setup: float = 0.0
    each: float = 0.0


def operations_of(plan: Plan, rack: Rack, stage: str, told: Mapping[Work, Told]) -> list[Operation]:
    """One operation for each of the plan's steps that the stage tells, in the plan's order."""
    steps = [step for step in plan.wood.steps if step.work in told]
    return [
        _operation(step, f"{stage}.{told[step.work].id}{nth}", stage, told[step.work], rack)
        for step, nth in _counted(steps)
    ]


def _counted(steps: Iterable[Step]) -> Iterator[tuple[Step, str]]:
    """Each with what its id ends in: nothing for the first of its kind, then "-2", "-3"."""
    met: dict[Work, int] = {}
    for step in steps:
        met[step.work] = met.get(step.work, 0) + 1
        yield step, "" if met[step.work] == 1 else f"-{met[step.work]}"


def _operation(step: Step, id: str, stage: str, told: Told, rack: Rack) -> Operation:
    return Operation(
        id=id,
        stage=stage,
        place=step.machine,
        does=told.does,
        how=told.how,
        pieces=step.pieces,
        comes=told.comes,
        rings=step.rings,
        settings=step.settings,
        jigs=tuple(_use(rack, name) for name in step.jigs),
        trial=told.trial,
        checks=(Check("made", told.check, step.checks, told.if_not),) if told.check else (),
        cautions=told.cautions,
        minutes=told.setup + told.each * step.pieces,
    )


def _use(rack: Rack, name: str) -> JigUse:
    part = rack.part(name)
    return JigUse(name, part.quantity, part.purpose)
