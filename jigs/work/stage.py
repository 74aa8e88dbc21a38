"""The record of a stage of the work."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Generic, TypeVar

from geometry.records import dataclass
from jigs.work.model import Heading, Operation, Sort, Table

if TYPE_CHECKING:
    from jigs.parts.part import Part
    from jigs.work.rack import Rack

P = TypeVar("P", contravariant=True)


@dataclass(frozen=True)
class Stage(Generic[P]):
    """A part of the work: what gives its operations for a plan, its jigs, and what is known of it beside its steps."""

    id: str
    title: str  # "Saw the segments"
    operations: Callable[[P, Rack], Sequence[Operation]]
    jigs: tuple[Callable[[P], list[Part]], ...] = ()  # those of all stages, in their order, are the rack
    tables: tuple[Callable[[P], Sequence[Table]], ...] = ()
    sort: Sort = "work"
    in_a_run: bool = False  # the listing tells its steps one behind the other, to keep paper for the wood
    remounts: bool = False  # the work comes off the lathe and is put back another way

    @property
    def heading(self) -> Heading:
        return Heading(self.id, self.title, self.sort, self.in_a_run)
