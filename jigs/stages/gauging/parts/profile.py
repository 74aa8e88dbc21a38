"""Printed profile gauges: plates whose edge is the profile to turn.

Coordinates of every gauge: the tube's centre is the origin, x runs outward from the torus axis, y away
from the support board.
"""

from __future__ import annotations

from dataclasses import replace
from math import asin, cos, pi, sin, sqrt, tan

from geometry.lathe.turning import TAIL
from geometry.plane.arcs import on_circle
from geometry.plane.contour import Contour
from geometry.plane.contour import outline as contour
from jigs.parts.gauges.plate import (
    HANG,
    MARGIN,
    arc_to,
    gauge_panel,
    hang_hole,
    printed_gauge,
)
from jigs.parts.part import ArcRadius, Bevel, Dimension, Line, Mark, Part
from jigs.plans.torus import TorusPlan
from jigs.stages.gauging.plan.torus import Stage
from jigs.words.lengths import show_length

TIP = 4.0  # width of a tail's end
SHOULDER = 20.0  # of the channel gauge on the board
HOOK = 18.0  # of the retainer gauge over the plug's face
TOP = pi / 2


def gauges(plan: TorusPlan) -> list[Part]:
    """The outer and the hole gauge of every stage, the channel gauge and the retainer gauge."""
    profile = [make(plan, stage) for stage in plan.gauges.stages for make in (outer_gauge, hole_gauge)]
    return [*profile, channel_gauge(plan), retainer_gauge(plan)]


def outer_gauge(plan: TorusPlan, stage: Stage) -> Part:
    """Concave, from the top of the tube round its outer side to past the equator."""
    radius = stage.edge_radius
    size = show_length(radius, plan.job.unit, exact=True)
    panel = gauge_panel(plan, "OUTER GAUGE", stage.label, f"R {size}", "BOARD ↓")
    width, band = panel.size
    right, top = max(radius + plan.gauges.web, width), radius + 1 + band
    tail = on_circle(radius, -TAIL)
    outline = contour(
        arc_to((0.0, radius), tail, ccw=False),
        tail,
        (tail[0] + TIP, tail[1], _back_bulge(radius, plan.gauges.web)),
        (radius + plan.gauges.web, 0.0),
        (right, radius * 0.3),
        (right, top),
        (0.0, top),
    )
    return printed_gauge(
        plan,
        f"outer-gauge-{stage.name}",
        "gauges",
        f"profile of the outer side, {stage.label.lower()}",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(0.0, top),
        (Dimension("edge radius", radius, ArcRadius((0.0, 0.0), -TAIL, TOP)),),
        ("The left end is the top of the tube; the tail points to the support board.",),
    )


def _back_bulge(radius: float, web: float) -> float:
    """Of a tail's back: straight, or along the edge where a straight one would come too near to it."""
    straight = (TIP + web) / 2 - radius * (1 - cos(TAIL / 2))
    return 0.0 if straight >= TIP else tan(TAIL / 4)


