"""The finished work on the first page of its book: what it looks like, its main sizes, the wood it is turned from."""

from __future__ import annotations

from math import cos, pi, sin, tau

from geometry.contour import Contour, circle, polygon, regular_polygon
from jigs.lengths import show_length
from jigs.paper.page import INK, line, words
from jigs.plan import Plan
from jigs.plan.torus import TorusPlan
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.stack import Layer
from jigs.writers.drawing import Polyline
from jigs.writers.svg import element

WIDE, HIGH = 180.0, 110.0
DRAWN = 86.0  # of either, the larger of a drawing's sides
SIZE = 4.5  # of words
WASTE, WOOD, PAPER = "#ececec", "#bdbdbd", "#ffffff"
TICK = 1.5

Point = tuple[float, float]


def job_picture(plan: Plan) -> str:
    """A torus from above and its tube cut through; a vessel cut through its middle. SVG text."""
    body = _vessel(plan) if plan.kind == "vessel" else _torus(plan)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:g} {HIGH:g}" font-family="sans-serif">'
    )
    return "\n".join([head, *body, "</svg>", ""])


def _torus(plan: TorusPlan) -> list[str]:
    form, blank, unit = plan.job.form, plan.blank, plan.job.unit
    above = _Place((WIDE * 0.27, HIGH / 2 - 3), DRAWN / form.outer_diameter)
    rim, hole = form.outer_diameter / 2, form.hole_diameter / 2
    turns = [tau * (k + 0.5) / blank.wedge_rings for k in range(blank.wedge_rings)]
    across = 2 * max(blank.apothem, blank.half_width) + 2 * abs(blank.centre - form.major_radius)
    tube = _Place((WIDE * 0.78, HIGH / 2 - 3), 0.7 * DRAWN / across)
    middle = (blank.centre - form.major_radius, 0.0)
    return [
        above.filled(circle((0.0, 0.0), rim), WOOD),
        above.filled(circle((0.0, 0.0), hole), PAPER),
        *(above.line(_polar(hole, turn), _polar(rim, turn)) for turn in turns),
        *above.across(-rim, rim, rim, f"{show_length(form.outer_diameter, unit)} across"),
        above.words((0.0, 0.0), f"hole {show_length(form.hole_diameter, unit)}"),
        tube.filled(regular_polygon(blank.segments, blank.apothem, -pi / 2, middle), WASTE),
        tube.filled(circle((0.0, 0.0), form.tube_radius), WOOD),
        tube.filled(regular_polygon(blank.segments, blank.core_apothem, -pi / 2, middle), PAPER),
        *tube.across(
            -form.tube_radius, form.tube_radius, across / 2, f"tube {show_length(2 * form.tube_radius, unit)}"
        ),
    ]


def _vessel(plan: VesselPlan) -> list[str]:
    stack, unit, section = plan.stack, plan.job.unit, plan.section
    scale = min((HIGH - 20.0) / (stack.top - stack.bottom), 0.55 * WIDE / (2 * stack.largest_radius))
    at = _Place((WIDE / 2 - 10.0, HIGH / 2 - 5.0 + scale * (stack.top + stack.bottom) / 2), scale)
    widest = section.contour.bounds[2]
    return [
        *(at.filled(wood, WASTE) for layer in stack.layers for wood in _wood(plan, layer)),
        *(at.filled(side, WOOD) for side in (section.contour, section.contour.mirrored())),
        *at.across(-widest, widest, -stack.bottom, f"{show_length(2 * widest, unit)} across"),
        *at.up(0.0, section.height, stack.largest_radius, f"{show_length(section.height, unit)} high"),
    ]


def _wood(plan: VesselPlan, layer: Layer) -> tuple[Contour, Contour]:
    """A layer cut through, on both sides of the axis."""
    low, high, band = layer.ring.bottom, layer.ring.top, plan.stack.staves
    feet, tops = (layer.ring.core, layer.ring.outer), (layer.ring.core, layer.ring.outer)
    if layer.kind == "staves" and band:
        feet, tops = ((band.inner_at(z), band.outer_at(z)) for z in (low, high))
    side = polygon([(feet[0], low), (feet[1], low), (tops[1], high), (tops[0], high)])
    return side, side.mirrored()


def _polar(radius: float, angle: float) -> Point:
    return radius * cos(angle), radius * sin(angle)


class _Place:
    """Where a drawing lies in the picture: its origin there, and its scale. In the picture y runs down."""

    def __init__(self, origin: Point, scale: float) -> None:
        self.origin, self.scale = origin, scale

    def point(self, x: float, y: float) -> Point:
        return self.origin[0] + self.scale * x, self.origin[1] - self.scale * y

    def filled(self, contour: Contour, colour: str) -> str:
        """`element` turns y over itself."""
        rows = contour.vertices * (self.scale, self.scale, 1.0) + (self.origin[0], -self.origin[1], 0.0)
        shape = element(Polyline("section", rows, True), digits=3)
        return f'<g fill="{colour}" stroke="{INK}" stroke-width="0.3">{shape}</g>'

    def line(self, a: Point, b: Point) -> str:
        return line(self.point(*a), self.point(*b), 0.2)

    def words(self, at: Point, text: str) -> str:
        x, y = self.point(*at)
        return words((x, y + 0.36 * SIZE), text, SIZE, "middle")

    def across(self, x0: float, x1: float, below: float, text: str) -> list[str]:
        """A dimension under the drawing, `below` the origin at the least."""
        (a, y), (b, _) = self.point(x0, -below), self.point(x1, -below)
        y += 4.0
        ends = [line((x, y - TICK), (x, y + TICK)) for x in (a, b)]
        return [line((a, y), (b, y)), *ends, words(((a + b) / 2, y + 1.5 * SIZE), text, SIZE, "middle")]

    def up(self, y0: float, y1: float, beside: float, text: str) -> list[str]:
        """A dimension to the right of the drawing."""
        (x, a), (_, b) = self.point(beside, y0), self.point(beside, y1)
        x += 5.0
        ends = [line((x - TICK, y), (x + TICK, y)) for y in (a, b)]
        return [line((x, a), (x, b)), *ends, words((x + 3.0, (a + b) / 2 + 0.36 * SIZE), text, SIZE)]
