"""A part as one flat drawing, layer by layer, for every format that draws lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import accumulate, pairwise
from math import isclose, pi
from typing import Literal

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray, Point
from geometry.records import Record
from geometry.strokes.lettering import strokes, text_width
from jigs.files.marks import centre_lines
from jigs.parts.part import Line, Mark, Part

Layer = Literal["cut", "engrave", "drill", "section", "note"]

NOTE_HEIGHT = 5.0  # mm, cap height of the notes beside the part
NOTE_PITCH = 8.0  # mm from one of their rows to the next
NOTE_GAP = 10.0  # mm from the part to the notes
SCALE_LENGTH = 50.0  # mm, the line to check the scale by
AXIS_OVERHANG = 5.0  # mm that a centre line stands out
SAME = 1e-6  # mm between the centres and radii of the arcs of one circle


class Polyline(Record, eq=False):
    """Rows (k, 3) of x, y and the bulge of the edge to the next row."""

    layer: Layer
    vertices: FloatArray
    closed: bool
    name: str = ""  # of a marked line


class Circle(Record):
    layer: Layer
    centre: Point
    radius: float


Shape = Polyline | Circle


def drawing(part: Part, kerf: float = 0.0) -> tuple[Shape, ...]:
    """Return a part's lines, in its own coordinates, in the order in which a machine should run them.

    A cut part is grown, and its holes shrunk, by half the kerf (mm). A turned part is its section: x is the
    radius, y the height along the axis. Raises ValueError where the kerf leaves nothing of a contour.
    """
    if part.process == "turn":
        marks = (shape for mark in part.marks for shape in marked("note", mark))
        outlines = tuple(closed("section", contour) for contour in (part.outline, *part.holes))
        return (*outlines, *marks, *opened("note", (_axis(part), *_notes(part))))
    return (*without_notes(part, kerf), *opened("note", _notes(part)))


def without_notes(part: Part, kerf: float = 0.0) -> tuple[Shape, ...]:
    """Return what of a cut part's drawing a machine runs. Raises ValueError as `drawing` does."""
    marks = (shape for mark in part.marks for shape in marked("engrave", mark))
    holes, outline = contours(part, kerf)
    return (*marks, *holes, outline)


def widened(contour: Contour, distance: float) -> Contour:
    """Return a counter-clockwise contour grown by `distance` mm, corners kept sharp.

    Raises ValueError unless that leaves one contour.
    """
    if not distance:
        return contour
    from geometry.plane.offset import offset  # many machines take their kerf off by themselves

    grown = offset(contour, distance, corners="mitre")
    if len(grown) != 1:
        raise ValueError(f"a contour moved by {distance:g} mm for the kerf falls into {len(grown)} pieces")
    return grown[0]


@lru_cache(maxsize=256)
def contours(part: Part, kerf: float) -> tuple[tuple[Shape, ...], Shape]:
    """Return a cut part's holes and its outline, shrunk and grown by half of the kerf (mm).

    Round holes are on the drill layer. Raises ValueError where the kerf leaves nothing of a contour. Its own file,
    that of lines and arcs, its sheets and its file for a laser all ask for them.
    """
    holes = (widened(hole.ccw(), -kerf / 2) for hole in part.holes)
    return (
        tuple(round_shape("drill", hole) or closed("cut", hole) for hole in holes),
        closed("cut", widened(part.outline.ccw(), kerf / 2)),
    )


def closed(layer: Layer, contour: Contour) -> Shape:
    """Return a contour as one shape: a circle where it is one."""
    return round_shape(layer, contour) or Polyline(layer, contour.vertices, closed=True)


def round_shape(layer: Layer, contour: Contour) -> Circle | None:
    """Return a contour that is one full circle as that."""
    if contour.as_circle:
        return Circle(layer, *contour.as_circle)
    if not contour.vertices[:, 2].all() or not isclose(abs(contour.sweeps.sum()), 2 * pi):
        return None
    edges = contour.edges()
    measures = np.array([(*edge.centre, edge.radius) for edge in edges])
    if np.ptp(measures, axis=0).max() > SAME:
        return None
    x, y, radius = measures.mean(axis=0).tolist()
    return Circle(layer, (x, y), radius)


