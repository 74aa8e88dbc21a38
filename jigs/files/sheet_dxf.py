"""A sheet of parts as one DXF like those of single parts, read back and held against its parts."""

from __future__ import annotations

from functools import lru_cache
from math import pi
from pathlib import Path

import numpy as np

from geometry.curves.room import Room, nearest_spot, room
from geometry.plane.contour import Contour, circle
from geometry.plane.edges import FloatArray, Point, lengths_of
from geometry.records import Record
from geometry.strokes.lettering import strokes, text_width
from jigs.files.drawing import (
    NOTE_GAP,
    NOTE_HEIGHT,
    NOTE_PITCH,
    SCALE_LENGTH,
    Circle,
    Polyline,
    Shape,
    box_of,
    contours,
    marked,
    opened,
)
from jigs.files.dxf import TOLERANCE, contours_in, dxf_text, entity_form, entity_points, numbered
from jigs.files.marks import centre_lines
from jigs.files.sheets.nesting import Placed, Sheet, quarter_turn
from jigs.files.target import Target, get, put
from jigs.parts.part import Lettering, Mark, Part

DECIMALS = 6  # of a mm in the file
NAMES = (NOTE_HEIGHT, 4.0, 3.0, 2.5)  # mm, cap heights that a part's name is tried in
CLEAR, GRID = 1.5, 1.0  # mm that names keep from all else on the part; of the grid on which they find room


class Drawn(Record, eq=False):
    """A part's lines turned one way: `points` of all, and each line's form with the rows that fill it."""

    points: FloatArray
    forms: tuple[tuple[str, int, int], ...]


def write_sheet(sheet: Sheet, target: Target, kerf: float = 0.0) -> None:
    """Write a sheet's parts where they lie, each grown and its holes shrunk by half of `kerf` (mm), and read it back.

    Its layers are those of a single part; note has each part's name, the sheet's edge and name. Raises
    ValueError where the kerf leaves nothing of a contour, or where an outline or a hole read back is off by
    more than a single part's may be.
    """
    parts = {item.part.name: item.part for item in sheet.placed}
    shapes = {name: _lines(part, kerf) for name, part in parts.items()}
    beside = _beside(sheet)
    content = dxf_text(_entities(sheet, shapes, beside), box_of(beside), sheet.facts)
    put(content, target)
    _check(sheet, shapes, get(target) if isinstance(target, Path) else content)


@lru_cache(maxsize=256)
def _lines(part: Part, kerf: float) -> tuple[Shape, ...]:
    """A part's lines as in its own file (jigs.files.drawing), its name in place of the notes beside it.

    Copies of a part often lie on several sheets. What counts the plates of a stack is each copy's own.
    """
    marks = [line for mark in part.marks if not _counts(mark) for line in marked("engrave", mark)]
    holes, outline = contours(part, kerf)
    return (*marks, *holes, outline, *_name(part))


def _counts(mark: Mark) -> bool:
    return isinstance(mark, Lettering) and mark.of > 1


@lru_cache(maxsize=1024)
def _count(part: Part, number: int, turns: int) -> Drawn | None:
    """The lettering of a stack's plate of this number, turned; None where none counts it."""
    own = [mark.on_plate(number) for mark in part.marks if isinstance(mark, Lettering) and mark.of > 1]
    lines = tuple(line for mark in own for line in marked("engrave", mark))
    return _turned(lines, turns) if lines else None


def _name(part: Part) -> tuple[Polyline, ...]:
    """Code and name where nothing is engraved, drilled or cut, or the code alone; nothing where none has room."""
    marks = [line for mark in part.marks for line in centre_lines(mark)]
    free = room(part.outline, part.holes, marks, GRID)
    for text in (f"{part.code} {part.name}", part.code):
        for height in NAMES:
            for angle in (0.0, pi / 2):
                found = _lettered(free, text, height, angle, part.outline.centroid)
                if found:
                    return opened("note", found)
    return ()


def _lettered(free: Room, text: str, height: float, angle: float, near: Point) -> tuple[FloatArray, ...]:
    """Strokes of a text as near a point as it has room, level or, by a quarter turn, upward; else none."""
    long, high = text_width(text, height) + 2 * CLEAR, height + 2 * CLEAR
    size = (high, long) if angle else (long, high)
    spots = free.spots(*size)
    if not len(spots):
        return ()
    x, y = nearest_spot(spots, size, near)
    return strokes(text, (x + (high - CLEAR if angle else CLEAR), y + CLEAR), height, angle)


