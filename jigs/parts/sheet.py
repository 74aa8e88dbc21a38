"""Parts cut from sheet: the common wrapper, tabs and slots."""

from __future__ import annotations

from collections.abc import Sequence
from math import tan

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, polygon
from geometry.readback.alike import FreeEdge
from jigs.parts.part import Dimension, Extent, Mark, Part, Point, Words
from jigs.plans.plan import Plan

MOVES = 0.025  # mm by which an older sled or wedge may move a ring's middle


def cut_part(
    plan: Plan, name: str, purpose: str, outline: Contour, holes: Sequence[Contour],
    marks: Sequence[Mark | Words], dimensions: Sequence[Dimension] = (), notes: Sequence[str] = (),
    quantity: int = 1, thickness: float | None = None, material: str = "sheet, as measured", stack: int = 1,
    free: Sequence[FreeEdge] = (), loose: Sequence[Point] = (), works_to: float = 0.02,
    making: Sequence[str] = (),
) -> Part:  # fmt: skip
    """A part cut from sheet (the measured one unless `thickness` says otherwise), its overall size added."""
    bounds = outline.bounds
    return Part(
        name=name,
        purpose=purpose,
        process="cut",
        material=material,
        outline=outline.ccw(),
        thickness=plan.job.workshop.boards.sheet if thickness is None else thickness,
        holes=tuple(hole.cw() for hole in holes),
        marks=tuple(mark for mark in marks if not isinstance(mark, Words)),
        words=tuple(mark for mark in marks if isinstance(mark, Words)),
        dimensions=(
            *dimensions,
            Dimension("width", bounds[2] - bounds[0], Extent("x")),
            Dimension("height", bounds[3] - bounds[1], Extent("y")),
        ),
        quantity=quantity,
        making=tuple(making),
        notes=tuple(notes),
        stack=stack,
        free=tuple(free),
        loose=tuple(loose),
        works_to=works_to,
    )


def tab_room(plan: Plan) -> float:
    """mm that a tab may be off the middle of its slot, and still go in."""
    return max(plan.job.workshop.boards.play / 2 - 0.01, 0.02)


def ring_room(half_wedge: float) -> float:
    """mm that an older sled or wedge may be out: over 2 tan(half_wedge) times as far it moves the rings' middles."""
    return min(0.02, MOVES * 2 * tan(half_wedge))


def middle(a: Point, b: Point) -> Point:
    """Half-way between two points."""
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def with_tabs(top: Sequence[Point], starts: Sequence[float], depth: float) -> Contour:
    """Close an outline, given from its right foot over the top to its left foot, with tabs below y = 0."""
    foot: list[Point] = []
    for start in sorted(starts):
        foot += [(start, 0.0), (start, -depth), (start + TAB, -depth), (start + TAB, 0.0)]
    return closed([*foot, *top])


def straight_edge(wide: float, gap: float, relief: float, height: float) -> Contour:
    """A plate whose lower edge, y = 0, runs from `gap` to `wide` on both sides of the middle, relieved between."""
    right = [(gap, relief), (gap, 0.0), (wide, 0.0), (wide, height)]
    return polygon([*((-x, y) for x, y in reversed(right[:-1])), *right, (-wide, height)])


def closed(points: Sequence[Point]) -> Contour:
    """A contour through the points, those that repeat their neighbour left out."""
    return polygon([p for i, p in enumerate(points) if p != points[i - 1]])
