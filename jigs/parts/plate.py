"""Plates of sheet: tabs and slots, and a plate as it grows, its holes and edges with the probes that measure them.

Its lettering is clear of all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import tan
from typing import TypedDict, Unpack

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, circle, polygon
from geometry.readback.free_edge import FreeEdge
from jigs.parts.part import Dimension, Mark, May, Part, Point, Words
from jigs.parts.places import as_lines, hang_hole, lettered
from jigs.parts.probes import EdgeAngle, EdgeGap, EdgeLength, Extent, HoleDiameter
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


class Kind(TypedDict, total=False):
    """What else `cut_part` takes."""

    quantity: int
    stack: int
    thickness: float
    material: str
    making: Sequence[str]
    free: Sequence[FreeEdge]
    loose: Sequence[Point]
    works_to: float


class Plate:
    """Begun with its outline; `part` ends it. Lettering keeps clear of what is there when it is written."""

    def __init__(self, plan: Plan, outline: Contour, holes: Iterable[Contour] = ()) -> None:
        self.plan, self.outline = plan, outline
        self.holes: list[Contour] = [*holes]
        self.marks: list[Mark] = []  # lines, and lettering that has its place
        self.words: list[Words] = []
        self.dimensions: list[Dimension] = []

    def hole(self, middle: Point, diameter: float, name: str = "") -> None:
        """A round hole, measured where it has a name."""
        self.holes.append(circle(middle, diameter / 2))
        if name:
            self.dimensions.append(Dimension(name, diameter, HoleDiameter(middle)))

    def hang(self, near: Point) -> None:
        """A hole to hang it by, at the free place nearest to a point."""
        self.holes.append(hang_hole(self.outline, self.holes, near))

    def edge(self, name: str, length: float, at: Point, may: May = "") -> None:
        """The length of the edge at a point."""
        self.dimensions.append(Dimension(name, length, EdgeLength(at), may))

    def gap(self, name: str, width: float, first: Point, second: Point, may: May = "") -> None:
        """Between the edges at two points."""
        self.dimensions.append(Dimension(name, width, EdgeGap(first, second), may))

    def angle(self, name: str, degrees: float, first: Point, second: Point) -> None:
        """Between the edges at two points."""
        self.dimensions.append(Dimension(name, degrees, EdgeAngle(first, second)))

    def letter(
        self, *text: str, near: Point | None = None, titled: bool = True, instead: Sequence[Sequence[str]] = ()
    ) -> None:  # fmt: skip
        """Lines of text, under the job's title; near a point, the middle unless given. `instead` are what is left of
        all that, where there is no room for it."""
        title = (self.plan.job.title.upper(),) if titled else ()
        taken, whole = as_lines(self.marks), (*title, *text)
        self.words += lettered(self.outline, self.holes, taken, whole, near, instead=instead)

    def part(self, name: str, purpose: str, notes: Sequence[str] = (), **more: Unpack[Kind]) -> Part:
        """The part, its overall size added."""
        marks = [*self.marks, *self.words]
        return cut_part(
            self.plan, name, purpose, self.outline, self.holes, marks, self.dimensions, notes, **more
        )  # fmt: skip