def box_of(shapes: Iterable[Shape]) -> tuple[float, float, float, float]:
    """Return the box (xmin, ymin, xmax, ymax) that shapes fill, arcs as they swing."""
    boxes, chains = [], []
    for shape in shapes:
        if isinstance(shape, Circle):
            (x, y), radius = shape.centre, shape.radius
            boxes.append((x - radius, y - radius, x + radius, y + radius))
        else:
            chains.append(shape.vertices)
    if chains:
        boxes += _boxes(chains)
    low, high = np.min(boxes, axis=0)[:2].tolist(), np.max(boxes, axis=0)[2:].tolist()
    return low[0], low[1], high[0], high[1]


def _boxes(chains: Sequence[FloatArray]) -> list[tuple[float, float, float, float]]:
    """One for each chain with arcs, one for all that have none."""
    counts = np.array([len(chain) for chain in chains])
    rows = np.concatenate(chains)
    bent = np.logical_or.reduceat(rows[:, 2] != 0, np.cumsum(counts) - counts)
    boxes = [Contour(chain).bounds for chain, arcs in zip(chains, bent.tolist(), strict=True) if arcs]
    points = rows[~np.repeat(bent, counts), :2]
    if len(points):
        boxes.append((*points.min(axis=0).tolist(), *points.max(axis=0).tolist()))
    return boxes


def all_facts(part: Part) -> tuple[tuple[str, str], ...]:
    """Return what a file says of its part, name and value: its code and name, then its facts."""
    return (("Part", f"{part.code} {part.name}"), *part.facts)


def marked(layer: Layer, mark: Mark) -> tuple[Polyline, ...]:
    """Return the lines of a mark; one that is set to carries its name."""
    return opened(layer, centre_lines(mark), mark.name if isinstance(mark, Line) else "")


def opened(layer: Layer, lines: Sequence[FloatArray], name: str = "") -> tuple[Polyline, ...]:
    """Return straight lines as shapes. Letters are thousands of short ones, so that all share one array."""
    if not lines:
        return ()
    ends = [0, *accumulate(len(line) for line in lines)]
    rows = np.zeros((ends[-1], 3))
    rows[:, :2] = np.concatenate(lines)
    return tuple(Polyline(layer, rows[start:end], closed=False, name=name) for start, end in pairwise(ends))


def _axis(part: Part) -> FloatArray:
    _, low, _, high = part.outline.bounds
    return np.array([(0.0, low - AXIS_OVERHANG), (0.0, high + AXIS_OVERHANG)])


def _lowest(part: Part) -> float:
    """Of the part; of a section also of the words beside it, which may be taller."""
    beside = part.marks if part.process == "turn" else ()
    lines = (line[:, 1].min() for mark in beside for line in centre_lines(mark))
    return float(min((part.outline.bounds[1], *lines)))


def _notes(part: Part) -> tuple[FloatArray, ...]:
    """Code and name, what the part has no room for, and a line to check the scale by, below it."""
    x = part.outline.bounds[0]
    base = _lowest(part) - NOTE_GAP - NOTE_HEIGHT
    facts = (f"{name}: {value}" for name, value in part.facts)
    rows = (f"{part.code} {part.name}", *facts, *part.beside)
    rule = base - NOTE_PITCH * (len(rows) - 1) - NOTE_GAP
    size = f"{SCALE_LENGTH:g} MM"
    return (
        *(
            line
            for k, row in enumerate(rows)
            for line in strokes(row, (x, base - k * NOTE_PITCH), NOTE_HEIGHT)
        ),
        np.array([(x, rule), (x + SCALE_LENGTH, rule)]),
        *(np.array([(end, rule - 2), (end, rule + 2)]) for end in (x, x + SCALE_LENGTH)),
        *strokes(size, (x + (SCALE_LENGTH - text_width(size, 3.0)) / 2, rule + 2), 3.0),
    )
