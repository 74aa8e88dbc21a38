"""The finished work in what it is turned from: the picture at the front of the book."""

from __future__ import annotations

from math import pi

from geometry.plane.contour import regular_polygon
from geometry.plane.edges import on_circle
from jigs.figures.figure import Figure
from jigs.figures.items import Dimension, Item, area, disc, line, moved, tube
from jigs.figures.told import Show, by_rule
from jigs.figures.turning.vessel import both
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan

ID = "job"
PAPER = (165.0, 100.0)  # mm
TUBE = 0.6  # of the torus's diameter, the tube's section as drawn


def job_figure(plan: Plan, show: Show) -> Figure:
    """A torus from above and its tube cut through; a vessel cut through its middle."""
    return by_form(plan, torus=lambda own: _torus(own, show), vessel=lambda own: _vessel(own, show))


def _torus(plan: TorusPlan, show: Show) -> Figure:
    form, count = plan.job.form, plan.blank.wedge_rings
    rim, hole = form.outer_diameter / 2, form.hole_diameter / 2
    turns = [pi * (2 * k + 1) / count for k in range(count)]
    section, across = _tube(plan, show)
    times = TUBE * 2 * rim / across
    return Figure(
        ID,
        plan.job.title,
        f"The ring from above, {by_rule(show, 2 * rim)} across, and its tube cut through in the glued-up blank.",
        (
            disc((0.0, 0.0), rim, fill="wood"),
            disc((0.0, 0.0), hole, fill="paper"),
            *(line(on_circle(hole, turn), on_circle(rim, turn)) for turn in turns),
            Dimension((-rim, 0.0), (rim, 0.0), by_rule(show, 2 * rim), -6.0, -rim),
            Dimension((-hole, 0.0), (hole, 0.0), by_rule(show, 2 * hole), 0.0),
            *moved(section, rim + 0.75 * times * across, 0.0, times),
        ),
        *PAPER,
    )


def _tube(plan: TorusPlan, show: Show) -> tuple[tuple[Item, ...], float]:
    """The tube cut through, its centre the origin; and how much room it takes across."""
    blank, own = plan.blank, plan.job.form.tube
    r = own.wide
    middle = (blank.centre - plan.job.form.major_radius, 0.0)
    across = 2 * max(blank.apothem, blank.half_width) + 2 * abs(middle[0])
    items = (
        area(regular_polygon(blank.segments, blank.apothem, -pi / 2, middle), fill="waste"),
        tube(own, fill="wood"),
        area(regular_polygon(blank.segments, blank.core_apothem, -pi / 2, middle), fill="paper"),
        Dimension((-r, 0.0), (r, 0.0), by_rule(show, 2 * r), -6.0, -across / 2),
    )
    if own.round:
        return items, across
    tall = Dimension((0.0, -own.high), (0.0, own.high), by_rule(show, 2 * own.high), -6.0, -across / 2)
    return (*items, tall), across


def _vessel(plan: VesselPlan, show: Show) -> Figure:
    stack, section = plan.stack, plan.section
    widest = section.contour.bounds[2]
    wood = [
        area(side, fill="waste") for layer in stack.layers for side in both(plan.stack.cut_through(layer))
    ]
    return Figure(
        ID,
        plan.job.title,
        f"The {plan.job.called.whole} cut through its middle, {by_rule(show, section.height)} high, in the stack that "
        "it is turned from.",
        (
            *wood,
            *(area(side, fill="wood") for side in both(section.contour)),
            Dimension((-widest, 0.0), (widest, 0.0), by_rule(show, 2 * widest), -6.0, stack.bottom),
            Dimension((widest, 0.0), (widest, section.height), by_rule(show, section.height), -6.0,
                      widest - stack.largest_radius),
        ),
        *PAPER,
    )  # fmt: skip
