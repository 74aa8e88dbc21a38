"""Text as single strokes, for marks that are engraved as lines or thickened into raised bars."""

from __future__ import annotations

from functools import cache, lru_cache
from itertools import accumulate
from math import cos, sin

import numpy as np

from geometry.plane.edges import FloatArray, Point, lengths_of
from geometry.strokes.letters import GRID, Stroke, strokes_of

SPACING = 5 / GRID  # clear distance between the centre lines of neighbouring glyphs, in cap heights
TOP, FOOT = 14 / GRID, -2 / GRID  # that brackets and the diameter's sign reach, in cap heights
BLANK = 2 / GRID  # width of a blank, in cap heights


@cache
def glyph(character: str) -> tuple[FloatArray, ...]:
    """Return the strokes of one character at cap height 1, each (k, 2), k >= 2; a blank has none.

    Lower case is drawn as upper case. Raises ValueError for a character the font does not have.
    """
    drawn = strokes_of(character)
    if drawn is None:
        raise ValueError(f"the stroke font has no character {character!r}")
    return tuple(_points(stroke) for stroke in drawn)


def _points(stroke: Stroke) -> FloatArray:
    points = np.array(stroke) / GRID
    points.setflags(write=False)
    return points


@cache
def width(character: str) -> float:
    """Return the width of one character at cap height 1, between its outermost centre lines."""
    return max((float(stroke[:, 0].max()) for stroke in glyph(character)), default=BLANK)


def places(text: str) -> tuple[float, ...]:
    """Return where each character of `text` starts along the base line, at cap height 1."""
    steps = (width(character) + SPACING for character in text)
    return tuple(accumulate(steps, initial=0.0))[:-1]


def text_width(text: str, height: float) -> float:
    """Return the length in mm of a line of text, between the outermost centre lines of its strokes."""
    return height * _width(text)


@lru_cache(maxsize=4096)
def _width(text: str) -> float:
    """Of a text at cap height 1: the same lines are measured over and over while room for them is looked for."""
    return sum(width(character) + SPACING for character in text) - SPACING if text else 0.0


@lru_cache(maxsize=4096)
def drawn_length(text: str) -> float:
    """Return the length of all strokes of a line of text at cap height 1."""
    points, ends = _line(text)
    steps = lengths_of(np.diff(points, axis=0))
    return float(steps.sum() - steps[np.array(ends[:-1], dtype=np.int64) - 1].sum())


@lru_cache(maxsize=4096)
def beyond(text: str) -> tuple[float, float]:
    """How far a line's accents reach above and below what other lettering does, in cap heights."""
    reach = [_beyond(character) for character in text]
    return max((up for up, _ in reach), default=0.0), max((down for _, down in reach), default=0.0)


@cache
def _beyond(character: str) -> tuple[float, float]:
    heights = [y for stroke in glyph(character) for y in stroke[:, 1].tolist()]
    return max(0.0, max(heights, default=0.0) - TOP), max(0.0, FOOT - min(heights, default=0.0))


@lru_cache(maxsize=4096)
def _line(text: str) -> tuple[FloatArray, tuple[int, ...]]:
    """All points (k, 2) of a line at cap height 1, and where each of its strokes ends: the same words recur."""
    found = [
        (x, stroke) for character, x in zip(text, places(text), strict=True) for stroke in glyph(character)
    ]
    sizes = [len(stroke) for _, stroke in found]
    points = np.concatenate([np.empty((0, 2)), *(stroke for _, stroke in found)])
    points[:, 0] += np.repeat([x for x, _ in found], sizes)
    points.setflags(write=False)
    return points, tuple(accumulate(sizes))


def strokes(
    text: str, origin: Point = (0.0, 0.0), height: float = 1.0, angle: float = 0.0
) -> tuple[FloatArray, ...]:
    """Return the centre lines of `text` as open polylines (k, 2), in mm.

    `origin` is the left end of the base line, `height` the cap height in mm, `angle` the direction of the
    base line in radians. Raises ValueError for a character the font does not have.
    """
    points, ends = _line(text)
    c, s = height * cos(angle), height * sin(angle)
    across, up = points[:, 0], points[:, 1]
    put = np.empty_like(points)
    put[:, 0], put[:, 1] = origin[0] + across * c - up * s, origin[1] + across * s + up * c
    return tuple(put[start:end] for start, end in zip((0, *ends), ends, strict=False))
