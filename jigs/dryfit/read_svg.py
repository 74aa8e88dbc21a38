"""An SVG as svgelements reads it."""

from __future__ import annotations

from math import tan
from pathlib import Path
from xml.etree.ElementTree import ParseError

import numpy as np
from svgelements import SVG, Arc, Circle, Close, Group, Line
from svgelements import Path as Curve

from geometry.plane.contour import Contour, circle
from geometry.plane.edges import FloatArray
from jigs.dryfit.model import Drawn, Drill
from jigs.words.file_names import what_of
from jigs.words.findings import Finding, Refused

PIXELS = 25.4  # an inch, so that one is a millimetre
SAME = 1e-6  # mm


def read_svg(file: Path) -> Drawn:
    """A drawing on paper, y up. Its lines have no names. Raises Refused where it cannot be read."""
    try:
        document = SVG.parse(str(file), ppi=PIXELS)
    except (OSError, ParseError, ValueError) as error:
        raise Refused([Finding("unreadable", f"{file}: {error}", "make the job again")]) from error
    corner = (float(document.viewbox.x), float(document.viewbox.y))
    layers = {group.id: list(group) for group in document if isinstance(group, Group)}
    outlines = layers.get("cut", [])
    cut = [_ring(e, corner) if isinstance(e, Circle) else _rows(e, corner) for e in outlines]
    contours = sorted((Contour(rows) for rows in cut), key=lambda contour: -abs(contour.area))
    if not contours:
        raise Refused([Finding("unreadable", f"{file} has no closed outline", "make the job again")])
    drills = [_drill(e, corner) for e in layers.get("drill", []) if isinstance(e, Circle)]
    marks = [_rows(e, corner)[:, :2] for e in layers.get("engrave", [])]
    engraved = np.concatenate(marks) if marks else np.zeros((0, 2))
    return Drawn(what_of(file), contours[0].ccw(), tuple(contours[1:]), tuple(drills), {}, engraved)


def _drill(element: Circle, corner: tuple[float, float]) -> Drill:
    return Drill((float(element.cx) + corner[0], -float(element.cy) - corner[1]), 2 * float(element.rx))


def _ring(element: Circle, corner: tuple[float, float]) -> FloatArray:
    drill = _drill(element, corner)
    return circle(drill.centre, drill.diameter / 2).vertices


def _rows(element: Curve, corner: tuple[float, float]) -> FloatArray:
    """x, y and bulge (k, 3) of every edge's start, and of an open curve's end."""
    rows = [
        (s.start.x, s.start.y, -tan(s.sweep / 4) if isinstance(s, Arc) else 0.0)
        for s in element
        if isinstance(s, Line | Arc | Close)
    ]
    if not isinstance(element[-1], Close):
        rows.append((element[-1].end.x, element[-1].end.y, 0.0))
    elif np.hypot(rows[-1][0] - rows[0][0], rows[-1][1] - rows[0][1]) < SAME:
        rows.pop()  # the closing edge has no length
    x, y, bulge = np.array(rows, dtype=np.float64).T
    return np.column_stack([x + corner[0], -y - corner[1], bulge])
