"""Printed profile gauges: plates whose edge is the profile to turn.

Coordinates of every gauge: the tube's centre is the origin, x runs outward from the torus axis, y away
from the support board.
"""

from __future__ import annotations

from math import hypot, pi, tan

from geometry.bodies.tube import Tube
from geometry.lathe.turning import TAIL
from geometry.plane.contour import Contour
from geometry.plane.contour import outline as contour
from geometry.records import replace
from jigs.parts.gauges.plate import (
    HANG,
    MARGIN,
    bevelled,
    gauge_panel,
    hang_hole,
    printed_gauge,
    tube_dimension,
    tube_text,
)
from jigs.parts.part import Line, Mark, Part
from jigs.plans.torus import TorusPlan
from jigs.stages.gauging.parts.standing import BESIDE_BOLT
from jigs.stages.gauging.plan.torus import Stage

TIP = 4.0  # width of a tail's end
SHOULDER = 20.0  # of the channel gauge on the board
HOOK = 8.0  # of the retainer gauge over the plug's front, wide and deep: beside the cap on its bolt
TOP = pi / 2


def gauges(plan: TorusPlan) -> list[Part]:
    """The outer and the hole gauge of every stage, the channel gauge and the retainer gauge."""
    profile = [make(plan, stage) for stage in plan.gauges.stages for make in (outer_gauge, hole_gauge)]
    return [*profile, channel_gauge(plan), retainer_gauge(plan)]


def outer_gauge(plan: TorusPlan, stage: Stage) -> Part:
    """Concave, from the top of the tube round its outer side to past the equator."""
    edge = stage.edge
    panel = gauge_panel(plan, "OUTER GAUGE", stage.label, tube_text(edge, plan.job.unit), "BOARD ↓")
    width, band = panel.size
    right, top = max(edge.wide + plan.gauges.web, width), edge.high + 1 + band
    tail = edge.at(-TAIL)
    outline = contour(
        *edge.run((0.0, edge.high), tail, ccw=False),
        tail,
        (tail[0] + TIP, tail[1], _back_bulge(edge, plan.gauges.web)),
        (edge.wide + plan.gauges.web, 0.0),
        (right, edge.high * 0.3),
        (right, top),
        (0.0, top),
    )
    return printed_gauge(
        plan,
        f"outer-gauge-{stage.name}",
        f"profile of the outer side, {stage.label.lower()}",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(0.0, top),
        (tube_dimension("edge", edge, -TAIL, TOP),),
        ("The left end is the top of the tube; the tail points to the support board.",),
    )


def _back_bulge(edge: Tube, web: float) -> float:
    """Of a tail's back: straight, or along the edge where a straight one would come too near to it."""
    end, middle = edge.at(TAIL), edge.at(TAIL / 2)
    chord = hypot(edge.wide - end[0], end[1])
    over = (middle[0] - end[0]) * end[1] - (edge.wide - end[0]) * (end[1] - middle[1])
    straight = (TIP + web) / 2 - over / chord
    return 0.0 if straight >= TIP else tan(TAIL / 4)


