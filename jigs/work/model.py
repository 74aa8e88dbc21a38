"""What the work is made of. Frozen; numbers are numbers, words are short phrases, and what is compared is an id.

Every id stays what it is when words change. That of an operation is "stage.operation", with "-2", "-3" behind it
where a job does the same more than once; what is set or read in it has an id of its own within the operation.

`Rack` is what operations ask for parts; `Stage` the record of a stage.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import field
from functools import partial
from typing import TYPE_CHECKING, Generic, Literal, TypeVar

from geometry.grouping import grouped
from geometry.records import Record, cached_property, replace
from jigs.asked.readings.readings import Instrument, Least
from jigs.parts.part import Part
from jigs.words.quantity import Kind, Quantity

if TYPE_CHECKING:
    from jigs.words.findings import Finding
    from jigs.words.lengths import Unit

Place = Literal["shop", "printer", "cutter", "bench", "planer", "table saw", "bandsaw", "lathe"]
# "making" parts on machines: these stages see only what is made; "building": sleds and boards put together from it.
Sort = Literal["work", "making", "building"]


class Caution(Record):
    """What can hurt. A standing one is told once, at the front; the others where the step is met."""

    id: str
    text: str
    standing: bool = False


class JigUse(Record):
    """A part of the rack in one operation."""

    part: str  # its name, by which the rack knows it
    quantity: int
    for_what: str  # "sets the blade's tilt"
    notes: tuple[str, ...] = ()  # of the part, told in the operation that they are about; each in one only


class Check(Record):
    """How to know that an operation is right, and what to do if it is not."""

    id: str
    how: str  # "Calliper along the strip"
    sizes: tuple[Quantity, ...] = ()
    if_not: str = ""


def right_if(id: str, how: str, sizes: tuple[Quantity, ...] = (), if_not: str = "") -> tuple[Check]:
    """The one check of what has no other."""
    return (Check(id, how, sizes, if_not),)


class Reading(Record):
    """A box for a measured value, beside the planned one; in the readings file its key under the operation's id."""

    id: str
    label: str
    planned: Quantity | None = None
    count: int = 1  # boxes
    by: Instrument = "calliper"

    @property
    def least(self) -> Least:
        """A size of something is more than nothing; of the others a dial alone reads below nothing."""
        planned = (
            self.planned.value if self.planned and self.planned.kind in ("calliper", "rule", "length") else 0
        )
        if not isinstance(planned, str) and planned > 0:
            return "more than nothing"
        return "any" if self.by == "dial" else "nothing"


class Goods(Record):
    """A line of the shopping list. Amounts that sizes are no part of add up: counts, areas, volumes, weights."""

    id: str
    group: str  # "boards", "sheets", "hardware", "glue and finish", "abrasives", "filament"
    what: str
    amount: tuple[Quantity, ...]  # how many, how much, of what size
    cost: float | None = None  # where the workshop file has a price
    again: bool = False  # comes free: another operation uses the same one again


class Operation(Record):
    """One thing to do, at one place. Minutes are hands on, hours are what waits: glue, cure."""

    id: str  # that of its stage, a dot, its own
    does: str  # one sentence, imperative
    place: Place
    how: tuple[str, ...] = ()  # what comes after one another in it, one sentence each, in order
    makes: tuple[int, str] = (
        0,
        "",
    )  # how many pieces come of it, spares among them, and one of them: "strip"
    rings: tuple[int, ...] = ()
    settings: tuple[Quantity, ...] = ()
    known: tuple[Quantity, ...] = ()  # to judge by: nothing is set to it
    jigs: tuple[JigUse, ...] = ()
    trial: str = ""  # what is tried in scrap first
    checks: tuple[Check, ...] = ()
    cautions: tuple[str, ...] = ()  # ids, the worst first; three at most
    readings: tuple[Reading, ...] = ()
    minutes: float = 0.0
    hours: float = 0.0
    figure: str | None = None  # id of a picture; "" for none, and None for that of its id
    uses_up: tuple[Goods, ...] = ()

    @property
    def stage(self) -> str:
        """The id of its stage."""
        return self.id.partition(".")[0]

    @property
    def pieces(self) -> int:
        return self.makes[0]

    def setting(self, id: str) -> Quantity:
        """Or what is known. Raises StopIteration for an id that is neither's."""
        return next(one for one in (*self.settings, *self.known) if one.id == id)


at_bench = partial(Operation, place="bench")
at_lathe = partial(Operation, place="lathe")
at_table_saw = partial(Operation, place="table saw")


class Heading(Record):
    """A stage as the tellings head it."""

    id: str
    title: str
    sort: Sort = "work"
    in_a_run: bool = False


# Several numbers are all of them (lengths that a board is crosscut to), or which rings.
Cell = float | int | str | Quantity | tuple[float, ...] | None


