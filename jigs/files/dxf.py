"""DXF R2010 in millimetres: closed polylines with true arcs, circles, strokes; and its contours read back.

All that is not an entity is the same in every file but for the drawing's size and its properties: `frame.dxf`, made
by ezdxf (`jigs.files.dxf_frame`) and shipped, so that a make need not load a drawing library to write a few tags a
line. Straight edges have no bulge at all: some programs take every edge with one, even 0, for an arc.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache
from itertools import accumulate, pairwise
from math import atan2, ceil, degrees
from pathlib import Path
from typing import TypeGuard, TypeVar

import numpy as np

from geometry.plane.contour import Contour, circle
from geometry.plane.edges import Edge, FloatArray
from jigs.files.drawing import (
    Circle,
    Layer,
    Polyline,
    Shape,
    all_facts,
    box_of,
    closed,
    drawing,
    round_shape,
    widened,
)
from jigs.files.target import Target, get, put
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack

FRAME = Path(__file__).with_name("frame.dxf")
SIZES = (
    "@LEFT@",
    "@LOW@",
    "@RIGHT@",
    "@HIGH@",
    "@ACROSS@",
    "@UP@",
    "@TALL@",
    "@WIDE@",
    "@DEEP@",
)  # places in the frame
PROPERTIES = "@PROPERTIES@\n"
PAPER_MARGIN = 10.0  # mm round the drawing, of the page that a program prints it on whole
POINT = 25.4 / 72  # mm
WHOLE = 1e-4  # share of a page's side that it may be off whole millimetres
ROUND_IT = 1.1  # times the drawing's height, and a width for it: what a program shows when it opens the file
MODEL_SPACE = "17"  # handle of its block record in the frame
FIRST_HANDLE = 0x1000  # above the frame's own, below its $HANDSEED
APPLICATION = "JIGS"  # under which a marked line carries its name, as extended data
CLOSED = 1  # flag of a polyline
TOLERANCE = 1e-4  # mm; what the file should keep of the exact contours
KERF_TOLERANCE = 5e-3  # mm; with the kerf taken back out: corners beside arcs are mitred along their tangents
CONTOUR_LAYERS = {"cut", "drill", "section"}

T = TypeVar("T")
Box = tuple[float, float, float, float]  # xmin, ymin, xmax, ymax, mm
Facts = Iterable[tuple[str, str]]
Tags = list[tuple[int, str]]  # group code and value


def write_dxf(part: Part, target: Target, kerf: float = 0.0) -> None:
    """Write a part's drawing, grown outward and its holes inward by half of `kerf` (mm).

    Layers say what the machine does: engrave, drill (round holes), cut; note is for people, section is the
    section of a turned part. Raises ValueError where the kerf leaves nothing of a contour.
    """
    shapes = drawing(part, kerf)
    _put(part, shapes, _entities_of(shapes), target)


def write_lines_and_arcs(part: Part, target: Target, kerf: float = 0.0) -> bool:
    """Write a part's drawing with every contour as single lines and arcs, end to end; whether it has any arc.

    For programs that make chords of a polyline's arcs without a word, OpenSCAD among them. Nothing is written where
    no polyline has an arc: the part's own file serves then.
    """
    if not any(_bent(closed("cut", contour)) for contour in (part.outline, *part.holes)):
        return False
    shapes = drawing(part, kerf)
    pieces = [piece for shape in shapes for piece in _pieces(shape)]
    _put(part, shapes, (form % (number, *values) for number, (form, values) in numbered(pieces)), target)
    return True


def _put(part: Part, shapes: Sequence[Shape], entities: Iterable[str], target: Target) -> None:
    put(dxf_text(entities, box_of(shapes), all_facts(part)), target)


def _pieces(shape: Shape) -> Iterator[tuple[str, list[float]]]:
    """A shape as it is, or the edges of a contour with arcs: the form of each and what fills it after its handle."""
    if not _bent(shape):
        yield entity_form(shape), entity_points(shape).ravel().tolist()
        return
    for edge in Contour(shape.vertices).edges():
        yield (_arc(shape.layer, edge), []) if edge.is_arc else (_line(shape.layer), [*edge.start, *edge.end])


def _bent(shape: Shape) -> TypeGuard[Polyline]:
    return isinstance(shape, Polyline) and bool(shape.vertices[:, 2].any())


def _line(layer: Layer) -> str:
    return _common("LINE", layer) + "100\nAcDbLine\n 10\n%r\n 20\n%r\n 30\n0.0\n 11\n%r\n 21\n%r\n 31\n0.0\n"


def _arc(layer: Layer, edge: Edge) -> str:
    """Counter-clockwise in degrees, as the reference has arcs."""
    x, y = edge.centre
    ends = (edge.start, edge.end) if edge.bulge > 0 else (edge.end, edge.start)
    start, end = (degrees(atan2(b - y, a - x)) % 360 for a, b in ends)
    return (
        _common("ARC", layer)
        + f"100\nAcDbCircle\n 10\n{x!r}\n 20\n{y!r}\n 30\n0.0\n 40\n{edge.radius!r}\n"
        + f"100\nAcDbArc\n 50\n{start!r}\n 51\n{end!r}\n"
    )


def dxf_text(entities: Iterable[str], box: Box, facts: Facts = ()) -> bytes:
    """A whole file of these entities, each its tags as text, that fill `box`; `facts` are its properties."""
    head, tail = _frame()
    return "".join([_filled(head, box, facts), *entities, _filled(tail, box)]).encode()


def _filled(frame: str, box: Box, facts: Facts = ()) -> str:
    x0, y0, x1, y1 = box
    wide, deep = x1 - x0, y1 - y0
    shown = ((x0 + x1) / 2, (y0 + y1) / 2, ROUND_IT * max(deep, wide / 2))
    sizes = (*box, *shown, _page(wide), _page(deep))
    for place, size in zip(SIZES, sizes, strict=True):
        frame = frame.replace(place, repr(float(size)))
    return frame.replace(PROPERTIES, "".join(property_tags(name, value) for name, value in facts))


def _page(size: float) -> float:
    """A side of the page for a drawing's, mm: in whole points and, as nearly as matters, in whole millimetres.

    LibreCAD makes its pages of the one, counts them in the other, and stretches the drawing by the difference.
    """
    side = ceil((size + 2 * PAPER_MARGIN) / POINT)
    while abs(side * POINT - round(side * POINT)) > WHOLE * side * POINT:
        side += 1
    return side * POINT


def property_tags(name: str, value: str) -> str:
    """One of a drawing's own properties, as programs list them."""
    return f"  9\n$CUSTOMPROPERTYTAG\n  1\n{name}\n  9\n$CUSTOMPROPERTY\n  1\n{value}\n"