def _entities(sheet: Sheet, shapes: dict[str, tuple[Shape, ...]], beside: list[Polyline]) -> list[str]:
    """All lines as text. Each way in which a part lies is put into forms once, since copies are many."""
    drawn: dict[tuple[str, int], Drawn] = {}
    filled: list[tuple[str, list[float]]] = []
    for item in sheet.placed:
        key = item.part.name, item.turns
        if key not in drawn:
            drawn[key] = _turned(shapes[item.part.name], item.turns)
        count = _count(item.part, item.plate, item.turns)
        filled += _filled(count, item.x, item.y) if count else []
        filled += _filled(drawn[key], item.x, item.y)
    filled += _filled(_turned(tuple(beside), 0), 0.0, 0.0)
    return [form % (handle, *values) for handle, (form, values) in numbered(filled)]


def _turned(shapes: tuple[Shape, ...], turns: int) -> Drawn:
    points = [entity_points(shape) for shape in shapes]
    ends = np.cumsum([2 * len(rows) for rows in points]).tolist()
    forms = [entity_form(shape) for shape in shapes]
    turned = np.concatenate(points) @ quarter_turn(turns)
    return Drawn(turned, tuple(zip(forms, [0, *ends[:-1]], ends, strict=True)))


def _filled(drawn: Drawn, x: float, y: float) -> list[tuple[str, list[float]]]:
    values = np.round(drawn.points + np.array((x, y)), DECIMALS).ravel().tolist()
    return [(form, values[start:end]) for form, start, end in drawn.forms]


def _beside(sheet: Sheet) -> list[Polyline]:
    """The sheet's edge; below it a line of known length to check the scale by, its facts, what lies on it."""
    wide, high = sheet.size
    rule = -NOTE_GAP
    facts = [f"{name}: {value}" for name, value in sheet.facts]
    rows = enumerate([sheet.name, *facts, *sheet.rows], 1)
    lines = (
        np.array([(0.0, rule), (SCALE_LENGTH, rule)]),
        *(np.array([(end, rule - 2), (end, rule + 2)]) for end in (0.0, SCALE_LENGTH)),
        *strokes(f"{SCALE_LENGTH:g} MM", (SCALE_LENGTH + 5, rule - 1.5), 3.0),
        *(line for k, row in rows for line in strokes(row, (0.0, rule - k * NOTE_PITCH), NOTE_HEIGHT)),
    )
    edge = np.array([(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)])
    return [Polyline("note", np.column_stack((edge, np.zeros(len(edge)))), True), *opened("note", lines)]


def _check(sheet: Sheet, shapes: dict[str, tuple[Shape, ...]], content: bytes) -> None:
    """Raises ValueError where the file's contours are not those of its parts, one for one."""
    own = {name: [shape for shape in lines if _is_contour(shape)] for name, lines in shapes.items()}
    wanted = [(item, shape) for item in sheet.placed for shape in own[item.part.name]]
    found = contours_in(content)
    if len(found) != len(wanted):
        raise ValueError(
            f"{sheet.name}: {len(wanted)} outlines and holes were written, {len(found)} read back"
        )
    for (item, shape), read in zip(wanted, found, strict=True):
        off = _off(_lying(item, shape), read)
        if not off <= TOLERANCE:
            raise ValueError(f"{sheet.name}: {item.part.name}, copy {item.copy}, reads back {off:.4g} mm off")


def _is_contour(shape: Shape) -> bool:
    return isinstance(shape, Circle) or (shape.closed and shape.layer == "cut")


def _lying(item: Placed, shape: Shape) -> Contour:
    """A contour where it should lie on the sheet."""
    if isinstance(shape, Circle):
        x, y = item.points(np.array(shape.centre)).tolist()
        return circle((x, y), shape.radius)
    return item.contour(Contour(shape.vertices))


def _off(wanted: Contour, read: Contour) -> float:
    """How far a contour was moved or bent, mm: at its vertices and at the middles of its arcs."""
    if len(wanted) != len(read):
        return float("inf")
    chords = lengths_of(wanted.ends - wanted.points)
    bent = np.abs(wanted.vertices[:, 2] - read.vertices[:, 2]) * chords / 2
    return float(max(np.abs(wanted.points - read.points).max(), bent.max()))
