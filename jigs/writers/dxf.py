"""DXF R2010 in millimetres: closed polylines with true arcs, circles, strokes; and its contours read back.

All that is not an entity is the same in every file: `frame.dxf`, made by ezdxf (`jigs.writers.dxf_frame`) and
shipped, so that a make need not load a drawing library to write a few tags a line.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np

from geometry.arcs import FloatArray
from geometry.contour import Contour, circle
from jigs.part import Part
from jigs.writers.drawing import Circle, Polyline, Shape, drawing, widened
from jigs.writers.readback import ReadBack
from jigs.writers.target import Target, get, put

FRAME = Path(__file__).with_name("frame.dxf")
MODEL_SPACE = "17"  # handle of its block record in the frame
FIRST_HANDLE = 0x1000  # above the frame's own, below its $HANDSEED
APPLICATION = "JIGS"  # under which a marked line carries its name, as extended data
CLOSED = 1  # flag of a polyline
TOLERANCE = 1e-4  # mm; what the file should keep of the exact contours
KERF_TOLERANCE = 5e-3  # mm; with the kerf taken back out: corners beside arcs are mitred along their tangents
CONTOUR_LAYERS = {"cut", "drill", "section"}

Tags = list[tuple[int, str]]  # group code and value


def write_dxf(part: Part, target: Target, kerf: float = 0.0) -> None:
    """Write a part's drawing, grown outward and its holes inward by half of `kerf` (mm).

    Layers say what the machine does: engrave, drill (round holes), cut; note is for people, section is the
    section of a turned part. Raises ValueError where the kerf leaves nothing of a contour.
    """
    head, tail = _frame()
    entities = [_entity(shape, number) for number, shape in enumerate(drawing(part, kerf), FIRST_HANDLE)]
    put("".join([head, *entities, tail]).encode(), target)


@cache
def _frame() -> tuple[str, str]:
    """The frame before and after its entities."""
    head, mark, tail = FRAME.read_text("utf-8").partition("  2\nENTITIES\n")
    return head + mark, tail


def _entity(shape: Shape, number: int) -> str:
    """One entity's tags, group code and value on a line each (Autodesk DXF reference)."""
    kind = "CIRCLE" if isinstance(shape, Circle) else "LWPOLYLINE"
    common = f"  0\n{kind}\n  5\n{number:X}\n330\n{MODEL_SPACE}\n100\nAcDbEntity\n  8\n{shape.layer}\n"
    return common + (_circle(shape) if isinstance(shape, Circle) else _polyline(shape))


def _circle(shape: Circle) -> str:
    x, y = shape.centre
    return f"100\nAcDbCircle\n 10\n{x!r}\n 20\n{y!r}\n 30\n0.0\n 40\n{shape.radius!r}\n"


def _polyline(shape: Polyline) -> str:
    rows = shape.vertices.tolist()
    start = f"100\nAcDbPolyline\n 90\n{len(rows)}\n 70\n{CLOSED if shape.closed else 0}\n"
    points = "".join(f" 10\n{x!r}\n 20\n{y!r}\n 42\n{bulge!r}\n" for x, y, bulge in rows)
    named = f"1001\n{APPLICATION}\n1000\n{shape.name}\n" if shape.name else ""
    return start + points + named


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
    return ReadBack(tuple(exact), None, KERF_TOLERANCE if kerf else TOLERANCE)


def _entities(text: str) -> list[Tags]:
    """Return the tags (group code, value) of each entity; the text form is one pair every two lines."""
    body = text.partition("  2\nENTITIES\n")[2].partition("  0\nENDSEC\n")[0].splitlines()
    tags = list(zip((int(code) for code in body[::2]), body[1::2], strict=True))
    starts = [at for at, (code, _) in enumerate(tags) if code == 0]
    return [tags[at:end] for at, end in pairwise([*starts, len(tags)])]


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