def numbered(items: Iterable[T]) -> Iterator[tuple[int, T]]:
    """Entities, or whatever becomes them, with their handles."""
    return enumerate(items, FIRST_HANDLE)


@cache
def _frame() -> tuple[str, str]:
    """The frame before and after its entities."""
    head, mark, tail = FRAME.read_text("utf-8").partition("  2\nENTITIES\n")
    return head + mark, tail


def _entities_of(shapes: Sequence[Shape]) -> Iterator[str]:
    points = [entity_points(shape) for shape in shapes]
    values, ends = np.concatenate(points).ravel().tolist(), [0, *accumulate(2 * len(own) for own in points)]
    for (number, shape), (start, end) in zip(numbered(shapes), pairwise(ends), strict=True):
        yield entity_form(shape) % (number, *values[start:end])


def entity_form(shape: Shape) -> str:
    """One entity's tags, group code and value on a line each (Autodesk DXF reference).

    To be filled in with %: its handle, then x and y of each of its points; all else is as the shape has it.
    """
    if isinstance(shape, Circle):
        circle_tags = f"100\nAcDbCircle\n 10\n%r\n 20\n%r\n 30\n0.0\n 40\n{shape.radius!r}\n"
        return _common("CIRCLE", shape.layer) + circle_tags
    return _polyline(shape.layer, tuple(shape.vertices[:, 2].tolist()), shape.closed, shape.name)


