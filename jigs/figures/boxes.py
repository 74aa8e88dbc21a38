"""What room lines and words take, in mm of the work."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from math import cos, sin
from typing import TypeAlias

from jigs.figures.items import Box, Shape, Words

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