def hole_gauge(plan: TorusPlan, stage: Stage) -> Part:
    """Concave, from the top of the tube round its inner side; passes the hole, its handle clears the rim."""
    radius, web = stage.edge_radius, plan.gauges.hole_web
    size = show_length(radius, plan.job.unit, exact=True)
    panel = gauge_panel(plan, "HOLE GAUGE", stage.label, f"R {size}", "BOARD ↓")
    width, band = panel.size
    back, rim = -radius - web, plan.gauges.rim_height
    left, top = min(back, -width), rim + band

    def outline_at(edge: float) -> Contour:
        foot = -radius * sin(TAIL)
        tail = (-sqrt(edge**2 - foot**2), foot)
        shape = [
            arc_to(tail, (0.0, edge), ccw=False),
            (0.0, edge),
            (0.0, top),
            (left, top),
            (left, rim),
            (back, rim),
            (back, 0.0, _back_bulge(radius, web)),
            (-on_circle(radius, TAIL)[0] - TIP - edge + radius, foot),
        ]
        return contour(*(shape if left < back else [v for v in shape if v != (left, rim)]))

    outline = outline_at(radius)
    land = plan.gauges.hole_land
    bevel = None if land is None else Bevel(land, outline_at(radius + plan.gauges.plate - land))
    return printed_gauge(
        plan,
        f"hole-gauge-{stage.name}",
        "gauges",
        f"profile of the hole side, {stage.label.lower()}",
        outline,
        hang_hole(-MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(left, top),
        (Dimension("edge radius", radius, ArcRadius((0.0, 0.0), TOP, pi + TAIL)),),
        ("Lower the tail through the hole, then bring the edge to the wood; its right end is the top.",),
        bevel,
    )


def channel_gauge(plan: TorusPlan) -> Part:
    """Convex twin of the channel; its shoulders rest on the board when the channel is deep enough."""
    channel, radius = plan.holding.channel, plan.gauges.channel_radius
    face = -channel.centre_height
    panel = gauge_panel(
        plan,
        "CHANNEL GAUGE",
        f"R {show_length(radius, plan.job.unit, exact=True)}",
        f"ON R {show_length(channel.major, plan.job.unit, exact=True)}",
        f"DEPTH {show_length(channel.depth, plan.job.unit, exact=True)}",
        "← AXIS",
    )
    width, band = panel.size
    flank = sqrt(radius**2 - face**2)
    half = max(width / 2, flank + SHOULDER)
    top = face + 4 + band

    def outline_at(edge: float) -> Contour:
        x = sqrt(edge**2 - face**2)
        return contour(
            (-half, face),
            arc_to((-x, face), (x, face), ccw=True),
            (x, face),
            (half, face),
            (half, top),
            (-half, top),
        )

    land = plan.gauges.channel_land
    inset = 0.0 if land is None else min(plan.gauges.plate - land, (radius + face) / 2)
    bevel = None if land is None else Bevel(land, outline_at(radius - inset))
    rim = asin(-face / radius)
    part = printed_gauge(
        plan,
        "channel-gauge",
        "gauges",
        "profile of the channel in the support board",
        outline_at(radius),
        hang_hole(half - MARGIN - HANG, top - MARGIN - HANG),
        (*panel.lettering(-half, top), *_centre_tick(face, radius - inset)),
        (Dimension("edge radius", radius, ArcRadius((0.0, 0.0), pi + rim, 2 * pi - rim)),),
        ("Hold the tick at its edge on the channel's centre line.",),
        bevel,
    )
    return replace(part, bearing=((-flank - SHOULDER / 2, face), (flank + SHOULDER / 2, face)))


def _centre_tick(face: float, radius: float) -> tuple[Mark, ...]:
    return (Line(((0.0, -radius + 1.5), (0.0, max(face, -radius + 6.0))), "centre line"),)


def retainer_gauge(plan: TorusPlan) -> Part:
    """Convex twin of the retainer's flared rim; its hook rests on the plug's turned face."""
    retainer, radius = plan.holding.retainer, plan.gauges.retainer_radius
    high, low = retainer.band_high, retainer.band_low
    panel = gauge_panel(
        plan,
        "RETAINER GAUGE",
        f"R {show_length(radius, plan.job.unit, exact=True)}",
        f"NECK Ø {show_length(2 * retainer.neck_radius, plan.job.unit, exact=True)}",
        "HOOK ON FACE",
    )
    width, band = panel.size
    start, end = (-sqrt(radius**2 - high**2), high), (-sqrt(radius**2 - low**2), low)
    left = start[0] - HOOK
    right = max(left + width, 12.0)
    top = retainer.top + 2 + band
    neck = retainer.neck_radius - retainer.major + 0.5
    outline = contour(
        (left, retainer.top),
        (start[0], retainer.top),
        arc_to(start, end, ccw=True),
        end,
        (end[0], low - 0.3),
        (neck, low - 0.3),
        (neck, low - 15),
        (right, low - 15),
        (right, top),
        (left, top),
    )
    turn = asin(high / radius), asin(low / radius)
    part = printed_gauge(
        plan,
        "retainer-gauge",
        "gauges",
        "profile of the retainer's rim",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(left, top),
        (Dimension("edge radius", radius, ArcRadius((0.0, 0.0), pi - turn[0], pi - turn[1])),),
        ("Lay the hook on the plug's face, the long edge along its neck.",),
    )
    return replace(part, bearing=(((left + start[0]) / 2, high), (neck, low - 8)))
