"""How long the work takes: by stage, and how many days. An estimate, from the rules for each kind of work.

Days of so many hours at the bench, one thing after another; what dries may do so overnight. Jigs wait for no other jig:
while one dries the next is built. The printer runs beside all of it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from geometry.grouping import grouped
from jigs.asked.job_wood import WORKDAY
from jigs.words.quantity import Quantity
from jigs.work.model import Column, Heading, JigEntry, Operation, Table

DAY = 24.0
COLUMNS = (
    Column("stage", "Stage"),
    Column("steps", "Steps", "count"),
    Column("hands-on", "Hands on", "minutes"),
    Column("waits", "Waits", "hours"),
    Column("prints", "Printer runs", "hours"),
)


@dataclass
class _Shop:
    """Hours since the first morning, and the days on which something dries."""

    clock: float = 0.0
    dries: set[int] = field(default_factory=set)

    def work(self, hours: float) -> None:
        """From the morning on, as long as a day is."""
        while hours > 1e-9:
            day = self.clock // DAY
            left = day * DAY + WORKDAY - self.clock
            if left <= 1e-9:
                self.clock = (day + 1) * DAY
                continue
            self.clock += min(hours, left)
            hours -= left

    def dry(self, hours: float) -> float:
        """When what now begins to dry is dry."""
        end = self.clock + hours
        if hours:
            self.dries.update(range(int(self.clock // DAY), int((end - 1e-9) // DAY) + 1))
        return end


def days(operations: Iterable[Operation], side_by_side: Collection[str] = ()) -> tuple[int, int]:
    """In the shop, and of these those on which glue or finish dries; in some stages nothing waits for what dries."""
    shop, stage, ready = _Shop(), "", 0.0
    for operation in operations:
        if operation.stage != stage:
            shop.clock, stage = max(shop.clock, ready), operation.stage
        for minutes, hours in _turns(operation):
            shop.work(minutes / 60)
            ready = max(ready, shop.dry(hours))
            if stage not in side_by_side:
                shop.clock = max(shop.clock, ready)
    end = max(shop.clock, ready)
    return int((end - 1e-9) // DAY) + 1, len(shop.dries)


def _turns(operation: Operation) -> Iterator[tuple[float, float]]:
    """Minutes and hours, one after the other: each batch waits for the one before to leave the clamps."""
    stated = {
        one.id: float(one.value)
        for one in (*operation.settings, *operation.known)
        if one.id in ("batches", "dry-time")
    }
    batches, dries = int(stated.get("batches", 1)), stated.get("dry-time", 0.0)
    waits = _waits(operation)
    for _ in range(batches):
        yield operation.minutes / batches, (waits - dries) / batches
    yield 0.0, dries


def _waits(operation: Operation) -> float:
    """Hours; none for the printer's."""
    return 0.0 if operation.place == "printer" else operation.hours


def facts(
    stages: Iterable[Heading], operations: Sequence[Operation], rack: Iterable[JigEntry]
) -> tuple[Quantity, ...]:
    """The totals for the front page."""
    whole, dries = days(operations, {stage.id for stage in stages if stage.sort != "work"})
    prints = sum(entry.hours or 0.0 for entry in rack)
    return (
        Quantity("work", "Work, an estimate", sum(one.minutes for one in operations), "minutes"),
        *((Quantity("print", "Printer runs, about", prints, "hours"),) if prints else ()),
        Quantity("days", f"Days of {WORKDAY:g} h, at least", whole, "days"),
        Quantity("glue-days", "Days on which glue or finish dries", dries, "days"),
    )


def table(stages: Sequence[Heading], operations: Sequence[Operation], rack: Iterable[JigEntry]) -> Table:
    """By stage, and in all."""
    hours = {entry.name: entry.hours or 0.0 for entry in rack}
    staged = grouped(operations, lambda operation: operation.stage)
    rows = [(stage.title, *_sums(staged.get(stage.id, ()), hours)) for stage in stages]
    return Table("time", "Time, an estimate", COLUMNS, (*rows, ("In all", *_sums(operations, hours))))


def _sums(operations: Sequence[Operation], hours: Mapping[str, float]) -> tuple[float | None, ...]:
    """Steps, minutes, hours; nothing for none."""
    printed = [o for o in operations if o.place == "printer"]
    sums = (
        len(operations),
        sum(one.minutes for one in operations),
        sum(map(_waits, operations)),
        sum(hours[use.part] for one in printed for use in one.jigs),
    )
    return tuple(one or None for one in sums)
