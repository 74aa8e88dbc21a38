"""Wedge rings dry in the check corner, from above: its corner is the torus axis."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, sin

from jigs.figures.figure import Callout, Figure, Item, Point
from jigs.figures.shapes import area, polygon
from jigs.figures.told import Show, angle, named
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan


def check_corner(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """As many as must fill it."""
    blank, check = plan.blank, plan.check
    w = blank.half_wedge
    inner, outer = blank.inner_radius / cos(w), blank.swing_radius

    def at(radius: float, k: int) -> Point:
        return (radius * cos(2 * k * w), radius * sin(2 * k * w))

    rings: list[Item] = [
        polygon([at(inner, k), at(outer, k), at(outer, k + 1), at(inner, k + 1)], fill="wood")
        for k in range(check.rings)
    ]
    low, high = at((inner + outer) / 2, 0), at((inner + outer) / 2, check.rings)
    items = (
        area(parts["check-corner"].outline, fill="jig"),
        *rings,
        Callout(named("check corner", "check-corner"), (check.leg * 0.7, -15.0), "right"),
        Callout(f"corner of {angle(show, check.angle)}", (2.0, 2.0), "left"),
        Callout("no light here", high, "left"),
        Callout("nor here", low, "right"),
        Callout("nor at the joints", at((inner + outer) / 2, 1), "right"),
    )
    return Figure(
        "wedge_rings.trial",
        "Wedge rings in the check corner",
        f"{check.rings} wedge rings lie dry in the corner and fill it: no light along either arm or at the joints.",
        items,
        height=105.0,
    )