def entity_points(shape: Shape) -> FloatArray:
    """The points (k, 2) of a shape that its form asks for."""
    return np.array([shape.centre]) if isinstance(shape, Circle) else shape.vertices[:, :2]


def _common(kind: str, layer: Layer) -> str:
    return f"  0\n{kind}\n  5\n%X\n330\n{MODEL_SPACE}\n100\nAcDbEntity\n  8\n{layer}\n"


@lru_cache(maxsize=4096)
def _polyline(layer: Layer, bulges: tuple[float, ...], closed: bool, name: str) -> str:
    """Most are strokes of letters, and so the same but for their points."""
    start = f"100\nAcDbPolyline\n 90\n{len(bulges)}\n 70\n{CLOSED if closed else 0}\n"
    points = "".join([" 10\n%r\n 20\n%r\n" + (f" 42\n{bulge!r}\n" if bulge else "") for bulge in bulges])
    shown = name.replace("%", "%%")
    named = f"1001\n{APPLICATION}\n1000\n{shown}\n" if name else ""
    return _common("LWPOLYLINE", layer) + start + points + named


def read_dxf(target: Target, kerf: float = 0.0) -> ReadBack:
    """Read a part's contours, outline first, from a DXF as written here, taking the kerf back out.

    A DXF has no thickness. Raises ValueError when the file holds no closed contour.
    """
    found = contours_in(get(target))
    if not found:
        raise ValueError("the DXF holds no closed contour on its cut, drill or section layer")
    return _taken_back(found, kerf)


def unwritten_dxf(part: Part, kerf: float = 0.0) -> ReadBack:
    """What `read_dxf` finds in a part's file, without one: its text keeps every digit. Raises what `write_dxf` does."""
    holes = (widened(hole.ccw(), -kerf / 2) for hole in part.holes)
    drawn = (widened(part.outline.ccw(), kerf / 2), *holes)
    return _taken_back([_as_read(contour) for contour in drawn], kerf)


def _as_read(contour: Contour) -> Contour:
    shape = round_shape("cut", contour)
    return circle(shape.centre, shape.radius) if shape else contour


def _taken_back(drawn: Iterable[Contour], kerf: float) -> ReadBack:
    """As they are cut, the outline first."""
    outline, *holes = sorted(drawn, key=lambda contour: -contour.area)
    exact = [widened(outline, -kerf / 2), *(widened(hole, kerf / 2).cw() for hole in holes)]
    return ReadBack(tuple(exact), None, KERF_TOLERANCE if kerf else TOLERANCE)


def contours_in(content: bytes) -> list[Contour]:
    """The closed contours of a DXF as written here, as drawn and in its order, counter-clockwise."""
    return [found for tags in _entities(content.decode("utf-8")) if (found := _contour(tags)) is not None]


def _entities(text: str) -> Iterator[Tags]:
    """The tags (group code, value) of each entity on a contour layer; the text form is one pair every two lines."""
    body = text.partition("  2\nENTITIES\n")[2].partition("  0\nENDSEC\n")[0]
    for entity in f"\n{body}".split("\n  0\n")[1:]:
        if entity.partition("\n  8\n")[2].partition("\n")[0] in CONTOUR_LAYERS:
            lines = ["0", *entity.splitlines()]
            yield list(zip((int(code) for code in lines[::2]), lines[1::2], strict=True))


def _contour(tags: Tags) -> Contour | None:
    fields = dict(tags)
    if fields[0] == "CIRCLE":
        return circle((float(fields[10]), float(fields[20])), float(fields[40]))
    if fields[0] == "LWPOLYLINE" and int(fields[70]) & CLOSED:
        return Contour(_rows(tags)).ccw()
    return None


def _rows(tags: Tags) -> FloatArray:
    """Return the vertices (n, 3): codes 10, 20 and, where an arc begins, 42."""
    rows: list[list[float]] = []
    for code, value in tags:
        if code == 10:
            rows.append([float(value), 0.0, 0.0])
        elif code in (20, 42) and rows:
            rows[-1][1 if code == 20 else 2] = float(value)
    return np.array(rows)
