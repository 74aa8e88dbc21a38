"""The gauge for roughing by flats: its edge is the next polygon, twice as many sides as the blank.

Coordinates as for the other gauges: the tube's centre is the origin, x outward, y away from the board.
"""

from __future__ import annotations

from math import cos, degrees, floor, pi, tan

from geometry.lathe.turning import TAIL
from geometry.plane.contour import polygon
from geometry.plane.edges import on_circle
from geometry.records import replace
from jigs.parts.gauges.plate import HANG, MARGIN, gauge_panel, hang_hole, printed_gauge
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.probes import EdgeAngle, EdgeGap, EdgeLength
from jigs.plans.torus import TorusPlan

TIP = 4.0  # width of the tail's end


def flats_gauge(plan: TorusPlan) -> list[Part]:
    """One gauge for the first step of roughing; none when the blank is round enough to turn as it is."""
    return [_gauge(plan)] if plan.mountings.flats else []


def _edge(radius: float, turn: float) -> list[Point]:
    """From the middle of the top flat round to the middle of the last one not past the tail."""
    corner, count = radius / cos(turn / 2), _count(turn)
    corners = [on_circle(corner, pi / 2 - turn * (k + 0.5)) for k in range(count)]
    return [(0.0, radius), *corners, on_circle(radius, pi / 2 - count * turn)]


def _count(turn: float) -> int:
    """How many flats follow the top one; half of the last."""
    return round(pi / 2 / turn) + floor(TAIL / turn + 1e-9)


def _gauge(plan: TorusPlan) -> Part:
    step, stage = plan.mountings.flats[0], plan.gauges.stages[0]
    radius, turn = stage.edge.wide, step.half_angle
    panel = gauge_panel(
        plan, "FLATS GAUGE", f"{2 * step.sides} SIDES", f"FLAT {plan.job.show(_flat(radius, turn), exact=True)}",
        "BOARD ↓",
    )  # fmt: skip
    width, band = panel.size
    right, top = max(radius + plan.gauges.web, width), radius + 1 + band
    edge = _edge(radius, turn)
    outline = polygon(
        [
            *edge,
            (edge[-1][0] + TIP, edge[-1][1]),
            (radius + plan.gauges.web, min(0.0, edge[-1][1])),
            (right, radius * 0.3),
            (right, top),
            (0.0, top),
        ]
    )
    one, two = (on_circle(radius, pi / 2 - turn * k) for k in (1, 2))
    gauge = printed_gauge(
        plan,
        "flats-gauge",
        f"roughing by flats: the {2 * step.sides}-sided profile, {stage.label.lower()}",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(0.0, top),
        (
            Dimension("angle between flats", 180 - degrees(turn), EdgeAngle(one, two)),
            Dimension("flat", _flat(radius, turn), EdgeLength(one)),
            Dimension("top of the plate over the top flat", top - radius, EdgeGap((1.0, top), (0.1, radius))),
        ),
        (),
    )
    flats = range(1, _count(turn) + 1)
    return replace(gauge, bearing=tuple(on_circle(radius, pi / 2 - turn * k) for k in flats))


def _flat(radius: float, turn: float) -> float:
    return 2 * radius * tan(turn / 2)
