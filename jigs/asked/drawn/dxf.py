"""The lines of a DXF drawing, by ezdxf, which only a job loads whose drawing is not plain (`plain_dxf`)."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from geometry.plane.edges import FloatArray
from jigs.asked.drawn.bezier import Bezier, bspline_pieces
from jigs.asked.drawn.plain_dxf import Polyline as PlainPolyline
from jigs.asked.drawn.plain_dxf import Spline as PlainSpline
from jigs.asked.drawn.plain_dxf import plain_drawing
from jigs.asked.drawn.strokes import Part, Sheet, Stroke, closed, judged, unit_disagrees, unit_unknown
from jigs.asked.key import Wrong
from jigs.words.lengths import MM_PER_INCH, Unit, parse_length

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.arc import Arc
    from ezdxf.entities.dxfgfx import DXFGraphic
    from ezdxf.entities.ellipse import Ellipse
    from ezdxf.entities.line import Line
    from ezdxf.entities.lwpolyline import LWPolyline
    from ezdxf.entities.polyline import Polyline
    from ezdxf.entities.spline import Spline
    from ezdxf.math import BSpline, Vec3

# $INSUNITS (DXF reference, HEADER): name and mm
UNITS: dict[int, tuple[str, float]] = {
    1: ("in", MM_PER_INCH),
    2: ("ft", 12.0 * MM_PER_INCH),
    4: ("mm", 1.0),
    5: ("cm", 10.0),
    6: ("m", 1000.0),
    14: ("dm", 100.0),
}
KINDS = ("LINE", "ARC", "LWPOLYLINE", "POLYLINE", "SPLINE", "ELLIPSE")
_FLAT = 1e-6  # mm; heights above the paper that differ by no more are one


def read_dxf(path: Path, unit: Unit | None) -> Sheet:
    """Every line in the model space, in mm. `unit` is the job's, for a drawing that has none.

    Raises Wrong where its unit is unknown or not the job's, and whatever ezdxf does where the file is no DXF.
    """
    plain = plain_drawing(path.read_bytes())
    if plain is None:
        return read_any_dxf(path, unit)
    name, mm, said = _unit(plain[0], unit)
    return Sheet(tuple(_plain(line, mm) for line in plain[1]), mm, said, name in ("in", "ft"), ())


def read_any_dxf(path: Path, unit: Unit | None) -> Sheet:
    """The same of a drawing that need not be plain."""
    import logging

    from ezdxf.filemanagement import readfile

    logging.getLogger("ezdxf").disabled = True  # else what it mends in a file goes to the standard error
    document = readfile(path)
    name, mm, said = _unit(_insunits(path, document), unit)
    entities = list(document.modelspace())
    strokes = [_stroke(entity, mm) for entity in entities if entity.dxftype() in KINDS]
    others = [(entity.dxf.layer, entity.dxftype()) for entity in entities if entity.dxftype() not in KINDS]
    return Sheet(tuple(strokes), mm, said, name in ("in", "ft"), tuple(others))


def _insunits(path: Path, document: Drawing) -> int:
    """0 where the file names none: to a file without a header ezdxf gives one of its own, in metres."""
    return int(document.header.get("$INSUNITS", 0)) if b"$INSUNITS" in path.read_bytes() else 0


def _unit(code: int, unit: Unit | None) -> tuple[str, float, str]:
    """Name, mm and words for the unit of a drawing with this $INSUNITS, for a job that gives `unit`."""
    if code not in UNITS and code != 0:
        message = f"the drawing's unit is not one to turn by: its $INSUNITS is {code}"
        raise Wrong("no-drawing-unit", message, "Save it in mm or inches")
    if code == 0 and unit is None:
        raise unit_unknown("its $INSUNITS is 0 or missing")
    if code == 0 and unit is not None:
        return unit, parse_length(1.0, unit), f"{unit} (from the job; the drawing names none)"
    name, mm = UNITS[code]
    if unit is not None and parse_length(1.0, unit) != mm:
        raise unit_disagrees(f"{name} ($INSUNITS {code})", unit)
    return name, mm, f"{name} (the drawing's $INSUNITS is {code})"


def _plain(line: PlainPolyline | PlainSpline, mm: float) -> Stroke:
    if isinstance(line, PlainPolyline):
        return _judged(line.layer, "LWPOLYLINE", lambda: [_bulged(line.rows, 1.0, mm)], line.closed)
    curve = (line.points, line.weights, line.knots, line.degree)
    return _judged(line.layer, "SPLINE", lambda: _pieces("SPLINE", *curve, mm), line.closed)


def _stroke(entity: DXFGraphic, mm: float) -> Stroke:
    kind = entity.dxftype()
    return _judged(entity.dxf.layer, kind, lambda: _READERS[kind](entity, mm), _says_closed(entity))


def _judged(layer: str, kind: str, read: Callable[[], list[Part]], loops: bool) -> Stroke:
    try:
        return judged((layer,), kind, read(), loops)
    except Wrong as wrong:
        fault = wrong
    except (ValueError, LookupError, ArithmeticError) as error:
        fault = Wrong("broken-entity", f"the {kind} is damaged: {error}", "Draw it anew")
    return Stroke((layer,), kind, (), fault)


def _says_closed(entity: DXFGraphic) -> bool:
    return bool(getattr(entity, "closed", False) or getattr(entity, "is_closed", False))


def _line(entity: Line, mm: float) -> list[Part]:
    start, end = (mm * np.array(point.xyz) for point in (entity.dxf.start, entity.dxf.end))
    _check_flat("LINE", np.array((start[2], end[2])))
    return [np.array(((start[0], start[1], 0.0), (end[0], end[1], 0.0)))]


def _arc(entity: Arc, mm: float) -> list[Part]:
    side = _side("ARC", entity.dxf.extrusion)
    sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360.0)
    if sweep == 0.0:
        raise closed("ARC")
    angles = math.radians(entity.dxf.start_angle) + np.array((0.0, sweep))
    x = side * (entity.dxf.center.x + entity.dxf.radius * np.cos(angles))
    y = entity.dxf.center.y + entity.dxf.radius * np.sin(angles)
    return [np.column_stack((mm * x, mm * y, (side * math.tan(sweep / 4.0), 0.0)))]


def _lwpolyline(entity: LWPolyline, mm: float) -> list[Part]:
    side = _side("LWPOLYLINE", entity.dxf.extrusion)
    return [_bulged(np.array(entity.get_points("xyb"), dtype=np.float64), side, mm)]


def _polyline(entity: Polyline, mm: float) -> list[Part]:
    if not entity.is_2d_polyline or entity.dxf.flags & 4:  # 4: its vertices are a spline's frame and points
        message = "the POLYLINE is not a plain one in the plane"
        raise Wrong("not-flat", message, "Draw it as a LWPOLYLINE or SPLINE")
    side = _side("POLYLINE", entity.dxf.extrusion)
    rows = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
    return [_bulged(np.array(rows, dtype=np.float64), side, mm)]


def _bulged(rows: FloatArray, side: float, mm: float) -> FloatArray:
    if len(rows) < 2:
        raise ValueError("it has fewer than two vertices")
    rows[-1, 2] = 0.0
    return np.asarray(rows * (side * mm, mm, side))


def _spline(entity: Spline, mm: float) -> list[Part]:
    if not entity.control_point_count() and entity.fit_point_count() < 2:
        raise ValueError("it has no points")
    return _curve("SPLINE", entity.construction_tool(), mm)


def _ellipse(entity: Ellipse, mm: float) -> list[Part]:
    from ezdxf.math import BSpline

    return _curve("ELLIPSE", BSpline.from_ellipse(entity.construction_tool()), mm)


def _curve(kind: str, spline: BSpline, mm: float) -> list[Part]:
    points = np.array([point.xyz for point in spline.control_points])
    weights = np.array(spline.weights() if spline.is_rational else np.ones(len(points)), dtype=np.float64)
    return _pieces(kind, points, weights, np.array(spline.knots(), dtype=np.float64), spline.degree, mm)


def _pieces(
    kind: str, points: FloatArray, weights: FloatArray, knots: FloatArray, degree: int, mm: float
) -> list[Part]:
    points = mm * points
    _check_flat(kind, points[:, 2])
    control = np.column_stack((points[:, :2] * weights[:, None], weights))
    pieces: list[Bezier] = bspline_pieces(control, knots, degree)
    return [*pieces]


def _side(kind: str, extrusion: Vec3) -> float:
    """+1 drawn seen from above, -1 from below: then x runs the other way (DXF arbitrary axis algorithm)."""
    x, y, z = extrusion.normalize().xyz
    if math.hypot(x, y) > 1e-9:
        raise _not_flat(kind)
    return math.copysign(1.0, z)


def _check_flat(kind: str, heights: FloatArray) -> None:
    if float(np.ptp(heights)) > _FLAT:
        raise _not_flat(kind)


def _not_flat(kind: str) -> Wrong:
    message = f"the {kind} does not lie in the drawing's XY plane"
    return Wrong("not-flat", message, "Draw the profile in the XY plane")


_READERS: dict[str, Callable[[Any, float], list[Part]]] = {
    "LINE": _line,
    "ARC": _arc,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "SPLINE": _spline,
    "ELLIPSE": _ellipse,
}
