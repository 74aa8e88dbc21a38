"""What the plans of a form are made into: one record for each form, which stands in its own room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Generic, Never, TypeVar

from geometry.records import Record
from jigs.parts.part import Part
from jigs.words.quantity import Quantity
from jigs.work.model import Operation, Rack, Stage, Table

P = TypeVar("P", contravariant=True)


class Form(Record, Generic[P]):
    """The stages of its work in their order, the job in short, and tables of the whole job, told before the stages'."""

    stages: tuple[Stage[P], ...]
    facts: Callable[[P], tuple[Quantity, ...]]
    tables: tuple[Callable[[P], Sequence[Table]], ...]

    def of(self, plan: P) -> OfPlan:
        every = (*self.tables, *(tables for stage in self.stages for tables in stage.tables))
        return OfPlan(
            tuple((stage, partial(stage.operations, plan)) for stage in self.stages),
            tuple(partial(family, plan) for stage in self.stages for family in stage.jigs),
            partial(self.facts, plan),
            tuple(partial(tables, plan) for tables in every),
        )


class OfPlan(Record):
    """A form's record bound to a plan of it; nothing is worked out before it is asked for."""

    stages: tuple[tuple[Stage[Never], Callable[[Rack], Sequence[Operation]]], ...]
    families: tuple[Callable[[], list[Part]], ...]
    facts: Callable[[], tuple[Quantity, ...]]
    tables: tuple[Callable[[], Sequence[Table]], ...]
