"""What a key of a job or workshop file is, and a value that does not do, before it is known where it stands."""

from __future__ import annotations

from dataclasses import field
from functools import partial
from typing import Any, Final, Literal

from geometry.records import Record, cached_property, fields
from jigs.words.trade import Per

Kind = Literal[
    "length",
    "number",
    "count",
    "flag",
    "text",
    "name",
    "choice",
    "colour",
    "bed",
    "stages",
    "points",
    "heights",
    "counts",
    "numbers",
    "names",
    "boards",
    "plies",
    "price",
    "prices",
]
Form = Literal["torus", "vessel"]
Value = float | int | str | tuple[object, ...]
FileKind = Literal["job", "workshop"]

_KEY = "key"  # under which a field's metadata hold its key
FINISHED = "finished"
FEWEST: Final = "fewest rings"
LEAST_WOOD: Final = "least wood"


class Key(Record):
    """One key. Lengths are in mm here, whatever the unit of the file."""

    path: str  # dotted: table and name
    kind: Kind
    help: str
    default: Value | None = None
    inch_default: Value | None = None  # in jobs in inches, where it is another
    unset: str = ""  # what happens without it, where `default` is not one value
    # Shown where there is no default; else what is usual, where that is another size.
    example: Value | None = None
    inch_example: Value | None = None  # in jobs in inches, where it is another
    least: float = 0.0
    most: float = 5000.0
    even: bool = False
    required: bool = False
    choices: tuple[str, ...] = ()
    sizes: tuple[int, ...] = (2,)  # how many numbers each entry of "points" may have
    per: Per = "piece"  # of a price, or of a rate, which is by square metre here

    @cached_property
    def table(self) -> str:
        return self.path.rpartition(".")[0]

    @property
    def name(self) -> str:
        return self.path.rpartition(".")[2]

    def example_in(self, unit: str) -> Value | None:
        """What is shown in a job in this unit."""
        return self.inch_example if unit == "in" and self.inch_example is not None else self.example

    def default_in(self, unit: str) -> Value | None:
        """What holds in a job in this unit."""
        return self.inch_default if unit == "in" and self.inch_default is not None else self.default


class Table(Record):
    """A table of the file; `shared` ones may also stand in a workshop file, others belong to one form or both.

    `record` is what its keys are fields of, where it is read into one.
    """

    help: str
    keys: tuple[Key, ...]
    shared: bool = False
    form: Form | None = None
    record: type | None = None


def key(kind: Kind, help: str, default: Value | None = None, **more: Any) -> Any:
    """A field of a record that is a key of the file; `more` is what else `Key` takes."""
    return field(metadata={_KEY: partial(Key, kind=kind, help=help, default=default, **more)})


def keys_in(table: str, record: type) -> tuple[Key, ...]:
    """The keys of a table, which are fields of this record."""
    return tuple(one.metadata[_KEY](f"{table}.{one.name}") for one in fields(record) if _KEY in one.metadata)


RANGE = "out-of-range"


class Wrong(ValueError):
    """A value that its key does not take."""

    def __init__(self, code: str, message: str, remedy: str) -> None:
        self.code, self.message, self.remedy = code, message, remedy
        super().__init__(f"{message}. {remedy}")
