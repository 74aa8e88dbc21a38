"""Dimensions, arrows and callouts as lines and words at a scale, and what room all takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from math import atan, atan2, ceil, cos, floor, hypot, inf, pi, sin
from typing import TypeAlias

from jigs.figures.figure import (
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
)
from jigs.figures.shapes import line

ARROW = 2.4  # mm long
PITCH = 1.45  # of words above one another, of their size
BESIDE = 4.0  # mm from the drawing to the words beside it
DOT = 0.45  # mm, radius
OVER = 0.8  # mm from a dimension's line to the words on it
SLIDES = (0.0, 0.25, -0.25, 0.5, -0.5)  # of the room that they have along it, from its middle
NEAR = 0.004  # of a scale, how near the largest one is found
BOLD = 1.06  # as wide as other letters
Ends: TypeAlias = tuple[float, float, float, float]
NARROW, WIDE = set("iljtfrI.,:;'|!()[]/ -"), set("mwMW@%")


@cache
def text_width(text: str, size: float) -> float:
    """mm of a line of words, at most: letters by how wide they are in common sans-serif fonts."""
    return size * sum(
        0.4 if c in NARROW else 0.95 if c in WIDE else 0.71 if c.isupper() else 0.6 for c in text
    )


def fitting(items: Sequence[Item], width: float, height: float, most: float) -> float:
    """The largest scale at which all of it has room. Words take the same room at any scale, so that only what the
    shapes take can shrink."""
    small = _framed(items)
    scale = min(most, _bare(small, width, height))
    for _ in range(12):
        drawn = laid(small, scale)
        x0, y0, x1, y1 = bounds_of(drawn, scale)
        left, low, right, high = bounds_of([one for one in drawn if isinstance(one, Shape)] or drawn, scale)
        spare = ((width - scale * (x1 - x0), right - left), (height - scale * (y1 - y0), high - low))
        step = min(room / size for room, size in spare if size > 0)
        if scale + step >= most and scale == most:
            return most
        if abs(step) <= NEAR * scale:
            break
        scale = min(most, max(scale + step, 0.3 * scale))
    return scale


def _bare(items: Iterable[Item], width: float, height: float) -> float:
    """The scale at which the shapes alone would fill the paper."""
    boxes = [item.box for item in items if isinstance(item, Shape)]
    sizes = [
        (high - low, room)
        for x0, y0, x1, y1 in boxes
        for low, high, room in ((x0, x1, width), (y0, y1, height))
    ]
    return min((room / size for size, room in sizes if size > 0), default=inf)


def _framed(items: Sequence[Item]) -> list[Item]:
    """The same with one rectangle round all shapes in their stead."""
    boxes = [item.box for item in items if isinstance(item, Shape)]
    rest: list[Item] = [item for item in items if not isinstance(item, Shape)]
    if not boxes:
        return rest
    left, low, right, high = zip(*boxes, strict=True)
    x0, y0, x1, y1 = min(left), min(low), max(right), max(high)
    return [Shape(((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)), closed=True), *rest]


def laid(items: Iterable[Item], scale: float, clear: bool = False) -> tuple[Shape | Words, ...]:
    """All of it as lines and words; `clear`: with the words on dimensions moved off whatever they would lie on."""
    drawn: list[Shape | Words] = []
    callouts: list[Callout] = []
    captions: list[Caption] = []
    on_dimensions: list[tuple[Words, ...]] = []
    for item in items:
        if isinstance(item, Shape | Words):
            drawn.append(item)
        elif isinstance(item, Dimension):
            lines, choices = dimension_items(item, scale)
            drawn += lines
            on_dimensions.append(choices)
        elif isinstance(item, Arrow):
            drawn += _arrow_items(item, scale)
        elif isinstance(item, Callout):
            callouts.append(item)
        else:
            captions.append(item)
    first = [choices[0] for choices in on_dimensions]
    if callouts:
        drawn += _beside(callouts, bounds_of([*drawn, *first], scale), scale)
    for caption in captions:
        drawn += _over(caption, bounds_of([*drawn, *first], scale), scale)
    return (*drawn, *(_cleared(on_dimensions, drawn, scale) if clear else first))


def _cleared(
    every: Sequence[tuple[Words, ...]], drawn: Sequence[Shape | Words], scale: float
) -> Iterator[Words]:
    from jigs.figures.clear import clearest

    shapes = [one for one in drawn if isinstance(one, Shape)]
    words = [one for one in drawn if isinstance(one, Words)]
    for choices in every:
        words.append(clearest(choices, shapes, words, scale))
        yield words[-1]


def dimension_items(one: Dimension, scale: float) -> tuple[tuple[Shape, ...], tuple[Words, ...]]:
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
    return (*ends, *shaft), tuple(_places(one.text, a, b, wide, scale, within))


def _places(text: str, a: Point, b: Point, wide: float, scale: float, within: bool) -> Iterator[Words]:
    """Over the line where it is long enough, from its middle outward, then under it; else past either end of it."""
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


def _arrow_items(one: Arrow, scale: float) -> tuple[Shape | Words, ...]:
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    head = 1.6 * ARROW / scale
    shaft = line(one.a, (bx - head * ux, by - head * uy), paint=one.paint, width=THICK)
    drawn: list[Shape | Words] = [shaft, _head(one.b, (-ux, -uy), head, one.paint, 4)]
    if one.text:
        beside = 2.0 / scale
        x, y = (ax + bx) / 2, (ay + by) / 2
        left, half = one.side == "left", 0.35 * WORDS / scale
        at = (x, y + beside) if abs(ux) > abs(uy) else (x - beside if left else x + beside, y - half)
        anchor: Anchor = "middle" if abs(ux) > abs(uy) else "end" if left else "start"
        drawn.append(Words(one.text, at, anchor=anchor))
    return tuple(drawn)


def _head(tip: Point, along: Point, head: float, paint: Paint = "ink", slim: float = 6) -> Shape:
    """Filled, its tip there, its shaft along."""
    (x, y), (ux, uy) = tip, along
    back, half = (x + head * ux, y + head * uy), head / slim
    corners = [tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)]
    return Shape(tuple((px, py, 0.0) for px, py in corners), closed=True, fill=paint, stroke=None)


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


def bounds_of(drawn: Iterable[Shape | Words], scale: float) -> Box:
    """Of all of it, in mm of the work."""
    boxes = [words_box(one, scale) if isinstance(one, Words) else one.box for one in drawn]
    low_x, low_y, high_x, high_y = zip(*boxes, strict=True)
    return min(low_x), min(low_y), max(high_x), max(high_y)


def words_ends(words: Words, scale: float) -> Ends:
    """Along a line of words from its place, and up from it: where it begins and ends, in mm of the work."""
    wide, high = text_width(words.text, words.size) / scale, words.size / scale
    if words.bold:
        wide *= BOLD
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    return start, -0.25 * high, start + wide, 0.8 * high


def words_box(words: Words, scale: float) -> Box:
    """Round a line of words, in mm of the work."""
    start, low, end, high = words_ends(words, scale)
    c, s = cos(words.angle), sin(words.angle)
    corners = [
        (words.at[0] + x * c - y * s, words.at[1] + x * s + y * c) for x in (start, end) for y in (low, high)
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def shape_box(shape: Shape) -> Box:
    """Round a chain, its arcs too."""
    rows = shape.rows
    xs, ys = [row[0] for row in rows], [row[1] for row in rows]
    for a, b in pairwise((*rows, rows[0]) if shape.closed else rows):
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