def hole_gauge(plan: TorusPlan, stage: Stage) -> Part:
    """Concave, from the top of the tube round its inner side; passes the hole, its handle clears the rim."""
    edge, web = stage.edge, plan.gauges.hole_web
    panel = gauge_panel(plan, "HOLE GAUGE", stage.label, tube_text(edge, plan.job.unit), "BOARD ↓")
    width, band = panel.size
    back, rim = -edge.wide - web, plan.gauges.rim_height
    left, top = min(back, -width), rim + band
    end, low = edge.at(TAIL)

    def outline_at(at: Tube, more: int) -> Contour:
        tail = (-at.width_at(-low), -low)
        shape = [
            *at.run(tail, (0.0, at.high), ccw=False, more=more),
            (0.0, at.high),
            (0.0, top),
            (left, top),
            (left, rim),
            (back, rim),
            (back, 0.0, _back_bulge(edge, web)),
            (-end - TIP - at.wide + edge.wide, -low),
        ]
        return contour(*(shape if left < back else [v for v in shape if v != (left, rim)]))

    land = plan.gauges.hole_land
    over = None if land is None else edge.beyond(plan.gauges.plate).beyond(-land)
    outline, bevel = bevelled(outline_at, edge, over, land)
    return printed_gauge(
        plan,
        f"hole-gauge-{stage.name}",
        f"profile of the hole side, {stage.label.lower()}",
        outline,
        hang_hole(-MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(left, top),
        (tube_dimension("edge", edge, TOP, pi + TAIL),),
        ("Lower the tail through the hole, then bring the edge to the wood; its right end is the top.",),
        bevel,
    )


def channel_gauge(plan: TorusPlan) -> Part:
    """Convex twin of the channel; its shoulders rest on the board when the channel is deep enough."""
    channel, edge = plan.holding.channel, plan.gauges.channel
    face = -channel.centre_height
    panel = gauge_panel(
        plan,
        "CHANNEL GAUGE",
        tube_text(edge, plan.job.unit),
        f"ON R {plan.job.show(channel.major, exact=True)}",
        f"DEPTH {plan.job.show(channel.depth, exact=True)}",
        "← AXIS",
    )
    width, band = panel.size
    flank = edge.width_at(face)
    half = max(width / 2, flank + SHOULDER)
    left = -min(
        half, channel.major - plan.mountings.cap / 2 - BESIDE_BOLT
    )  # a cap spins on the centre bolt's end
    right, top = left + 2 * half, face + 4 + band

    def outline_at(at: Tube, more: int) -> Contour:
        x = at.width_at(face)
        return contour(
            (left, face),
            *at.run((-x, face), (x, face), ccw=True, more=more),
            (x, face),
            (right, face),
            (right, top),
            (left, top),
        )

    land = plan.gauges.channel_land
    inset = 0.0 if land is None else min(plan.gauges.plate - land, (edge.high + face) / 2)
    outline, bevel = bevelled(outline_at, edge, edge.beyond(-inset), land)
    rim = edge.angle_at_height(-face)
    part = printed_gauge(
        plan,
        "channel-gauge",
        "profile of the channel in the support board",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        (*panel.lettering(left, top), *_centre_tick(face, edge.high - inset)),
        (tube_dimension("edge", edge, pi + rim, 2 * pi - rim),),
        ("Hold the tick at its edge on the channel's centre line.",),
        bevel,
    )
    return replace(part, bearing=(((left - flank) / 2, face), (flank + SHOULDER / 2, face)))


def _centre_tick(face: float, radius: float) -> tuple[Mark, ...]:
    return (Line(((0.0, -radius + 1.5), (0.0, max(face, -radius + 6.0))), "centre line"),)


def retainer_gauge(plan: TorusPlan) -> Part:
    """Convex twin of the retainer's flared rim; its hook rests on the plug's front, for a faceplate is on its back."""
    retainer, edge = plan.holding.retainer, plan.gauges.retainer
    high, low, front = retainer.band_high, retainer.band_low, retainer.bottom
    panel = gauge_panel(
        plan,
        "RETAINER GAUGE",
        tube_text(edge, plan.job.unit),
        f"NECK Ø {plan.job.show(2 * retainer.neck_radius, exact=True)}",
        "FACEPLATE ↑",
        "HOOK ON FRONT",
    )
    width, band = panel.size
    start, end = (-edge.width_at(high), high), (-edge.width_at(low), low)
    neck = retainer.neck_radius - retainer.major + 0.5
    left, right = neck - HOOK, start[0] + width
    top = retainer.top
    bottom = min(front - HOOK, top - band)
    outline = contour(
        (start[0], top),
        *edge.run(start, end, ccw=True),
        end,
        (end[0], low - 0.3),
        (neck, low - 0.3),
        (neck, front),
        (left, front),
        (left, bottom),
        (right, bottom),
        (right, top),
    )
    turn = edge.angle_at_height(high), edge.angle_at_height(low)
    part = printed_gauge(
        plan,
        "retainer-gauge",
        "profile of the retainer's rim",
        outline,
        hang_hole(right - MARGIN - HANG, top - MARGIN - HANG),
        panel.lettering(start[0], top),
        (tube_dimension("edge", edge, pi - turn[0], pi - turn[1]),),
        ("Lay the hook on the plug's front, away from its faceplate, the long edge along its neck.",),
    )
    return replace(part, bearing=(((left + neck) / 2, front), (neck, (low + front) / 2)))
