"""Marks as plain lines, to look for room beside them."""

from __future__ import annotations

from collections.abc import Iterable

from geometry.lettering import strokes
from jigs.part import Line, Mark


def as_lines(marks: Iterable[Mark]) -> list[Line]:
    """Every mark as lines: text by its strokes."""
    found: list[Line] = []
    for mark in marks:
        if isinstance(mark, Line):
            found.append(mark)
        else:
            drawn = strokes(mark.text, mark.origin, mark.height, mark.angle)
            found += [Line(tuple((float(x), float(y)) for x, y in stroke)) for stroke in drawn]
    return found
