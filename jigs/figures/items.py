"""What figures are made of: shapes, words, dimensions, in mm of the work, y up; and lines, areas and arcs of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from itertools import pairwise
from math import atan, atan2, ceil, cos, floor, hypot, pi, sin, tan
from typing import Literal, TypeAlias

from geometry.bodies.tube import Tube
from geometry.plane.contour import Contour
from geometry.records import Record, replace

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


class Shape(Record):
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


class Words(Record):
    """One line; `at` is on its base line."""

    text: str
    at: Point
    size: float = WORDS
    anchor: Anchor = "start"
    bold: bool = False
    angle: float = 0.0  # radians
    paint: Paint = "ink"


class Dimension(Record):
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


class Arrow(Record):
    """A way that something moves, its head at `b`; with words beside its middle, or over it where it is level."""

    a: Point
    b: Point
    text: str = ""
    side: Literal["left", "right"] = "left"
    paint: Paint = "ink"


class Callout(Record):
    """Words beside the drawing, with a line to what they name; on its nearer side where none is given."""

    text: str
    to: Point
    side: Literal["", "left", "right"] = ""


class Caption(Record):
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


OTHER_END: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}


def line(*points: Point, paint: Paint = "ink", width: float = THIN, dashes: tuple[float, ...] = ()) -> Shape:
    """Straight, through two or more places."""
    return Shape(tuple((x, y, 0.0) for x, y in points), stroke=paint, width=width, dashes=dashes)


def area(
    contour: Contour, fill: Paint | None = None, stroke: Paint | None = "ink", width: float = THIN
) -> Shape:
    """A contour, filled."""
    rows = tuple((x, y, bulge) for x, y, bulge in contour.vertices.tolist())
    return Shape(rows, closed=True, fill=fill, stroke=stroke, width=width)


def polygon(points: Sequence[Point], fill: Paint | None = None, stroke: Paint | None = "ink") -> Shape:
    """Straight edges, closed."""
    return Shape(tuple((x, y, 0.0) for x, y in points), closed=True, fill=fill, stroke=stroke)


def box(x0: float, y0: float, x1: float, y1: float, fill: Paint | None = None) -> Shape:
    """A rectangle from its lower left to its upper right corner."""
    return polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], fill)


def disc(centre: Point, radius: float, fill: Paint | None = None, stroke: Paint | None = "ink") -> Shape:
    """A whole circle."""
    x, y = centre
    return Shape(((x - radius, y, 1.0), (x + radius, y, 1.0)), closed=True, fill=fill, stroke=stroke)


def tube(curve: Tube, x: float = 0.0, fill: Paint | None = None, stroke: Paint | None = "ink") -> Shape:
    """A torus's tube cut through, its centre so far from the axis."""
    if curve.round:
        return disc((x, 0.0), curve.wide, fill, stroke)
    return Shape(tuple(curve.rows(x)), closed=True, fill=fill, stroke=stroke)


def arc(
    centre: Point, radius: float, start: float, end: float, paint: Paint = "ink", width: float = THIN
) -> Shape:
    """Counter-clockwise from one angle to another, in pieces of at most a third of a turn."""
    return Shape(arc_rows(centre, radius, start, end), stroke=paint, width=width)


def along(curve: Tube, x: float, start: float, end: float, width: float = THIN) -> Shape:
    """A torus's tube between two angles, counter-clockwise."""
    if curve.round:
        return arc((x, 0.0), curve.wide, start, end, width=width)
    last = curve.at(end)
    rows = [*curve.run(curve.at(start), last, ccw=True), (*last, 0.0)]
    return Shape(tuple((x + px, y, bulge) for px, y, bulge in rows), width=width)


def arc_rows(
    centre: Point, radius: float, start: float, end: float
) -> tuple[tuple[float, float, float], ...]:
    """The same as rows, the last without a bulge; clockwise where the end is less."""
    count = max(1, ceil(abs(end - start) / (2 * pi / 3) - 1e-9))
    step = (end - start) / count
    bulge = tan(step / 4)
    return tuple(
        (
            centre[0] + radius * cos(start + k * step),
            centre[1] + radius * sin(start + k * step),
            bulge if k < count else 0.0,
        )
        for k in range(count + 1)
    )


def upside_down(contour: Contour) -> Contour:
    """Mirrored in y = 0."""
    return contour.mirrored(direction=(1.0, 0.0))


def turned_over(contour: Contour, top: float) -> Contour:
    """What was upside down, its foot at a height."""
    rows = contour.vertices.copy()
    rows[:, 1] = top - rows[:, 1]
    rows[:, 2] *= -1
    return Contour(rows)


def moved(items: Iterable[Item], dx: float, dy: float, times: float = 1.0) -> tuple[Item, ...]:
    """The same elsewhere: first `times` as large, then moved."""
    return tuple(_put(item, lambda x, y: (times * x + dx, times * y + dy), times) for item in items)


def mirrored(items: Iterable[Item]) -> tuple[Item, ...]:
    """Left for right; words still read from the left."""
    return tuple(_mirrored(item) for item in items)


def _mirrored(item: Item) -> Item:
    put = _put(item, lambda x, y: (-x, y))
    if isinstance(put, Shape):
        return replace(put, rows=tuple((x, y, -bulge) for x, y, bulge in put.rows))
    if isinstance(put, Words):
        return replace(put, anchor=OTHER_END[put.anchor], angle=-put.angle)
    if isinstance(put, Dimension):
        return replace(put, off=-put.off, away=-put.away)
    if isinstance(put, Callout | Arrow) and put.side:
        return replace(put, side="left" if put.side == "right" else "right")
    return put


def _put(item: Item, to: Callable[[float, float], Point], times: float = 1.0) -> Item:
    if isinstance(item, Shape):
        return replace(item, rows=tuple((*to(x, y), bulge) for x, y, bulge in item.rows))
    if isinstance(item, Words):
        return replace(item, at=to(*item.at))
    if isinstance(item, Callout):
        return replace(item, to=to(*item.to))
    if isinstance(item, Caption):
        return item
    if isinstance(item, Arrow):
        return replace(item, a=to(*item.a), b=to(*item.b))
    return replace(item, a=to(*item.a), b=to(*item.b), times=item.times * times, away=item.away * times)
