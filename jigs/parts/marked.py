"""Marks as plain lines, to look for room beside them."""

from __future__ import annotations

from collections.abc import Iterable

from geometry.plane.arcs import FloatArray
from geometry.strokes.lettering import strokes
from jigs.parts.part import Lettering, Line, Mark, Words


def as_lines(marks: Iterable[Mark | Words]) -> list[Line]:
    """Every mark as lines: text by its strokes; what has no place yet takes none."""
    found: list[Line] = []
    for mark in marks:
        if isinstance(mark, Line):
            found.append(mark)
        elif not isinstance(mark, Words):
            found += [Line(tuple(map(tuple, stroke.tolist()))) for stroke in _drawn(mark)]
    return found


def paths(marks: Iterable[Mark]) -> list[tuple[tuple[float, float], ...] | FloatArray]:
    """The points (k, 2) of the same lines."""
    return [path for mark in marks for path in ([mark.points] if isinstance(mark, Line) else _drawn(mark))]


def _drawn(mark: Lettering) -> tuple[FloatArray, ...]:
    return strokes(mark.text, mark.origin, mark.height, mark.angle)
