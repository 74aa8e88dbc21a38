"""A figure: what is drawn, in mm of the work, y up; and how large it is on paper.

Words, line widths and arrows are in mm of the paper, so that they read alike whatever the scale. Paints are names:
what each looks like, in colour and without, is the back end's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, hypot, pi, sin
from typing import Literal, TypeAlias

import numpy as np

from geometry.contour import Contour

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
Anchor = Literal["start", "middle", "end"]
LETTER = 0.56  # width of a letter, of its size, and seldom more
THIN, THICK = 0.18, 0.5  # mm of line
WORDS = 3.0  # mm, of the size of words
ARROW = 2.2  # mm long


@dataclass(frozen=True)
class Shape:
    """A chain of straight and circular edges, as rows of x, y and bulge; filled, stroked, or both."""

    rows: tuple[tuple[float, float, float], ...]
    closed: bool = False
    fill: Paint | None = None
    stroke: Paint | None = "ink"
    width: float = THIN
    dashes: tuple[float, ...] = ()  # mm of paper


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
    """A length between two places, its line `off` mm of paper to the left of the way from one to the other."""

    a: Point
    b: Point
    text: str
    off: float = 8.0


Item: TypeAlias = Shape | Words | Dimension


@dataclass(frozen=True)
class Figure:
    """`alt` says in words what it shows, for those who cannot see it."""

    id: str
    title: str
    alt: str
    items: tuple[Item, ...]
    width: float = 160.0  # mm of paper at most
    height: float = 110.0

    @property
    def scale(self) -> float:
        """mm of paper for each mm of the work: as large as it fits, words and all, never larger than life twice."""
        scale = 2.0
        for _ in range(4):  # words take room that depends on the scale
            x0, y0, x1, y1 = self.bounds(scale)
            scale = min(2.0, self.width / (x1 - x0), self.height / (y1 - y0))
        return scale

    def bounds(self, scale: float) -> tuple[float, float, float, float]:
        """Of all that is drawn, in mm of the work, at this scale."""
        boxes = [_box(item, scale) for item in self.items]
        low, high = np.min(boxes, axis=0)[:2], np.max(boxes, axis=0)[2:]
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def line(*points: Point, paint: Paint = "ink", width: float = THIN, dashes: tuple[float, ...] = ()) -> Shape:
    """Straight, through two or more places."""
    return Shape(tuple((x, y, 0.0) for x, y in points), stroke=paint, width=width, dashes=dashes)


def area(
    contour: Contour, fill: Paint | None = None, stroke: Paint | None = "ink", width: float = THIN
) -> Shape:
    """A contour, filled."""
    rows = tuple((float(x), float(y), float(bulge)) for x, y, bulge in contour.vertices)
    return Shape(rows, closed=True, fill=fill, stroke=stroke, width=width)


def polygon(points: Sequence[Point], fill: Paint | None = None, stroke: Paint | None = "ink") -> Shape:
    """Straight edges, closed."""
    return Shape(tuple((x, y, 0.0) for x, y in points), closed=True, fill=fill, stroke=stroke)


def arc(
    centre: Point, radius: float, start: float, end: float, paint: Paint = "ink", width: float = THIN
) -> Shape:
    """Counter-clockwise from one angle to another, in pieces of at most a third of a turn."""
    count = max(1, int(np.ceil((end - start) / (2 * pi / 3) - 1e-9)))
    step = (end - start) / count
    bulge = float(np.tan(step / 4))
    rows = [
        (centre[0] + radius * cos(start + k * step), centre[1] + radius * sin(start + k * step), bulge)
        for k in range(count + 1)
    ]
    return Shape(tuple(rows), stroke=paint, width=width)


def leader(text: str, to: Point, at: Point, anchor: Anchor = "start") -> tuple[Item, ...]:
    """Words with a line to what they name."""
    return line(at, to, paint="grey"), Words(text, at, anchor=anchor)


def moved(items: Iterable[Item], dx: float, dy: float) -> tuple[Item, ...]:
    """The same elsewhere."""
    return tuple(_moved(item, dx, dy) for item in items)


def _moved(item: Item, dx: float, dy: float) -> Item:
    if isinstance(item, Shape):
        rows = tuple((x + dx, y + dy, bulge) for x, y, bulge in item.rows)
        return Shape(rows, item.closed, item.fill, item.stroke, item.width, item.dashes)
    if isinstance(item, Words):
        at = (item.at[0] + dx, item.at[1] + dy)
        return Words(item.text, at, item.size, item.anchor, item.bold, item.angle, item.paint)
    a, b = ((x + dx, y + dy) for x, y in (item.a, item.b))
    return Dimension(a, b, item.text, item.off)


def dimension_items(one: Dimension, scale: float) -> tuple[Shape | Words, ...]:
    """What a dimension is drawn as at this scale: two lines to the places, one with arrows, the words on it."""
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    nx, ny = -uy, ux
    off, past = one.off / scale, 1.5 / scale * (1 if one.off >= 0 else -1)
    a, b = (ax + off * nx, ay + off * ny), (bx + off * nx, by + off * ny)
    ends = [line(p, (q[0] + past * nx, q[1] + past * ny), paint="grey") for p, q in ((one.a, a), (one.b, b))]
    head = min(ARROW / scale, long / 3)
    arrows = [_arrow(a, (ux, uy), head), _arrow(b, (-ux, -uy), head)]
    lift = 0.8 / scale
    angle = atan2(uy, ux)
    if not -pi / 2 < angle <= pi / 2:
        angle += pi if angle <= 0 else -pi
    up = (-sin(angle), cos(angle))
    middle = ((a[0] + b[0]) / 2 + lift * up[0], (a[1] + b[1]) / 2 + lift * up[1])
    return *ends, line(a, b), *arrows, Words(one.text, middle, anchor="middle", angle=angle)


def _arrow(tip: Point, along: Point, head: float) -> Shape:
    """Filled, its tip there, its shaft along."""
    (x, y), (ux, uy) = tip, along
    back, half = (x + head * ux, y + head * uy), head / 6
    corners = [tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)]
    return Shape(tuple((px, py, 0.0) for px, py in corners), closed=True, fill="ink", stroke=None)


def _box(item: Item, scale: float) -> tuple[float, float, float, float]:
    if isinstance(item, Dimension):
        boxes = [_box(part, scale) for part in dimension_items(item, scale)]
        low, high = np.min(boxes, axis=0)[:2], np.max(boxes, axis=0)[2:]
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])
    if isinstance(item, Words):
        return _words_box(item, scale)
    if item.closed and any(bulge for _, _, bulge in item.rows):
        return Contour(np.array(item.rows)).bounds
    points = np.array(item.rows)[:, :2]
    reach = _bulging(item.rows)
    low, high = points.min(axis=0) - reach, points.max(axis=0) + reach
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _bulging(rows: Sequence[tuple[float, float, float]]) -> float:
    """How far the arcs of an open chain may reach beyond its corners, at most."""
    chords = pairwise(rows)
    return max((abs(a[2]) * hypot(b[0] - a[0], b[1] - a[1]) / 2 for a, b in chords), default=0.0)


def _words_box(words: Words, scale: float) -> tuple[float, float, float, float]:
    wide, high = LETTER * words.size * len(words.text) / scale, words.size / scale
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    c, s = cos(words.angle), sin(words.angle)
    corners = [
        (words.at[0] + x * c - y * s, words.at[1] + x * s + y * c)
        for x in (start, start + wide)
        for y in (-0.25 * high, high)
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
