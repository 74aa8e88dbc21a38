"""Marked lines that stop short of the holes they would run into."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from geometry.plane.contour import Contour
from jigs.parts.part import Line, Point

STEP = 0.5  # mm, along the line
CLEAR = 1.0  # of a line from a hole
LEAST = 3.0  # length of what is still worth marking


def broken(line: Line, holes: Sequence[Contour]) -> list[Line]:
    """The pieces of a straight line that lie clear of every hole's bounding box."""
    (x0, y0), (x1, y1) = line.points
    length = hypot(x1 - x0, y1 - y0)
    count = max(2, round(length / STEP))
    places = [(x0 + (x1 - x0) * i / count, y0 + (y1 - y0) * i / count) for i in range(count + 1)]
    boxes = [box for hole in holes if _beside(line, box := hole.bounds)]
    pieces: list[list[Point]] = [[]]
    for place in places:
        if any(_inside(place, box) for box in boxes):
            pieces.append([])
        else:
            pieces[-1].append(place)
    ends = [(piece[0], piece[-1]) for piece in pieces if piece]
    return [Line((a, b), line.name) for a, b in ends if hypot(b[0] - a[0], b[1] - a[1]) >= LEAST]


def _beside(line: Line, box: tuple[float, float, float, float]) -> bool:
    """Whether a line's own box comes near another."""
    (ax, ay), (bx, by), (x0, y0, x1, y1) = *line.points, box
    across = min(ax, bx) <= x1 + CLEAR and x0 - CLEAR <= max(ax, bx)
    return across and min(ay, by) <= y1 + CLEAR and y0 - CLEAR <= max(ay, by)


def _inside(place: Point, box: tuple[float, float, float, float]) -> bool:
    x0, y0, x1, y1 = box
    return x0 - CLEAR <= place[0] <= x1 + CLEAR and y0 - CLEAR <= place[1] <= y1 + CLEAR
