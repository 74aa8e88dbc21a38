"""What the server tells the page, as records that become JSON field by field; `web/contract.js` has the same as types.

Lengths are mm and angles radians whatever the job's unit; what is shown as text comes as text. Frames are those of
sections: x is the distance from the axis, y the height.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field, fields, is_dataclass
from typing import Any, Literal

from jigs.render.book.content import Chapter

Role = Literal["finished", "allowance", "blank", "core"]
Disk = Literal["same", "gone"]
PieceName = Literal["pictures", "work"]
Group = Literal["shape", "wood", "shop", "jigs"]


@dataclass(frozen=True)
class Said:
    """A finding: what is wrong or worth knowing, and where it was asked for."""

    severity: str
    code: str
    text: str
    key: str = ""
    line: int = 0


@dataclass(frozen=True)
class Loop:
    """A closed line of the section, (x, y, bulge) a vertex; bulge as in DXF: tan(arc angle / 4)."""

    id: str
    role: Role
    points: list[list[float]]


@dataclass(frozen=True)
class Bend:
    """About how points go along, for each mm that is dragged, until the drawing comes: first grown, then moved.

    `out` and `up` are shares by height, in between in proportion, as far as the first and the last and beyond.
    """

    roles: list[Role]  # of the loops that do
    form: bool  # whether the finished form does
    centre: tuple[float, float] = (0.0, 0.0)
    grow: float = 0.0  # 1/mm, about the centre
    out: list[tuple[float, float]] = field(default_factory=list)
    up: list[tuple[float, float]] = field(default_factory=list)


@dataclass(frozen=True)
class Way:
    """One number that a handle changes: a way of 1 mm along `along` changes it by `rate` mm.

    `place` is where in a list it stands: [5, 1] is the second of the sixth entry; empty for a single value.
    With `listed`, all numbers of a list, what the one at `place` gains is taken off the next.
    """

    key: str
    place: list[int]
    label: str
    along: tuple[float, float]
    rate: float
    value: float
    listed: list[float]
    bend: Bend | None


@dataclass(frozen=True)
class Handle:
    """A place of the section that can be dragged, each way for itself: they are square to each other."""

    id: str
    label: str
    x: float
    y: float
    ways: list[Way]


@dataclass(frozen=True)
class SectionView:
    loops: list[Loop]
    handles: list[Handle]


@dataclass(frozen=True)
class FormView:
    """The half section that is turned about the axis, as points in order; v is the place in the pattern's height."""

    radius: list[float]
    height: list[float]
    out: list[float]  # of the normal
    up: list[float]
    v: list[float]


@dataclass(frozen=True)
class Stretch:
    """A part of the pattern that is shown by itself, from v `top` down to v `foot`."""

    name: str
    top: float
    foot: float


@dataclass(frozen=True)
class RingView:
    """Segments of one ring, for finding what was clicked. `first` is the angle of the first one's middle.

    `low` and `high` are angles about the axis for a torus, heights for a vessel.
    """

    number: int
    low: float
    high: float
    segments: int
    first: float
    woods: list[str]
    paint: bool  # whether its woods can be changed piece by piece: not staves, nor what is cut from a layup


@dataclass(frozen=True)
class WoodView:
    """A wood or a ply; `count` is how many pieces of it the rings have."""

    name: str
    colour: str  # "#rrggbb"
    count: int


@dataclass(frozen=True)
class PatternView:
    """The finished surface laid flat as a PNG in base64: columns are angles from -π to π, rows go by v."""

    png: str
    width: int
    height: int
    around: float  # mm, of the whole width
    along: float  # mm, of the whole height
    centre: float  # of a torus's rings, from the axis; 0 for a vessel, whose segments stand round the axis
    stretches: list[Stretch]
    rings: list[RingView]
    woods: list[WoodView]


@dataclass(frozen=True)
class Wrong:
    """The surface with mistakes put in, and what they come to."""

    pattern: PatternView
    said: list[str]


@dataclass(frozen=True)
class Drawing:
    form: FormView
    section: SectionView
    pattern: PatternView


