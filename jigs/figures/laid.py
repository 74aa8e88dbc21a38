"""A figure as lines and words at a scale: dimensions, arrows and callouts where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice
from math import atan2, cos, hypot, pi, sin
from typing import TypeAlias

from geometry.records import replace
from jigs.figures.clear import bounds_of, clearest, text_width
from jigs.figures.items import (
    THICK,
    WORDS,
    Anchor,
    Arrow,
    Box,
    Callout,
    Caption,
    Dimension,
    Item,
    Paint,
    Point,
    Shape,
    Words,
    line,
)

PITCH = 1.45  # of words above one another, of their size
BESIDE = 4.0  # mm from the drawing to the words beside it
DOT = 0.45  # mm, radius
Movable: TypeAlias = tuple[Item, Words, Iterator[Words]]  # with the first place of its words, and the others


def laid(items: Iterable[Item], scale: float) -> tuple[Shape | Words, ...]:
    """All of it as lines and words, these on dimensions and at arrows where they go first of all."""
    drawn, movable = _laid(items, scale)
    return (*drawn, *(first for _, first, _ in movable))


def laid_clear(items: Sequence[Item], scale: float) -> tuple[Shape | Words, ...]:
    """The same with the words on dimensions and at arrows moved off whatever they would lie on: where there is no such
    place, beside the drawing, with a line to what they tell."""
    drawn, movable = _laid(items, scale)
    shapes = [one for one in drawn if isinstance(one, Shape)]
    words = [one for one in drawn if isinstance(one, Words)]
    crowded: list[Item] = []
    for item, first, others in movable:
        found = clearest(chain((first,), others), shapes, words, scale)
        if found is None:
            crowded.append(item)
        else:
            words.append(found)
    if crowded:
        return laid_clear([other for item in items for other in _beside_it(item, crowded, scale)], scale)
    return (*shapes, *words)


def _beside_it(item: Item, crowded: Sequence[Item], scale: float) -> Iterator[Item]:
    """The item, or its lines and a callout where it is one of these."""
    if isinstance(item, Dimension) and item in crowded:
        lines, _ = dimension_items(item, scale)
        yield from lines
        (x0, y0, _), (x1, y1, _) = lines[2].rows
        yield Callout(item.text, ((x0 + x1) / 2, (y0 + y1) / 2))
    elif isinstance(item, Arrow) and item in crowded:
        yield replace(item, text="")
        yield Callout(item.text, ((item.a[0] + item.b[0]) / 2, (item.a[1] + item.b[1]) / 2))
    else:
        yield item


def _laid(items: Iterable[Item], scale: float) -> tuple[list[Shape | Words], list[Movable]]:
    """What stays where it is, and what has words that may go to one of several places."""
    drawn: list[Shape | Words] = []
    callouts: list[Callout] = []
    captions: list[Caption] = []
    movable: list[Movable] = []
    for item in items:
        if isinstance(item, Shape | Words):
            drawn.append(item)
        elif isinstance(item, Dimension):
            lines, places = dimension_items(item, scale)
            drawn += lines
            movable += [(item, first, places) for first in islice(places, 1)]
        elif isinstance(item, Arrow):
            lines, places = arrow_items(item, scale)
            drawn += lines
            movable += [(item, first, places) for first in islice(places, 1)]
        elif isinstance(item, Callout):
            callouts.append(item)
        else:
            captions.append(item)
    firsts = [first for _, first, _ in movable]
    if callouts:
        drawn += _beside(callouts, bounds_of([*drawn, *firsts], scale), scale)
    for caption in captions:
        drawn += _over(caption, bounds_of([*drawn, *firsts], scale), scale)
    return drawn, movable


def _beside(callouts: Sequence[Callout], box: Box, scale: float) -> list[Shape | Words]:
    """In a column on either side, in the order in which what they name lies, so that no two lines cross."""
    x0, y0, x1, y1 = box
    drawn: list[Shape | Words] = []
    left = [one for one in callouts if one.side == "left" or (not one.side and one.to[0] < (x0 + x1) / 2)]
    right = [one for one in callouts if one not in left]
    for column, x, way in ((left, x0, -1), (right, x1, 1)):
        ordered = sorted(column, key=lambda one: -one.to[1])
        pitch = PITCH * WORDS / scale
        for one, y in zip(ordered, _spread([o.to[1] for o in ordered], pitch, y0, y1), strict=True):
            at = x + way * BESIDE / scale
            dot = DOT / scale
            rows = ((one.to[0] - dot, one.to[1], 1.0), (one.to[0] + dot, one.to[1], 1.0))
            drawn.append(line((at, y), one.to, paint="grey"))
            drawn.append(Shape(rows, closed=True, fill="ink", stroke=None))
            words = (at + way * 0.8 / scale, y - 0.35 * WORDS / scale)
            drawn.append(Words(one.text, words, anchor="end" if way < 0 else "start"))
    return drawn


def _over(caption: Caption, box: Box, scale: float) -> list[Shape | Words]:
    """From the left edge of all else."""
    left, _, _, high = box
    pitch, count = PITCH * WORDS / scale, len(caption.lines)
    return [
        Words(text, (left, high + (count - k - 0.5) * pitch), bold=k == 0)
        for k, text in enumerate(caption.lines)
    ]


def _spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Heights from the top down, near those wanted, none nearer to the next than the pitch."""
    found: list[float] = []
    for y in wanted:
        found.append(min(y, found[-1] - pitch) if found else min(y, high))
    for k in range(len(found) - 1, -1, -1):
        least = low if k == len(found) - 1 else found[k + 1] + pitch
        found[k] = max(found[k], least)
    return found


