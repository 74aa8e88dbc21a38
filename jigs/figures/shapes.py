"""What figures are put together from: lines, areas, arcs; and the same elsewhere, larger, or the other way round."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from math import ceil, cos, pi, sin, tan

from geometry.bodies.tube import Tube
from geometry.plane.contour import Contour
from jigs.figures.items import (
    THIN,
    Anchor,
    Arrow,
    Callout,
    Caption,
    Dimension,
    Item,
    Paint,
    Point,
    Shape,
    Words,
)

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