@dataclass(frozen=True)
class Verdict:
    """A size with the limit that it keeps or not; `at` is where it is on the section.

    Where it does not `stop` the job, the job can be made all the same, with what is bought.
    """

    id: str
    label: str
    value: float
    limit: float
    sense: Literal["at least", "at most"]
    ok: bool
    value_text: str
    limit_text: str
    key: str = ""
    at: tuple[float, float] | None = None
    stops: bool = True


@dataclass(frozen=True)
class Fast:
    """What follows an edit at once. Without a drawing the job cannot be drawn, and `findings` say why.

    More may be wrong: whether pieces are held, the wood and the jigs are looked at in `Slow`.
    """

    drawing: Drawing | None
    verdicts: list[Verdict]
    findings: list[Said]
    spent_ms: float  # of the processor


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
class RemedyLine:
    """One change, with the line of the file that makes it; `value` as TOML reads it, None leaves the key out."""

    key: str
    value: Any
    line: str


@dataclass(frozen=True)
class Remedy:
    changes: list[RemedyLine]
    measured: bool  # only if the turner's machine measures so much


@dataclass(frozen=True)
class Sheet:
    """A table of the work: every cell as text."""

    id: str
    title: str
    columns: list[str]
    rows: list[list[str]]


@dataclass(frozen=True)
class Jig:
    code: str
    name: str
    quantity: int
    process: str
    material: str
    purpose: str
    hours: float | None  # of all of them, where they are printed


@dataclass(frozen=True)
class Advice:
    """What readings come to in one topic: what to do, or that nothing is."""

    id: str
    head: str
    says: list[str]


@dataclass(frozen=True)
class Measured:
    """What the readings file comes to; `wrong` are jigs of the last make that are wrong by it, each with why."""

    advice: list[Advice]
    wrong: list[str]


@dataclass(frozen=True)
class Steps:
    """The work in the order in which it is done, in the words of the shop book."""

    job: str  # its file's name, under which a browser keeps what is done
    cautions: list[str]  # that hold throughout
    chapters: tuple[Chapter, ...]
    blank: str  # a readings file without a reading


@dataclass(frozen=True)
class Slow:
    """What takes longer: every jig drawn, the wood, the work. `state` is "working" while it is not all there."""

    state: Literal["working", "done", "refused", "failed"]
    findings: list[Said]
    jigs: list[Jig]
    tables: list[Sheet]
    remedies: list[Remedy] | None  # None where none were looked for, or not yet
    spent_ms: float
    measured: Measured | None = None  # None where the job cannot be made


@dataclass(frozen=True)
class Listed:
    """A heading and the lines under it."""

    head: str
    lines: list[str]


@dataclass(frozen=True)
class Make:
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


@dataclass(frozen=True)
class Named:
    id: str
    label: str


@dataclass(frozen=True)
class Choice:
    """One way to build the work: its figures as text, in the order of their labels, and the lines that make it."""

    cells: list[str]
    changes: list[RemedyLine]


@dataclass(frozen=True)
class Choices:
    """Other ways to build the work, side by side; `own` are the figures of the job as it is, if it can be made."""

    state: Literal["none", "working", "done", "refused", "stopped", "failed"] = "none"
    labels: list[str] = field(default_factory=list)
    own: list[str] | None = None
    best: list[Choice] = field(default_factory=list)
    tried: str = ""
    findings: list[Said] = field(default_factory=list)


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
    pieces: dict[PieceName, int]  # what else there is to ask for, with a number that grows when it is anew
    slow: Slow | dict[str, Any]  # a Slow, or one that has come as JSON from the second process
    fields: list[Field]
    choices: Choices | dict[str, Any]
    ways: list[Named]  # by which choices may be compared
    palette: list[WoodView]  # woods whose colours are known
    readings: dict[str, list[str]]  # what the readings file has, by "stage.operation.reading"


@dataclass(frozen=True)
class Refusal:
    """An answer that is not 200: nothing was changed."""

    error: str
    findings: list[Said]


def as_json(record: object) -> bytes:
    return json.dumps(record, default=_plain, ensure_ascii=False, separators=(",", ":")).encode()


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: getattr(value, one.name) for one in fields(value)}
    raise TypeError(f"{type(value).__name__} is no part of the contract")