ARROW = 2.4  # mm long
OVER = 0.8  # mm from a dimension's line to the words on it
OUT = 2.4  # and to words beside an upright one
SLIDES = (0.0, 0.25, -0.25, 0.5, -0.5)  # of the room that they have along it, from its middle


def dimension_items(one: Dimension, scale: float) -> tuple[tuple[Shape, ...], Iterator[Words]]:
    """Two lines to the places, one with arrows, these outside where there is no room between; and the places that
    its words may have, the best first."""
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    nx, ny = -uy, ux
    off, past = one.off / scale + one.away, 1.5 / scale * (1 if one.off >= 0 else -1)
    a, b = (ax + off * nx, ay + off * ny), (bx + off * nx, by + off * ny)
    ends = [line(p, (q[0] + past * nx, q[1] + past * ny), paint="grey") for p, q in ((one.a, a), (one.b, b))]
    head, wide = ARROW / scale, text_width(one.text, WORDS) / scale
    within = long >= wide + head
    if within:
        shaft = [line(a, b), _head(a, (ux, uy), head), _head(b, (-ux, -uy), head)]
    else:
        tails = [(p[0] + k * 2 * head * ux, p[1] + k * 2 * head * uy) for p, k in ((a, -1), (b, 1))]
        shaft = [line(tails[0], tails[1]), _head(a, (-ux, -uy), head), _head(b, (ux, uy), head)]
    beside = past / 1.5 * OUT
    out = ((a[0] + b[0]) / 2 + beside * nx, (a[1] + b[1]) / 2 + beside * ny)
    return (*ends, *shaft), _places(one.text, a, b, wide, scale, within, out)


def _places(
    text: str, a: Point, b: Point, wide: float, scale: float, within: bool, out: Point
) -> Iterator[Words]:
    """Over the line where it is long enough, from its middle outward, then under it; else past either end of it.

    Level at `out`, beside an upright one, where all of these lie over something.
    """
    (ax, ay), (bx, by) = a, b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    turn = atan2(uy, ux)
    flipped = not -pi / 2 + 1e-9 < turn <= pi / 2 + 1e-9
    angle = turn - (pi if turn > 0 else -pi) if flipped else turn
    up = (-sin(angle), cos(angle))

    def at(along: float, lift: float, anchor: Anchor) -> Words:
        place = (ax + along * ux + lift / scale * up[0], ay + along * uy + lift / scale * up[1])
        return Words(text, place, anchor=anchor, angle=angle)

    lifts, past = (OVER, -OVER - 0.75 * WORDS), 2.4 * ARROW / scale
    spare = long - wide - ARROW / scale
    if within:
        yield from (at(long / 2 + part * spare, lift, "middle") for lift in lifts for part in SLIDES)
    beyond: tuple[tuple[float, Anchor], ...] = (
        (long + past, "end" if flipped else "start"),
        (-past, "start" if flipped else "end"),
    )
    yield from (at(along, -0.35 * WORDS, anchor) for along, anchor in beyond)
    if not within:
        yield from (at(long / 2, lift, "middle") for lift in lifts)
    if abs(uy) > abs(ux):
        level = (out[0], out[1] - 0.35 * WORDS / scale)
        yield Words(text, level, anchor="start" if out[0] > (ax + bx) / 2 else "end")


def arrow_items(one: Arrow, scale: float) -> tuple[tuple[Shape, ...], Iterator[Words]]:
    """Its lines, and the places that its words may have, if it has any."""
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    head = 1.6 * ARROW / scale
    shaft = line(one.a, (bx - head * ux, by - head * uy), paint=one.paint, width=THICK)
    lines = (shaft, _head(one.b, (-ux, -uy), head, one.paint, 4))
    if not one.text:
        return lines, iter(())
    beside, half = 2.0 / scale, 0.35 * WORDS / scale
    left, level = one.side == "left", abs(ux) > abs(uy)
    anchor: Anchor = "middle" if level else "end" if left else "start"
    across = (0.0, beside) if level else (-beside if left else beside, -half)
    parts = (0.5 + slide for slide in SLIDES)
    places = ((ax + k * (bx - ax) + across[0], ay + k * (by - ay) + across[1]) for k in parts)
    return lines, (Words(one.text, at, anchor=anchor) for at in places)


def _head(tip: Point, along: Point, head: float, paint: Paint = "ink", slim: float = 6) -> Shape:
    """Filled, its tip there, its shaft along."""
    (x, y), (ux, uy) = tip, along
    back, half = (x + head * ux, y + head * uy), head / slim
    corners = [tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)]
    return Shape(tuple((px, py, 0.0) for px, py in corners), closed=True, fill=paint, stroke=None)
