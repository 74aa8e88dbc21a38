"""Gauges that stand on the board: the finished profile, one or two for each mounting that turns it.

Coordinates: the tube's centre is the origin, x runs outward from the torus axis, y away from the board of that
mounting. In mountings C and D the torus lies the other way up, so an angle theta round it is seen at -theta.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi, tau

from geometry.bodies.tube import Tube
from geometry.hardware.fittings import head_place
from geometry.lathe.turning import TAIL
from geometry.plane.contour import Contour
from geometry.plane.contour import outline as contour
from geometry.records import replace
from jigs.parts.gauges.plate import (
    HANG,
    MARGIN,
    Panel,
    bevelled,
    gauge_panel,
    hang_hole,
    printed_gauge,
    tube_dimension,
    tube_text,
)
from jigs.parts.part import Bevel, Part, Point
from jigs.plans.torus import TorusPlan
from jigs.words.lengths import show_length

RELIEF = 2.0  # least, of the stand beside the end of the arc, and of its edge before a brace
RELIEF_SHARE = 0.03  # of the edge's radius: a nearer corner would be taken for a part of the arc
BEVEL_SHIFT = 1.25  # of a relieved stand, for each mm that the bevel takes off the arc
NUT = 15.0  # above a brace, with its washer and the bolt's end
CLEAR = 3.0  # above waste and braces on the far side of the hole
BESIDE_BOLT = 2.0  # from the cap on the centre bolt
LONGER = 10.0  # than listed, that the bolt may be
TOP = pi / 2


def standing(plan: TorusPlan) -> list[Part]:
    """The standing gauges, in the order of the mountings."""
    return [first_outer(plan), first_inner(plan), second_inner(plan), second_outer(plan)]


def _edge(plan: TorusPlan) -> Tube:
    return plan.gauges.stages[-1].edge


def _panel(plan: TorusPlan, mounting: str, half: str, centre: float, *more: str) -> Panel:
    unit = plan.job.unit
    height = show_length(centre, unit, exact=True)
    return gauge_panel(
        plan, f"{mounting} {half}", f"FINISHED {tube_text(_edge(plan), unit)}", f"CENTRE {height} UP", *more
    )


def _standing(
    plan: TorusPlan, name: str, purpose: str, outline: Contour, hang: Point, panel: Panel, corner: Point,
    arc: tuple[float, float], notes: tuple[str, ...], bevel: Bevel | None = None,
) -> Part:  # fmt: skip
    """`hang` and `corner` are the panel's upper right and upper left."""
    part = printed_gauge(
        plan,
        f"standing-gauge-{name}",
        purpose,
        outline,
        hang_hole(hang[0] - MARGIN - HANG, hang[1] - MARGIN - HANG),
        panel.lettering(*corner),
        (tube_dimension("edge", _edge(plan), *arc),),
        notes,
        bevel,
    )
    foot = min(outline.edges(), key=lambda edge: max(edge.start[1], edge.end[1]))
    return replace(part, bearing=(foot.midpoint,))


def _relief(edge: Tube) -> float:
    return max(RELIEF, RELIEF_SHARE * edge.wide)


def _plain(*vertices: tuple[float, ...]) -> Contour:
    """A contour through the vertices, those that repeat their neighbour left out."""
    return contour(*(v for i, v in enumerate(vertices) if v[:2] != vertices[i - 1][:2]))


def _foot_end(plan: TorusPlan) -> float:
    """Where the foot of an outer gauge ends: its web, or the board's edge."""
    edge = plan.holding.board_diameter / 2 - plan.job.form.major_radius
    return min(_edge(plan).wide + plan.gauges.web, edge - 1)


def first_outer(plan: TorusPlan) -> Part:
    """Mounting A, from the top over the rim to 35 degrees past it; its foot stands on the board outside the blank."""
    edge, first = _edge(plan), plan.mountings.first
    panel = _panel(plan, "A", "OUTER", first.centre_height, "SHIM AS MEASURED")
    width, band = panel.size
    foot, end = -first.centre_height, _foot_end(plan)
    right, top = max(end, width), edge.high + 1 + band
    tail = edge.at(-TAIL)
    stand = max(tail[0], first.turned_back - plan.job.form.major_radius) + _relief(edge)
    outline = _plain(
        *edge.run((0.0, edge.high), tail, ccw=False),
        tail,
        (stand, tail[1]),
        (stand, foot),
        (end, foot),
        (end, edge.high * 0.3),
        (right, edge.high * 0.3),
        (right, top),
        (0.0, top),
    )
    return _standing(
        plan,
        "a-outer",
        "outer side in the first mounting, standing on its board",
        outline,
        (right, top),
        panel,
        (0.0, top),
        (-TAIL, TOP),
        (),
    )


