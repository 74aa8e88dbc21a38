"""What the server tells the page later, and all that the page shows, in one record.

Later: jigs, boards, work and remedies, the set being made, other choices.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any, Literal

from geometry.records import Record
from jigs.page.contract import Fast, Said, WoodView
from jigs.render.book.content import Chapter

PieceName = Literal["pictures", "work"]


class RemedyLine(Record):
    """One change, with the line of the file that makes it; `value` as TOML reads it, None leaves the key out."""

    key: str
    value: Any
    line: str


class Remedy(Record):
    changes: list[RemedyLine]
    measured: bool  # only if the turner's machine measures so much


class Sheet(Record):
    """A table of the work: every cell as text."""

    id: str
    title: str
    columns: list[str]
    rows: list[list[str]]


class Jig(Record):
    code: str
    name: str
    quantity: int
    process: str
    material: str
    purpose: str
    hours: float | None  # of all of them, where they are printed


class Advice(Record):
    """What readings come to in one topic: what to do, or that nothing is."""

    id: str
    head: str
    says: list[str]


class Measured(Record):
    """What the readings file comes to; `wrong` are jigs of the last make that are wrong by it, each with why."""

    advice: list[Advice]
    wrong: list[str]


class Steps(Record):
    """The work in the order in which it is done, in the words of the shop book."""

    job: str  # its file's name, under which a browser keeps what is done
    cautions: list[str]  # that hold throughout
    chapters: tuple[Chapter, ...]
    blank: str  # a readings file without a reading


class Slow(Record):
    """What takes longer: every jig drawn, the wood, the work. `state` is "working" while it is not all there."""

    state: Literal["working", "done", "refused", "failed"]
    findings: list[Said]
    jigs: list[Jig]
    tables: list[Sheet]
    remedies: list[Remedy] | None  # None where none were looked for, or not yet
    measured: Measured | None = None  # None where the job cannot be made


class Listed(Record):
    """A heading and the lines under it."""

    head: str
    lines: list[str]


class Make(Record):
    """The set of files in the job's folder: being made, or what became of the last make from the page."""

    state: Literal["none", "working", "made", "refused", "stopped", "failed"] = "none"
    folder: str = ""  # as the turner has it on this machine
    done: int = 0
    of: int = 0
    what: str = ""  # being made
    files: int = 0
    first: str = ""  # the file to open first, and what to print
    lists: list[Listed] = field(
        default_factory=list
    )  # what the make changed, and which old jigs are wrong now
    findings: list[Said] = field(default_factory=list)
    stale: bool = False  # the job file has changed since


class Named(Record):
    id: str
    label: str


class Choice(Record):
    """One way to build the work: its figures as text, in the order of their labels, and the lines that make it."""

    cells: list[str]
    changes: list[RemedyLine]


class Choices(Record):
    """Other ways to build the work, side by side; `own` are the figures of the job as it is, if it can be made."""

    state: Literal["none", "working", "done", "refused", "stopped", "failed"] = "none"
    labels: list[str] = field(default_factory=list)
    own: list[str] | None = None
    best: list[Choice] = field(default_factory=list)
    tried: str = ""
    findings: list[Said] = field(default_factory=list)


Disk = Literal["same", "gone"]
Group = Literal["shape", "wood", "shop", "jigs"]


class Field(Record):
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


class State(Record):
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
