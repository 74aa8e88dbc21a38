"""Turning the tube's corners off: the tube cut through, and one corner larger."""

from __future__ import annotations

from math import cos, pi, sin, tan

from geometry.lathe.roughing import FlatsStep
from geometry.plane.contour import regular_polygon
from geometry.plane.edges import on_circle
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, arc, area, disc, line, moved, polygon
from jigs.figures.told import Show, by_calliper

TIMES = 3.0  # as large is the corner drawn


def corners(step: FlatsStep, number: int, show: Show) -> Figure:
    """One round of them, numbered from 1."""
    r, n = step.radius, step.sides
    whole: list[Item] = [
        area(regular_polygon(n, r, -pi / 2), fill="turned"),
        area(regular_polygon(2 * n, r, -pi / 2), fill="wood"),
        disc((0.0, 0.0), r, stroke="grey"),
    ]
    large = _corner(step, show)
    right = 1.2 * r + TIMES * r * sin(step.half_angle)
    return Figure(
        f"roughing.flats{f'-{number}' if number > 1 else ''}",
        f"Turning {n} corners off the tube, which makes {2 * n} flats",
        f"The hatched corners go. From a corner {by_calliper(show, step.along)} along either side, the new flat lies "
        f"{by_calliper(show, step.depth)} below the corner.",
        (
            *whole,
            *moved(large, right + 4.0, -TIMES * r / cos(step.half_angle) + 0.6 * r, TIMES),
            Callout("tube, cut through", (-0.4 * r, 0.2 * r), "left"),
            Callout(
                "corner, turned off",
                on_circle(r * (1 + 1 / cos(step.half_angle)) / 2, pi - step.half_angle),
                "left",
            ),
        ),
        height=80.0,
    )


def _corner(step: FlatsStep, show: Show) -> tuple[Item, ...]:
    """Its corner up, as large as it is, the tube's centre at the origin."""
    r, a = step.radius, step.half_angle
    top = (0.0, r / cos(a))
    low = [(x * s, y) for s in (-1, 1) for x, y in [_down(top, a, step.along)]]
    far = [(x * s, y) for s in (-1, 1) for x, y in [_down(top, a, r * tan(a))]]
    return (
        polygon([far[0], low[0], low[1], far[1]], fill="wood"),
        polygon([low[0], top, low[1]], fill="turned"),
        arc((0.0, 0.0), r, pi / 2 - a, pi / 2 + a, paint="grey"),
        line((0.0, low[0][1]), (0.0, top[1]), paint="grey"),
        Dimension(top, low[1], by_calliper(show, step.along), 6.0),
        Dimension((low[0][0], low[0][1]), (low[1][0], low[1][1]), by_calliper(show, step.new_flat), -14.0),
        Dimension((low[0][0], low[0][1]), (low[0][0], top[1]), by_calliper(show, step.depth), 12.0),
    )


def _down(top: Point, a: float, along: float) -> Point:
    """Along the right side from the corner."""
    return (top[0] + along * cos(a), top[1] - along * sin(a))
