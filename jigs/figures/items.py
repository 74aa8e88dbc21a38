"""What figures are made of: shapes, words, dimensions, in mm of the work, y up.

Words, line widths and arrows are in mm of the paper, so that they read alike whatever the scale. Paints are names:
what each looks like, in colour and without, is the back end's.
"""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise
from math import atan, atan2, ceil, cos, floor, hypot, pi, sin
from typing import Literal, TypeAlias

from geometry.records import dataclass

Paint = Literal[
    "ink",
    "grey",
    "pale",
    "paper",
    "wood",
    "other wood",
    "waste",
    "finished",
    "turned",
    "jig",
    "metal",
    "blade",
]
Point: TypeAlias = tuple[float, float]
Rows: TypeAlias = tuple[tuple[float, float, float], ...]
Box: TypeAlias = tuple[float, float, float, float]
Anchor = Literal["start", "middle", "end"]
THIN, THICK = 0.18, 0.5  # mm of line
WORDS = 3.4  # mm, of the size of words


@dataclass(frozen=True)
class Shape:
    """A chain of straight and circular edges, as rows of x, y and bulge; filled, stroked, or both.

    `colour` is that of a fill which is no paint: a wood's own, as "#dfc79b".
    """

    rows: Rows
    closed: bool = False
    fill: Paint | None = None
    stroke: Paint | None = "ink"
    width: float = THIN
    dashes: tuple[float, ...] = ()  # mm of paper
    holes: tuple[Rows, ...] = ()
    colour: str = ""
    opacity: float = 1.0  # of the fill
    name: str = ""  # shown where a pointer rests on it

    @cached_property
    def box(self) -> Box:
        """Round it, arcs too."""
        return _chain_box(self.rows, self.closed)


@dataclass(frozen=True)
class Words:
    """One line; `at` is on its base line."""

    text: str
    at: Point
    size: float = WORDS
    anchor: Anchor = "start"
    bold: bool = False
    angle: float = 0.0  # radians
    paint: Paint = "ink"


@dataclass(frozen=True)
class Dimension:
    """A length between two places, its line to the left of the way from one to the other: `off` mm of paper and
    `away` mm of the work, to the right where they are negative.

    `times`: how much larger than the rest of the figure it is drawn.
    """

    a: Point
    b: Point
    text: str
    off: float = 8.0
    away: float = 0.0
    times: float = 1.0


@dataclass(frozen=True)
class Arrow:
    """A way that something moves, its head at `b`; with words beside its middle, or over it where it is level."""

    a: Point
    b: Point
    text: str = ""
    side: Literal["left", "right"] = "left"
    paint: Paint = "ink"


@dataclass(frozen=True)
class Callout:
    """Words beside the drawing, with a line to what they name; on its nearer side where none is given."""

    text: str
    to: Point
    side: Literal["", "left", "right"] = ""


@dataclass(frozen=True)
class Caption:
    """Lines above all else, the first one bold."""

    lines: tuple[str, ...]


Item: TypeAlias = Shape | Words | Dimension | Arrow | Callout | Caption


def _chain_box(rows: Rows, closed: bool) -> Box:
    xs, ys = [row[0] for row in rows], [row[1] for row in rows]
    if not any(row[2] for row in rows):
        return min(xs), min(ys), max(xs), max(ys)
    for a, b in pairwise((*rows, rows[0]) if closed else rows):
        if a[2]:
            for x, y in _outermost(a, b):
                xs.append(x)
                ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def _outermost(a: tuple[float, float, float], b: tuple[float, float, float]) -> list[Point]:
    """Where an arc lies farthest out along either axis."""
    bulge = a[2]
    centre, radius = arc_of(a, b)
    start, turn = atan2(a[1] - centre[1], a[0] - centre[0]), 4 * atan(bulge)
    low, high = min(start, start + turn), max(start, start + turn)
    quarters = range(ceil(low * 2 / pi), floor(high * 2 / pi) + 1)
    return [(centre[0] + radius * cos(k * pi / 2), centre[1] + radius * sin(k * pi / 2)) for k in quarters]


def arc_of(a: tuple[float, float, float], b: tuple[float, float, float]) -> tuple[Point, float]:
    """Centre and radius of the arc from one row to the next."""
    bulge = a[2]
    up = (1 - bulge * bulge) / (4 * bulge)
    centre = ((a[0] + b[0]) / 2 - (b[1] - a[1]) * up, (a[1] + b[1]) / 2 + (b[0] - a[0]) * up)
    return centre, hypot(a[0] - centre[0], a[1] - centre[1])
