"""What room lines and words take, in mm of the work, and whether words lie over a line or over other words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from math import atan, atan2, ceil, cos, sin
from typing import TypeAlias

from jigs.figures.items import Box, Point, Shape, Words, arc_of

Ends: TypeAlias = tuple[float, float, float, float]
BOLD = 1.06  # as wide as other letters
LOW = set("gjpqy,;()/Q")  # letters that reach under the line
NARROW, WIDE = set("iljtfrI.,:;'|!()[]/ -"), set("mwMW@%")


@cache
def text_width(text: str, size: float) -> float:
    """mm of a line of words, at most: letters by how wide they are in common sans-serif fonts."""
    return size * sum(
        0.4 if c in NARROW else 0.95 if c in WIDE else 0.71 if c.isupper() else 0.6 for c in text
    )


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
    low = -0.25 if LOW & set(words.text) else -0.02
    return start, low * high, start + wide, 0.8 * high


def words_box(words: Words, scale: float) -> Box:
    """Round a line of words, in mm of the work."""
    start, low, end, high = words_ends(words, scale)
    if not words.angle:
        x, y = words.at
        return x + start, y + low, x + end, y + high
    c, s = cos(words.angle), sin(words.angle)
    corners = [
        (words.at[0] + x * c - y * s, words.at[1] + x * s + y * c) for x in (start, end) for y in (low, high)
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


CHORD = 0.3  # radians of an arc, about, to a straight piece


def clearest(
    choices: Iterable[Words], shapes: Sequence[Shape], words: Iterable[Words], scale: float
) -> Words | None:
    """The first that lies over nothing; None where all do."""
    others = [words_box(one, scale) for one in words]
    return next((one for one in choices if not _crossed(one, shapes, others, scale)), None)


def _crossed(one: Words, shapes: Iterable[Shape], others: Iterable[Box], scale: float) -> bool:
    around = words_box(one, scale)
    if any(_meet(around, other) for other in others):
        return True
    own, turn = words_ends(one, scale), (cos(one.angle), sin(one.angle))
    return any(
        _through(_turned(a, one.at, turn), _turned(b, one.at, turn), own)
        for shape in shapes
        if _meet(around, shape.box)
        for a, b in _pieces(shape)
    )


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _turned(point: Point, about: Point, turn: Point) -> Point:
    """In the frame of words that are turned: along them, and up."""
    x, y = point[0] - about[0], point[1] - about[1]
    return (x * turn[0] + y * turn[1], y * turn[0] - x * turn[1])


def _pieces(shape: Shape) -> Iterator[tuple[Point, Point]]:
    """Its edges, arcs as chords."""
    rows = shape.rows
    for a, b in pairwise((*rows, rows[0]) if shape.closed else rows):
        yield from pairwise(_along(a, b)) if a[2] else [(a[:2], b[:2])]


def _along(a: tuple[float, float, float], b: tuple[float, float, float]) -> list[Point]:
    (x, y), radius = arc_of(a, b)
    start, turn = atan2(a[1] - y, a[0] - x), 4 * atan(a[2])
    count = ceil(abs(turn) / CHORD)
    turns = (start + turn * k / count for k in range(count + 1))
    return [(x + radius * cos(t), y + radius * sin(t)) for t in turns]


def _through(a: Point, b: Point, box: Ends) -> bool:
    """Whether a straight line passes through a box (clipped by Liang and Barsky's way)."""
    enter, leave = 0.0, 1.0
    for k, low, high in ((0, box[0], box[2]), (1, box[1], box[3])):
        step, low, high = b[k] - a[k], low - a[k], high - a[k]
        if step == 0.0:
            if low >= 0.0 or high <= 0.0:
                return False
            continue
        first, last = sorted((low / step, high / step))
        enter, leave = max(enter, first), min(leave, last)
    return enter < leave
