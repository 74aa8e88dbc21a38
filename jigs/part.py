"""What a user holds in the hand. Jig families return parts; writers take them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from geometry.contour import Contour

Process = Literal["print", "cut", "turn", "paper"]
Point = tuple[float, float]


@dataclass(frozen=True)
class Extent:
    """Size of the outline's bounding box along one axis."""

    axis: Literal["x", "y"]


@dataclass(frozen=True)
class Thickness:
    """Thickness of the plate, without raised text."""


@dataclass(frozen=True)
class ArcRadius:
    """Radius of the working arc about `centre`, counter-clockwise from `start` to `end` (radians)."""

    centre: Point
    start: float
    end: float


@dataclass(frozen=True)
class EdgeAngle:
    """Angle at the crossing of two straight edges, seen towards a point on each."""

    first: Point
    second: Point


@dataclass(frozen=True)
class EdgeGap:
    """Distance square to the straight edge under `first`, from it to the middle of the edge under `second`."""

    first: Point
    second: Point


@dataclass(frozen=True)
class EdgeLength:
    """Length of the straight edge under `point`."""

    point: Point


@dataclass(frozen=True)
class HoleDiameter:
    """Diameter of the round hole about `centre`."""

    centre: Point


@dataclass(frozen=True)
class ProfileForm:
    """A whole working edge, open: `rows` of x, y and the bulge of the edge to the next row.

    Measured back is how far it is out, so the dimension's value is 0: the worst distance, both ways, square to
    the edge.
    """

    rows: tuple[tuple[float, float, float], ...]


Probe = Extent | Thickness | ArcRadius | EdgeAngle | EdgeGap | EdgeLength | HoleDiameter | ProfileForm


@dataclass(frozen=True)
class Dimension:
    """A nominal dimension and how to measure it back from a written file."""

    name: str
    value: float  # mm, or degrees for EdgeAngle
    probe: Probe

    @property
    def unit(self) -> Literal["mm", "deg"]:
        return "deg" if isinstance(self.probe, EdgeAngle) else "mm"


@dataclass(frozen=True)
class Lettering:
    """One line of stroke text; `origin` is the left end of its base line, `angle` in radians."""

    text: str
    origin: Point
    height: float
    angle: float = 0.0


@dataclass(frozen=True)
class Line:
    """A marked line through two or more points; `name` says what it marks. The work is set to a witness line."""

    points: tuple[Point, ...]
    name: str = ""
    witness: bool = False


Mark = Lettering | Line


@dataclass(frozen=True)
class Bevel:
    """A working edge thinned to `land`: the side slopes from the outline there to `top` at full thickness.

    `top` has the same edges as the part's outline, one for one.
    """

    land: float
    top: Contour


@dataclass(frozen=True)
class Part:
    """One jig: outline and holes in its own coordinates (mm), which are also those of its file."""

    name: str
    family: str
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
    notes: tuple[str, ...] = ()  # for the tables: how it is used, cautions
