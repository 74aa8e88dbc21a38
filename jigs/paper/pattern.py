"""A part as it is drawn on paper: its edges in black, a cross in each round hole, lettering and lines thinner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, cos, pi, sin, tan

import numpy as np

from geometry.plane.arcs import FloatArray
from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from jigs.files.drawing import Circle, closed
from jigs.files.marks import centre_lines
from jigs.files.svg import NAMESPACE
from jigs.parts.part import Part
from jigs.render.pdf.full_size import Pattern
from jigs.words.lengths import Unit, show_length

EDGE, THIN = 0.25, 0.15  # mm, of lines; the middle of a line is the edge
ROOM = 1.0  # round the drawing, for its lines
CROSS = 1.5  # half of a cross in a round hole
OVER = 5.0  # that an axis stands out
DASHES = "6 1.5 1 1.5"


def pattern(part: Part, unit: Unit) -> Pattern:
    """A part's drawing and its caption."""
    x0, y0, x1, y1 = part.outline.bounds
    over = OVER if part.process == "turn" else 0.0
    left, low, right, high = x0 - ROOM, y0 - ROOM - over, x1 + ROOM, y1 + ROOM + over
    size = (right - left, high - low)
    head = (
        f'<svg xmlns="{NAMESPACE}" viewBox="{left:.6f} {-high:.6f} {size[0]:.6f} {size[1]:.6f}" fill="none" '
        f'stroke="#000000" stroke-linejoin="round" stroke-linecap="round">'
    )
    edges = "".join(closed_path(contour.vertices) for contour in (part.outline, *part.holes))
    lines = [line for mark in part.marks for line in centre_lines(mark)]
    lines += [line for hole in part.holes for line in _cross(hole)]
    return Pattern(
        code=part.code,
        name=part.name,
        make=str(part.quantity),
        of=with_thickness(part.material.partition(",")[0], part, unit),
        svg=f"{head}{_path(edges, EDGE)}{_path(open_paths(lines), THIN)}{_axis(part)}</svg>",
        outline=f"{head}{_path(closed_path(part.outline.vertices), size[0] / 60)}</svg>",
        size=size,
    )


def with_thickness(material: str, part: Part, unit: Unit) -> str:
    """What a part is of, and how thick."""
    return f"{material}, {show_length(part.thickness, unit)} thick" if part.thickness else material


def _path(commands: str, width: float, more: str = "") -> str:
    return f'<path d="{commands}" stroke-width="{width:g}"{more}/>' if commands else ""


def _cross(hole: Contour) -> list[FloatArray]:
    circle = closed("drill", hole)
    if not isinstance(circle, Circle):
        return []
    (x, y), far = circle.centre, min(CROSS, circle.radius / 2)
    return [np.array([(x - far, y), (x + far, y)]), np.array([(x, y - far), (x, y + far)])]


def _axis(part: Part) -> str:
    """Of what is turned; it is half a section."""
    if part.process != "turn":
        return ""
    _, low, _, high = part.outline.bounds
    return _path(
        open_paths([np.array([(0.0, low - OVER), (0.0, high + OVER)])]), THIN, f' stroke-dasharray="{DASHES}"'
    )


MOST = pi / 6  # radians in one cubic


def closed_path(vertices: FloatArray) -> str:
    """Of rows (k, 3) of x, y and bulge, y up; in SVG y runs down."""
    rows = vertices.tolist()
    edges = (Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in zip(rows, [*rows[1:], rows[0]], strict=True))
    return f"M{_point(rows[0][:2])}{''.join(command for edge in edges for command in _commands(edge))}Z"


def open_paths(lines: Sequence[FloatArray]) -> str:
    """Of lines of points (k, 2), y up."""
    if not lines:
        return ""
    form = "".join("M%.3f %.3f" + "L%.3f %.3f" * (len(line) - 1) for line in lines)
    return form % tuple((np.concatenate(lines) * (1, -1)).ravel())


def _commands(edge: Edge) -> Iterator[str]:
    if not edge.is_arc:
        yield f"L{_point(edge.end)}"
        return
    count = max(1, ceil(abs(edge.angle) / MOST - 1e-9))  # the flattest arc is still one
    handle = edge.radius * 4 / 3 * abs(tan(edge.angle / count / 4))
    for k in range(count):
        first, last = k / count, (k + 1) / count
        inner = (_along(edge, first, handle), _along(edge, last, -handle), edge.point_at(last))
        yield f"C{' '.join(_point(point) for point in inner)}"


def _along(edge: Edge, t: float, distance: float) -> tuple[float, float]:
    """On the tangent there."""
    (x, y), heading = edge.point_at(t), edge.heading(t)
    return x + distance * cos(heading), y + distance * sin(heading)


def _point(point: Sequence[float]) -> str:
    return f"{point[0]:.3f} {-point[1]:.3f}"
