"""A DXF as ezdxf reads it."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import numpy as np
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.math import Vec3

from geometry.arcs import FloatArray, Point
from geometry.contour import Contour
from jigs.dryfit.plates import Drawn, Drill
from jigs.findings import Finding, Refused

UP = Vec3(0, 0, 1)
BELOW = "it is drawn as seen from below: another program has mirrored it"
MILLIMETRES = 4  # $INSUNITS, DXF reference


def read_dxf(file: Path) -> Drawn:
    """A drawing as written, the cutter's kerf still in it. Raises Refused where it cannot be read."""
    try:
        document = ezdxf.readfile(file)  # type: ignore[attr-defined]
    except (OSError, ezdxf.DXFError) as error:  # type: ignore[attr-defined]
        raise unreadable(file, str(error)) from error
    check_unit(file, document.header.get("$INSUNITS"))
    space = document.modelspace()
    if any(entity.dxf.get("extrusion", UP).z < 0 for entity in space.query("LWPOLYLINE CIRCLE")):
        raise unreadable(file, BELOW)
    lines = [entity for entity in space.query("LWPOLYLINE") if isinstance(entity, LWPolyline)]
    closed = [_contour(e) for e in lines if e.closed and e.dxf.layer in ("cut", "section")]
    closed.sort(key=lambda contour: -abs(contour.area))
    circles = [
        Drill((e.dxf.center.x, e.dxf.center.y), 2 * e.dxf.radius)
        for e in space.query("CIRCLE")
        if e.dxf.layer == "drill"
    ]
    if not closed:
        raise unreadable(file, "no closed outline")
    return Drawn(
        file.stem, closed[0].ccw(), tuple(closed[1:]), tuple(circles), _named_lines(lines), _engraved(lines)
    )


def unreadable(file: Path, why: str) -> Refused:
    return Refused([Finding("unreadable", f"{file}: {why}", "make the job again")])


def check_unit(file: Path, unit: object) -> None:
    """Raises Refused unless the drawing says that it is in millimetres."""
    if unit != MILLIMETRES:
        raise unreadable(file, "it does not say that it is in millimetres")


def _engraved(entities: list[LWPolyline]) -> FloatArray:
    points = [point for e in entities if e.dxf.layer == "engrave" for point in e.get_points("xy")]
    return np.array(points, dtype=np.float64).reshape(-1, 2)


def _contour(entity: LWPolyline) -> Contour:
    return Contour(np.array([tuple(row) for row in entity.get_points("xyb")], dtype=np.float64))


def _named_lines(entities: list[LWPolyline]) -> dict[str, FloatArray]:
    found: dict[str, list[Point]] = {}
    for entity in entities:
        if entity.has_xdata("JIGS"):
            name = entity.get_xdata("JIGS")[0].value
            found.setdefault(name, []).extend((float(x), float(y)) for x, y in entity.get_points("xy"))
    return {name: np.array(points) for name, points in found.items()}
