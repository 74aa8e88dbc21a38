"""DXF R2010 in millimetres: closed polylines with true arcs, circles, strokes; and its contours read back.

ezdxf makes the document and the entities. All that is not an entity is the same in every file, so it is
written once in a run; the same part then gives the same bytes whatever was written before it.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import numpy as np
from ezdxf._options import options
from ezdxf.entities.circle import Circle as CircleEntity
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import new
from ezdxf.lldxf.tagwriter import TagWriter

from geometry.arcs import FloatArray
from geometry.contour import Contour, circle
from jigs.part import Part
from jigs.writers.drawing import Circle, Shape, drawing, widened
from jigs.writers.readback import ReadBack
from jigs.writers.target import Target, get, put

VERSION = "R2010"
COLOURS = {"cut": 1, "engrave": 5, "drill": 3, "section": 7, "note": 8}  # DXF colour index
MILLIMETRES = 4  # $INSUNITS
METRIC = 1  # $MEASUREMENT; some programs look at this one, others at $INSUNITS
FIRST_HANDLE = 0x1000  # above the document's own
LAST_HANDLE = "FFFFFF"
APPLICATION = "JIGS"  # under which a marked line carries its name, as extended data
TEXT = 1000  # group code of a text in extended data
CLOSED = 1  # flag of a polyline
TOLERANCE = 1e-4  # mm; what the file should keep of the exact contours
CONTOUR_LAYERS = {"cut", "drill", "section"}

Tags = list[tuple[int, str]]  # group code and value


def write_dxf(part: Part, target: Target, kerf: float = 0.0) -> None:
    """Write a part's drawing, grown outward and its holes inward by half of `kerf` (mm).

    Layers say what the machine does: engrave, drill (round holes), cut; note is for people, section is the
    section of a turned part. Raises ValueError where the kerf leaves nothing of a contour.
    """
    frame = _frame()
    body = io.StringIO()
    writer = TagWriter(body, dxfversion=frame.version)
    for number, shape in enumerate(drawing(part, kerf), FIRST_HANDLE):
        _entity(shape, f"{number:X}", frame.owner).export_dxf(writer)
    put((frame.head + body.getvalue() + frame.tail).encode(), target)


@dataclass(frozen=True)
class _Frame:
    """An empty document's text before and after its entities, and the handle of what owns them."""

    head: str
    tail: str
    owner: str
    version: str


@cache
def _frame() -> _Frame:
    with _fixed_metadata():
        document = new(VERSION, units=MILLIMETRES)
        document.header["$MEASUREMENT"] = METRIC
        for name, colour in COLOURS.items():
            document.layers.add(name, color=colour)
        document.appids.add(APPLICATION)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in an order that changes by the run
            document.classes.add_class(kind)
        document.entitydb.handles.reset(LAST_HANDLE)
        text = io.StringIO()
        document.write(text)
    head, mark, tail = text.getvalue().partition("  2\nENTITIES\n")
    return _Frame(head + mark, tail, document.modelspace().layout_key, document.dxfversion)


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Keep dates and random ids out of a file."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _entity(shape: Shape, handle: str, owner: str) -> CircleEntity | LWPolyline:
    style: dict[str, object] = {"layer": shape.layer}
    if isinstance(shape, Circle):
        style |= {"center": shape.centre, "radius": shape.radius}
        return CircleEntity.new(handle, owner, style)
    entity = LWPolyline.new(handle, owner, style)
    entity.set_points(shape.vertices.tolist(), format="xyb")
    entity.closed = shape.closed
    if shape.name:
        entity.set_xdata(APPLICATION, [(TEXT, shape.name)])
    return entity


def read_dxf(target: Target, kerf: float = 0.0) -> ReadBack:
    """Read a part's contours, outline first, from a DXF as written here, taking the kerf back out.

    A DXF has no thickness. Raises ValueError when the file holds no closed contour.
    """
    entities = _entities(get(target).decode("utf-8"))
    contours = [found for entity in entities if (found := _contour(entity)) is not None]
    if not contours:
        raise ValueError("the DXF holds no closed contour on its cut, drill or section layer")
    outline, *holes = sorted(contours, key=lambda contour: -contour.area)
    exact = [widened(outline, -kerf / 2), *(widened(hole, kerf / 2).cw() for hole in holes)]
    return ReadBack(tuple(exact), None, TOLERANCE)


def _entities(text: str) -> list[Tags]:
    """Return the tags (group code, value) of each entity; the text form is one pair every two lines."""
    lines = text.splitlines()
    tags = list(zip((int(code) for code in lines[::2]), lines[1::2], strict=True))
    first = tags.index((2, "ENTITIES")) + 1
    last = tags.index((0, "ENDSEC"), first)
    starts = [at for at in range(first, last) if tags[at][0] == 0]
    return [tags[at:end] for at, end in pairwise([*starts, last])]


def _contour(tags: Tags) -> Contour | None:
    fields = dict(tags)
    if fields.get(8) not in CONTOUR_LAYERS:
        return None
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
