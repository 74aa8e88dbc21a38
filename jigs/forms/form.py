"""What the plans of a form are made into: one record for each form, which stands in its own room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from geometry.records import Record
from jigs.words.quantity import Quantity
from jigs.work.model import Stage, Table

P = TypeVar("P", contravariant=True)


class Form(Record, Generic[P]):
    """The stages of its work in their order, the job in short, and tables of the whole job, told before the stages'."""

    stages: tuple[Stage[P], ...]
    facts: Callable[[P], tuple[Quantity, ...]]
    tables: tuple[Callable[[P], Sequence[Table]], ...]
