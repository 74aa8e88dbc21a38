"""Contours and lines as paths of SVG whose arcs every program draws round: cubics of at most 30 degrees.

The arc command of SVG is drawn out of round by some (0.14 mm at a radius of 150); such a cubic is off by less than a
millionth of the radius (with k = 4/3 tan(angle / 4), the usual approximation).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, cos, pi, sin, tan

import numpy as np

from geometry.plane.arcs import FloatArray
from geometry.plane.edges import Edge

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