class Column(Record):
    """Of a table; its numbers are all of one kind."""

    id: str
    label: str
    kind: Kind = "text"


class Table(Record):
    """A table of reference: what is known of the job beside its steps."""

    id: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


# The cells of a row, each with its column.
Row = tuple[tuple[Column, Cell], ...]


def tabled(id: str, title: str, rows: Iterable[Row]) -> tuple[Table, ...]:
    """The table of rows that name the column of each cell, the same in each; none without rows."""
    told = tuple(rows)
    cells = tuple(tuple(cell for _, cell in row) for row in told)
    return tuple(Table(id, title, tuple(column for column, _ in row), cells) for row in told[:1])


def listed(id: str, title: str, quantities: Sequence[Quantity]) -> Table:
    """A table of names and values."""
    columns = (Column("what", ""), Column("value", ""))
    return Table(id, title, columns, tuple((one.label, one) for one in quantities))


class JigEntry(Record):
    """A part as the rack lists it; hours and grams of a printed one by rule."""

    code: str
    name: str
    quantity: int
    process: str
    material: str
    size: tuple[float, float]
    purpose: str
    hours: float | None = None
    grams: float | None = None


class Work(Record):
    """Everything that people are told of a job."""

    job: str  # its file's name
    title: str
    unit: Unit
    form: Literal["torus", "vessel"]
    facts: tuple[Quantity, ...]  # the job in ten lines
    notes: tuple[Finding, ...]
    assumed: tuple[Finding, ...]  # shop values that no file states
    stages: tuple[Heading, ...]
    operations: tuple[Operation, ...]
    cautions: tuple[Caution, ...]  # that these name, and the standing ones
    tables: tuple[Table, ...]
    rack: tuple[JigEntry, ...]
    goods: tuple[Goods, ...] = field(default=())
    currency: str = ""  # of their costs
    verdict: str = "can be made"

    @cached_property
    def _staged(self) -> dict[str, list[Operation]]:
        return grouped(self.operations, lambda operation: operation.stage)

    def of_stage(self, stage: str) -> Sequence[Operation]:
        return self._staged.get(stage, ())

    def caution(self, id: str) -> Caution:
        """Raises StopIteration for an id that is none."""
        return next(caution for caution in self.cautions if caution.id == id)

    def number(self, id: str) -> int:
        """Of an operation, from 1, as the tellings count. Raises StopIteration for an id that is none."""
        return next(k for k, operation in enumerate(self.operations, 1) if operation.id == id)


class Rack:
    """Parts by name and by family."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self.parts = tuple(parts)
        self._by_name = {part.name: part for part in parts}

    def part(self, name: str) -> Part:
        """Raises KeyError for a name that is none."""
        return self._by_name[name]

    def has(self, name: str) -> bool:
        return name in self._by_name

    def named(self, *heads: str) -> list[Part]:
        """Those of these names, and those whose name goes on behind one of them with a hyphen."""
        longer = tuple(f"{head}-" for head in heads)
        return [p for p in self.parts if p.name in heads or p.name.startswith(longer)]

    def of(self, *families: str) -> list[Part]:
        """All of some families."""
        return [part for part in self.parts if part.family in families]


def builds(parts: Iterable[Part], for_what: str = "") -> tuple[JigUse, ...]:
    """Each as the operation that builds it tells it: with how it is made, fitted and glued."""
    return tuple(JigUse(part.name, part.quantity, for_what or part.purpose, part.making) for part in parts)


def made(parts: Iterable[Part], later: Collection[str]) -> tuple[JigUse, ...]:
    """Each as it comes off its machine: with how it is made, unless it is of those that are put together `later`."""
    return tuple(
        use
        for part in parts
        for use in (uses([part]) if part.name in later or part.piece_of else builds([part]))
    )


def uses(parts: Iterable[Part], for_what: str = "", notes: bool = False) -> tuple[JigUse, ...]:
    """Each in its whole quantity; what a part is for is its purpose unless the operation gives another.

    `notes`: whether this is the operation that says how it is used; what several parts have in common stands once.
    """
    told: set[str] = set()
    found = []
    for part in parts:
        own = tuple(note for note in part.notes if note not in told) if notes else ()
        told.update(own)
        found.append(JigUse(part.name, part.quantity, for_what or part.purpose, own))
    return tuple(found)


class Once:
    """Tells each note where a part that has it is first used, then no more."""

    def __init__(self) -> None:
        self._told: set[str] = set()

    def uses(self, parts: Iterable[Part], for_what: str = "") -> tuple[JigUse, ...]:
        """Each in its whole quantity, in their order."""
        found = tuple(
            replace(use, notes=tuple(note for note in use.notes if note not in self._told))
            for use in uses(parts, for_what, notes=True)
        )
        self._told.update(note for use in found for note in use.notes)
        return found


P = TypeVar("P", contravariant=True)


class Stage(Record, Generic[P]):
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
