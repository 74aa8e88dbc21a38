"""What the server tells the page at once, as records that become JSON field by field.

`contract_state` has what takes longer, and all of it together, `web/contract.js` the same as types.

Lengths are mm and angles radians whatever the job's unit; what is shown as text comes as text. Frames are those of
sections: x is the distance from the axis, y the height.
"""

from __future__ import annotations

import json
import sys
from dataclasses import field, fields, is_dataclass
from typing import Literal

from geometry.records import Record

Role = Literal["finished", "allowance", "blank", "core", "knob"]


class Said(Record):
    """A finding: what is wrong or worth knowing, and where it was asked for."""

    severity: str
    code: str
    text: str
    key: str = ""
    line: int = 0


class Loop(Record):
    """A closed line of the section, (x, y, bulge) a vertex; bulge as in DXF: tan(arc angle / 4)."""

    id: str
    role: Role
    points: list[list[float]]


class Bend(Record):
    """About how points go along, for each mm that is dragged, until the drawing comes: first grown, then moved.

    `out` and `up` are shares by height, in between in proportion, as far as the first and the last and beyond.
    """

    roles: list[Role]  # of the loops that do
    form: bool  # whether the finished form does
    centre: tuple[float, float] = (0.0, 0.0)
    grow: float = 0.0  # 1/mm, about the centre, outward
    rise: float = 0.0  # and upward
    out: list[tuple[float, float]] = field(default_factory=list)
    up: list[tuple[float, float]] = field(default_factory=list)
    shifts: list[tuple[int, float, float]] = field(
        default_factory=list
    )  # of corners of the finished loop, mm/mm


class Way(Record):
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


class Handle(Record):
    """A place of the section that can be dragged, each way for itself: they are square to each other."""

    id: str
    label: str
    x: float
    y: float
    ways: list[Way]


class SectionView(Record):
    loops: list[Loop]
    handles: list[Handle]
    without: list[str]  # what cannot be dragged, and why


class FormView(Record):
    """The half section that is turned about the axis, as points in order; v is the place in the pattern's height."""

    radius: list[float]
    height: list[float]
    out: list[float]  # of the normal
    up: list[float]
    v: list[float]
    over: bool  # a lid's: planned upside down, shown with its top up


class Stretch(Record):
    """A part of the pattern that is shown by itself, from v `top` down to v `foot`."""

    name: str
    top: float
    foot: float


class RingView(Record):
    """Segments of one ring, for finding what was clicked. `first` is the angle of the first one's middle.

    `low` and `high` are angles about the axis for a torus, heights for a vessel. `plug` is the radius of one in the
    middle, of the first segment's wood.
    """

    number: int
    low: float
    high: float
    segments: int
    first: float
    woods: list[str]
    paint: bool  # whether its woods can be changed piece by piece: not staves, nor what is cut from a layup
    plug: float = 0.0


class WoodView(Record):
    """A wood or a ply; `count` is how many pieces of it the rings have."""

    name: str
    colour: str  # "#rrggbb"
    count: int


class PatternView(Record):
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


class Wrong(Record):
    """The surface with mistakes put in, and what was put in, in words."""

    pattern: PatternView
    said: list[str]


class Drawing(Record):
    form: FormView
    section: SectionView
    pattern: PatternView


class Verdict(Record):
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


class Fast(Record):
    """What follows an edit at once. Without a drawing the job cannot be drawn, and `findings` say why.

    More may be wrong: whether pieces are held, the wood and the jigs are looked at in `Slow`.
    """

    drawing: Drawing | None
    verdicts: list[Verdict]
    findings: list[Said]


class Refusal(Record):
    """An answer that is not 200: nothing was changed."""

    error: str
    findings: list[Said]


def as_json(record: object) -> bytes:
    return json.dumps(record, default=_plain, ensure_ascii=False, separators=(",", ":")).encode()


def send(record: object) -> None:
    """A line of JSON, to the process that this one works for."""
    sys.stdout.buffer.write(as_json(record) + b"\n")
    sys.stdout.buffer.flush()


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: getattr(value, one.name) for one in fields(value)}
    raise TypeError(f"{type(value).__name__} is no part of the contract")
