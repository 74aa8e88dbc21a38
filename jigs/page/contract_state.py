"""All that the page shows, in one record."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from geometry.records import dataclass
from jigs.page.contract import Fast, WoodView
from jigs.page.contract_work import Choices, Make, Named, PieceName, Slow

Disk = Literal["same", "gone"]
Group = Literal["shape", "wood", "shop", "jigs"]


@dataclass(frozen=True)
class Field:
    """A key that may be stated. `text` is what the file states, "" where it states nothing."""

    key: str
    label: str
    kind: str
    help: str
    group: Group
    text: str
    without: str  # what holds where the file states nothing
    least: float
    most: float
    even: bool
    choices: list[str]
    line: int


@dataclass(frozen=True)
class State:
    """Everything the page shows. `tick` grows with every change of it, `revision` with every change of the text."""

    tick: int
    revision: int
    file: str
    unit: str
    title: str
    kind: str  # torus, vessel, or "" where the text tells neither
    text: str
    disk: Disk
    can_undo: bool
    can_redo: bool
    news: str  # what happened that the turner did not do: "The file was changed on disk. Read anew."
    fast: Fast
    make: Make
    lean: bool  # jigs, work and a make leave out what a turner who owns sleds can do without
    solids: bool  # whether STEP files can be made here
    pieces: dict[PieceName, int]  # what else there is to ask for, with a number that grows when it is anew
    slow: Slow | Mapping[str, Any]  # a Slow, or one that has come as JSON from the second process
    fields: list[Field]
    choices: Choices | dict[str, Any]
    ways: list[Named]  # by which choices may be compared
    layups: list[str]  # how a layup may be mirrored; none without one
    boards: str  # thicknesses in stock, which choices are made of where none are named
    palette: list[WoodView]  # woods whose colours are known
    readings: dict[str, list[str]]  # what the readings file has, by "stage.operation.reading"
