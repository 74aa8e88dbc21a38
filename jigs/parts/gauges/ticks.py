"""Marked heights along a working edge, each with its diameter, as many as there is room for."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.nearest import Table, distances
from geometry.plane.profile import Profile
from geometry.records import dataclass
from geometry.strokes.lettering import text_width
from jigs.parts.part import Lettering, Line, Mark, Point
from jigs.words.lengths import Unit, show_length

LENGTH = 6.0  # of a tick, mm
GAPS = (1.5, 2.5, 4.0, 6.0, 9.0, 13.0)  # from the edge to its tick: the nearest that keeps clear is taken
TO_TEXT = 1.5
PITCH = 1.7  # of the lettering, in cap heights: what stands nearer to another is left out
CLEAR = 1.2  # mm of a stroke's middle line from the plate's edges and holes
SAME = 0.05  # mm left by a gauge, under which the work measures what it does when finished
BRACKETS = "Ø NOW (FINISHED)"
SIZES = "The sizes along its edge are what the work measures there at this stage, and in brackets when it is finished."
STEP = 2.0  # mm between the places of a box that are looked at


@dataclass(frozen=True)
class Tick:
    """A height, what stands there, and the diameter there: of the work at a stage, and finished."""

    height: float
    diameter: float
    finished: float
    name: str


def tick_marks(
    ticks: Sequence[Tick], edge: Profile, side: int, outline: Contour, holes: Sequence[Contour],
    height: float, unit: Unit,
) -> tuple[Mark, ...]:  # fmt: skip
    """Ticks and their lettering beside a working edge; the plate is to its right (`side` +1) or left (-1).

    Those for which there is no room are left out, the last named first.
    """
    kept: list[float] = []
    marks: list[Mark] = []
    edges = Table.of([edge for contour in (outline, *holes) for edge in contour.edges()])
    for tick in ticks:
        on_edge = edge.bottom <= tick.height <= edge.top
        if on_edge and all(abs(tick.height - other) >= PITCH * height for other in kept):
            found = _beside(tick, edge.radius_at(tick.height), side, outline, edges, height, unit)
            marks += found
            kept += [tick.height] if found else []
    return tuple(marks)


def _beside(
    tick: Tick, x: float, side: int, outline: Contour, edges: Table, height: float, unit: Unit
) -> list[Mark]:
    """One tick and its lettering, as near to the edge as both keep clear; nothing where they cannot."""
    for text in _texts(tick, unit):
        first, *tries = (_at(tick, x, side, gap, text, height) for gap in GAPS)
        if _clear(*first, outline, edges):
            return list(first)
        ends = np.array([[*line.points, *_corners(label)] for line, label in tries])
        on_plate = outline.contains(ends).reshape(len(tries), -1).all(axis=1)
        for line, label in (tries[k] for k in np.flatnonzero(on_plate)):
            if _clear(line, label, outline, edges):
                return [line, label]
    return []


def _at(tick: Tick, x: float, side: int, gap: float, text: str, height: float) -> tuple[Line, Lettering]:
    """A tick so far from the edge, and its lettering."""
    start, end = x + side * gap, x + side * (gap + LENGTH)
    left = end + TO_TEXT if side > 0 else end - TO_TEXT - text_width(text, height)
    line = Line(((start, tick.height), (end, tick.height)), tick.name)
    return line, Lettering(text, (left, tick.height - height / 2), height)


def _corners(label: Lettering) -> list[Point]:
    """Of its box."""
    (x, y), wide = label.origin, text_width(label.text, label.height)
    return [(x, y), (x + wide, y), (x, y + label.height), (x + wide, y + label.height)]


def _texts(tick: Tick, unit: Unit) -> tuple[str, ...]:
    """What the work measures now, with the finished size in brackets, or without where there is no room."""
    now, finished = (diameter_text(mm, unit) for mm in (tick.diameter, tick.finished))
    return (f"Ø {now}",) if now == finished else (f"Ø {now} ({finished})", f"Ø {now}")


def diameter_text(mm: float, unit: Unit) -> str:
    """A diameter without its unit: tenths of mm, or thousandths of an inch."""
    return f"{mm:.1f}" if unit == "mm" else show_length(mm, unit, exact=True).removesuffix(" in")


def _clear(line: Line, label: Lettering, outline: Contour, edges: Table) -> bool:
    """Whether a tick and its lettering's box lie on the plate, clear of its edges and holes."""
    (left, low), wide, high = label.origin, text_width(label.text, label.height), label.height
    across = [left + wide * share for share in _shares(wide)]
    up = [low + high * share for share in _shares(high)]
    level = [(x, y) for y in (low, low + high) for x in across]
    upright = [(x, y) for x in (left, left + wide) for y in up]
    points = np.array([*line.points, *level, *upright])
    near = edges.only(edges.meeting(points.min(axis=0) - CLEAR, points.max(axis=0) + CLEAR))
    if not len(near):
        return bool(outline.contains(points[:1])[0])
    return bool(outline.contains(points).all() and distances(near, points).min() >= CLEAR)


def _shares(size: float) -> list[float]:
    """The places of a side that are looked at, its ends among them."""
    last = max(2, round(size / STEP)) - 1
    return [k / last for k in range(last + 1)]