def first_inner(plan: TorusPlan) -> Part:
    """Mounting A, through the hole: from the top to 35 degrees past the hole's narrowest; stands on the spigot."""
    edge, first = _edge(plan), plan.mountings.first
    panel = _panel(plan, "A", "INNER", first.centre_height, "ON SPIGOT")
    width, band = panel.size
    back, rim = -edge.wide - plan.gauges.hole_web, plan.gauges.rim_height
    left, top = min(back, -width), rim + band
    low, foot = edge.at(-TAIL)[1], first.spigot_height - first.centre_height
    spigot = plan.job.form.major_radius - first.spigot_radius
    stand = -max(edge.at(TAIL)[0] + _relief(edge), spigot + 1)

    def outline_at(at: Tube, more: int) -> Contour:
        tail = (-at.width_at(low), low)
        side = stand - BEVEL_SHIFT * (at.wide - edge.wide)
        return _plain(
            *at.run(tail, (0.0, at.high), ccw=False, more=more), (0.0, at.high), (0.0, top), (left, top), (left, rim),
            (back, rim), (back, foot), (side, foot), (side, low),
        )  # fmt: skip

    outline, bevel = _bevelled(plan, outline_at)
    return _standing(
        plan,
        "a-inner",
        "hole side in the first mounting, standing on the board's spigot",
        outline,
        (0.0, top),
        panel,
        (left, top),
        (TOP, pi + TAIL),
        ("Lower it through the hole, then bring the edge to the wood.",),
        bevel,
    )


def _bevelled(plan: TorusPlan, outline_at: Callable[[Tube, int], Contour]) -> tuple[Contour, Bevel | None]:
    edge, land = _edge(plan), plan.gauges.standing_land
    top = None if land is None else edge.beyond(plan.gauges.standing_plate).beyond(-land)
    return bevelled(outline_at, edge, top, land)


def second_inner(plan: TorusPlan) -> Part:
    """Mounting C, in the hole: from its narrowest up to the braces' tool room; stands on the channel board.

    The centre bolt stands in the hole with a cap on its end: what reaches over it lies above that end.
    """
    edge, brace, major = _edge(plan), plan.mountings.brace, plan.job.form.major_radius
    centre, flat = plan.holding.channel.centre_height, plan.mountings.setting.flat_height
    panel = _panel(plan, "C", "INNER", centre)
    width, band = panel.size
    cap = plan.mountings.cap / 2 + BESIDE_BOLT - major
    back, last = max(-edge.wide - plan.gauges.hole_web, cap), _seen_end(plan, "C")
    past = edge.beyond(max(plan.gauges.standing_plate, _relief(edge))).at(last)  # beyond any bevel
    right, under = past[0] - RELIEF, max(flat, past[1] + RELIEF)
    left = min(back, right - width)
    over = CLEAR if left > CLEAR - 2 * major else CLEAR + brace.thickness + NUT
    rim, foot = max(under + over, _bolt_end(plan) - centre if left < cap else 0.0), -centre
    top = rim + band

    def outline_at(at: Tube, more: int) -> Contour:
        return _plain(
            (-at.wide, foot), *at.run((-at.wide, 0.0), at.at(last), ccw=False, more=more), at.at(last),
            past, (right, under), (right, top), (left, top), (left, rim), (back, rim), (back, foot),
        )  # fmt: skip

    outline, bevel = _bevelled(plan, outline_at)
    return _standing(
        plan,
        "c-inner",
        "hole side in the second mounting, standing on the channel board; clears the braces",
        outline,
        (right, top),
        panel,
        (left, top),
        (last, pi),
        ("Its upper end leaves the tool room beside the braces' fingers.",),
        bevel,
    )


def _bolt_end(plan: TorusPlan) -> float:
    """Over the channel board's face."""
    sunk = head_place(plan.holding.bolt)[1]
    return plan.mountings.centre_bolt + LONGER - (plan.holding.board_thickness - sunk)


def _seen_end(plan: TorusPlan, name: str) -> float:
    """Where a mounting's turning ends nearest the top of the tube, as seen in the turned-over torus."""
    turns = plan.mountings.named(name).turns
    if turns is None:
        raise ValueError(f"nothing is turned in {name}")
    return tau - (turns.end if name == "C" else turns.start)


def second_outer(plan: TorusPlan) -> Part:
    """Mounting D, from the rim over the top as far as the retainer allows; stands on the channel board."""
    edge, centre = _edge(plan), plan.holding.channel.centre_height
    panel = _panel(plan, "D", "OUTER", centre)
    width, band = panel.size
    last = _seen_end(plan, "D")
    tip = edge.at(last)
    end, foot = _foot_end(plan), -centre
    right, top = max(end, tip[0] + width), edge.high + 1 + band
    outline = _plain(
        *edge.run(tip, (edge.wide, 0.0), ccw=False),
        (edge.wide, 0.0),
        (edge.wide, foot),
        (end, foot),
        (end, edge.high * 0.3),
        (right, edge.high * 0.3),
        (right, top),
        (tip[0], top),
    )
    return _standing(
        plan,
        "d-outer",
        "outer side in the last mounting, standing on the channel board; clears the retainer",
        outline,
        (right, top),
        panel,
        (tip[0], top),
        (0.0, last),
        ("Lower it onto the work from the front. Its upper end leaves the tool room beside the retainer.",),
    )
