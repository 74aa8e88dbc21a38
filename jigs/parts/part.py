"""What a user holds in the hand. Jig families return parts; writers take them."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from geometry.plane.contour import Contour
from geometry.readback.free_edge import FreeEdge
from geometry.records import Record, replace
from jigs.asked.job_shop import Process
from jigs.parts.codes import code_of
from jigs.parts.families import Jig, family_named, jig_of
from jigs.parts.probes import EdgeAngle, Probe

Point = tuple[float, float]


May = Literal["", "more", "differ"]


class Dimension(Record):
    """A nominal dimension and how to measure it back from a written file."""

    name: str
    value: float  # mm, or degrees for EdgeAngle
    probe: Probe
    may: May = ""  # how it may differ on an older jig that still serves

    @property
    def unit(self) -> Literal["mm", "deg"]:
        return "deg" if isinstance(self.probe, EdgeAngle) else "mm"


class Lettering(Record):
    """One line of stroke text; `origin` is the left end of its base line, `angle` in radians.

    On the plates of a stack, `of` is how many there are: the line of underscores in the text stands for the
    plate's own number, which the pen writes where all are cut from one drawing.
    """

    text: str
    origin: Point
    height: float
    angle: float = 0.0
    of: int = 1

    def on_plate(self, number: int) -> Lettering:
        """As it is lettered on the plate of this number, from 1."""
        blank = "_" * len(str(self.of))
        return replace(self, text=self.text.replace(blank, str(number), 1), of=1) if self.of > 1 else self


class Line(Record):
    """A marked line through two or more points; `name` says what it marks. The work is set to a witness line."""

    points: tuple[Point, ...]
    name: str = ""
    witness: bool = False


Mark = Lettering | Line


class Words(Record):
    """Lettering that has no place yet: the first of `choices` that has room goes as near `near` as it can.

    It keeps clear of `holes` and `lines`, and of all else that the part has when it is placed.
    """

    area: Contour
    holes: tuple[Contour, ...]
    lines: tuple[Line, ...]
    choices: tuple[tuple[str, ...], ...]
    near: Point | None
    height: float

    def headed(self, head: str) -> Words:
        """With another row above all others, alone if need be."""
        return replace(self, choices=tuple((head, *choice) for choice in self.choices)).alone(head)

    def alone(self, row: str) -> Words:
        """Rather than nothing at all, this row."""
        return replace(self, choices=(*self.choices, (row,)))

    def without(self, rows: Collection[str]) -> Words:
        """Rather than not at all, without these rows."""
        shorter = (tuple(row for row in choice if row not in rows) for choice in self.choices)
        more = (choice for choice in shorter if choice and choice not in self.choices)
        return replace(self, choices=(*self.choices, *dict.fromkeys(more)))


class Bevel(Record):
    """A working edge thinned to `land`: the side slopes from the outline there to `top` at full thickness.

    `top` has the same edges as the part's outline, one for one.
    """

    land: float
    top: Contour


class Bore(Record):
    """Bored by hand through a stack from edge to edge: its middle from the outline's left end, and from the base."""

    along: float
    up: float
    across: float
    play: float  # of what goes through it


class Part(Record):
    """One jig: outline and holes in its own coordinates (mm), which are also those of its file."""

    name: str
    purpose: str
    process: Process
    material: str
    outline: Contour  # counter-clockwise
    thickness: float  # mm; for a turned part the section is drawn and this is 0
    holes: tuple[Contour, ...] = ()  # clockwise
    marks: tuple[Mark, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    quantity: int = 1
    bevel: Bevel | None = None
    mark_width: float = 0.8  # stroke width of raised marks, mm
    mark_height: float = 0.6  # how far raised marks stand up, mm
    making: tuple[str, ...] = ()  # how it is made, fitted and glued, for the operation that builds it
    notes: tuple[str, ...] = ()  # how it is used, for the operation that uses it; what can hurt has ids
    piece_of: str = ""  # name of the part that it is glued into, where that is longer than its bed
    stack: int = 1  # so many of its plates are glued into one piece
    words: tuple[Words, ...] = ()  # none once they have their places (jigs.parts.coding)
    beside: tuple[str, ...] = ()  # what it has no room for: lettered beside its drawing
    free: tuple[FreeEdge, ...] = ()  # edges on which nothing depends
    loose: tuple[Point, ...] = ()  # the middles of holes on which nothing depends
    works_to: float = 0.02  # mm that edges and holes of an older one may be out
    bore: Bore | None = None
    facts: tuple[tuple[str, str], ...] = ()  # name and value, for whoever finds its file alone
    # Of wood of the work: radians between its faces, which meet in its y axis; 0: parallel.
    wedge: float = 0.0
    # Section about its y axis within which such a wedge is turned already; None: flat all over.
    turned: Contour | None = None
    bearing: tuple[Point, ...] = ()  # on edges of a printed plate that work and that no dimension measures

    @property
    def jig(self) -> Jig:
        """What is known of it whatever the job; of wood of the work nothing."""
        return jig_of(self.name)

    @property
    def family(self) -> str:
        """Its family's id. Raises KeyError for what is no jig: wood of the work beside its jigs."""
        return family_named(self.jig.name)

    @property
    def code(self) -> str:
        """What it is told by where there is room for little: on the plate, in the listing, on the sheets."""
        return code_of(self.name)
