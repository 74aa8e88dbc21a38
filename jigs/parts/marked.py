"""Marks as plain lines, to look for room beside them."""

from __future__ import annotations

from collections.abc import Iterable

from geometry.strokes.lettering import strokes
from jigs.parts.part import Line, Mark, Words


def as_lines(marks: Iterable[Mark | Words]) -> list[Line]:
    """Every mark as lines: text by its strokes; what has no place yet takes none."""
    found: list[Line] = []
    for mark in marks:
        if isinstance(mark, Line):
            found.append(mark)
        elif not isinstance(mark, Words):
            drawn = strokes(mark.text, mark.origin, mark.height, mark.angle)
            found += [Line(tuple(map(tuple, stroke.tolist()))) for stroke in drawn]
    return found
