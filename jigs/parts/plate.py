"""A plate of sheet as it grows: holes and edges with the probes that measure them, lettering clear of all of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypedDict, Unpack

from geometry.plane.contour import Contour, circle
from geometry.readback.alike import FreeEdge
from jigs.parts.part import (
    Dimension,
    EdgeAngle,
    EdgeGap,
    EdgeLength,
    HoleDiameter,
    Mark,
    May,
    Part,
    Point,
    Words,
)
from jigs.parts.places import as_lines, hang_hole, lettered
from jigs.parts.sheet import cut_part
from jigs.plans.plan import Plan


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
