"""What is turned to a section, drawn whole with its main sizes: both sides of the axis, the faceplate below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, area, line
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, by_rule
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.holding_by_mouth.plan import MouthPlug

FIRST, PITCH = 7.0, 8.0  # mm of paper from the section to its dimensions, and from each to the next
PAST = 2.0  # mm of the axis past the section


def first_board(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The board that the blank is glued to."""
    first, held = plan.mountings.first, plan.holding
    low = -first.centre_height
    top = low + first.spigot_height
    return _figure(
        "first_mounting.board",
        "The first board, turned",
        "The first board cut through its middle: rim, spigot, and the scribed circle that the blank's outer corners "
        "meet.",
        parts["first-board-section"],
        (
            *_across(
                show, [(first.spigot_radius, top), (first.scribed, low), (held.board_diameter / 2, low)], top
            ),
            _up(show, held.board_diameter / 2, low - first.face_height, low),
            *(line((x, low), (x, low - 6), width=0.4) for x in (-first.scribed, first.scribed)),
        ),
    )


def channel(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The board with the groove that the finished side seats in."""
    own, rim = plan.holding.channel, plan.holding.board_diameter / 2
    face, major, half = -own.centre_height, own.major, own.width / 2
    return _figure(
        "braced_mounting.channel",
        "The channel board, turned",
        "The second board cut through its middle: the channel with the relief along its bottom.",
        parts["channel-section"],
        (
            *_across(show, [(major, face), (rim, face)], face, FIRST + PITCH),
            Dimension((major - half, face), (major + half, face), by_calliper(show, own.width), FIRST),
            Dimension((-major, face - own.depth), (-major, face), by_calliper(show, own.depth), -14.0),
            line((major, face - own.depth - 8), (major, face + 4), paint="grey", dashes=CENTRE_LINE),
        ),
    )


def retainer(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The plug that fills the hole."""
    own = plan.holding.retainer
    top = own.top
    return _figure(
        "reversed_mounting.retainer",
        "The retainer, turned",
        "The retainer cut through its middle: its straight neck, the hollow band that touches the hole, its rim.",
        parts["retainer-section"],
        (
            *_across(show, [(own.top_radius, top)], top),
            *_across(show, [(own.neck_radius, own.bottom)], own.bottom, -FIRST),
            _up(show, own.top_radius, own.bottom, top),
        ),
    )


def plug(own: MouthPlug, parts: Mapping[str, Part], show: Show) -> Figure:
    """The plug that holds a vessel by its mouth, as it goes into it: the flange above."""
    tip = own.bearing.radius_at(own.tip)
    return _figure(
        "reversing.plug",
        "The plug for the mouth, turned",
        "The plug cut through its middle, its front face down: the leaning side goes into the mouth, the flange stops "
        "at its rim.",
        parts["mouth-plug-section"],
        (
            *_across(show, [(own.flange, own.back)], own.back),
            *_across(show, [(tip, own.tip)], own.tip, -FIRST),
            _up(show, own.flange, own.tip, own.face),
            Callout("towards the faceplate", (own.flange * 0.7, own.back), "right"),
            Callout("towards the work", (tip * 0.7, own.tip), "right"),
        ),
    )


def _figure(id: str, title: str, alt: str, part: Part, more: Sequence[Item]) -> Figure:
    outline = part.outline
    _, low, _, top = outline.bounds
    both = (area(one, fill="wood") for one in (outline, outline.mirrored()))
    axis = line((0.0, low - PAST), (0.0, top + PAST), dashes=CENTRE_LINE)
    return Figure(id, title, alt, (*both, axis, *more), height=90.0)


def _across(
    show: Show, circles: Sequence[tuple[float, float]], level: float, first: float = FIRST
) -> list[Dimension]:
    """Diameters of circles of a radius at a height, one above the other from `level` on; below it from -FIRST."""
    return [
        Dimension((-r, y), (r, y), f"Ø {by_calliper(show, 2 * r)}", first + PITCH * k, level - y)
        for k, (r, y) in enumerate(circles)
    ]


def _up(show: Show, x: float, low: float, high: float) -> Dimension:
    return Dimension((x, low), (x, high), by_rule(show, high - low), -9.0)
