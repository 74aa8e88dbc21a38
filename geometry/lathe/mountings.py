"""The holding plan: which arc round the tube is turned in which mounting, and what holds it there.

Angles theta round the tube, radians, are the finished torus's own, each that of a place's normal: 0 outward (rim), 90
degrees the face turned first, 180 the hole side, 270 the waste flat that the first board is glued to. In mountings C
and D the torus lies the other way up, and what is described here still means the same places of the wood.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import pi, tau
from typing import Literal

from geometry.bodies.tube import Tube
from geometry.lathe.turning import BAND_HIGH, BAND_LOW, RIM_LAND, TAIL
from geometry.records import Record

FACE, HOLE, FLAT = pi / 2, pi, 3 * pi / 2
_EPS = 1e-9


class Arc(Record):
    """From `start` counter-clockwise to `end`, which is not less and may run past a whole turn."""

    start: float
    end: float

    @property
    def span(self) -> float:
        return self.end - self.start

    def contains(self, angle: float) -> bool:
        return (angle - self.start + _EPS) % tau <= self.span + 2 * _EPS

    def shared(self, other: Arc) -> float:
        """How much of the circle both arcs cover."""
        offset = (other.start - self.start) % tau
        starts = (offset - tau, offset)
        return sum(max(0.0, min(self.span, s + other.span) - max(0.0, s)) for s in starts)

    def within(self, arcs: Iterable[Arc]) -> bool:
        """Whether arcs cover all of this one between them."""
        offsets = [((arc.start - self.start) % tau, arc.span) for arc in arcs]
        reached = 0.0
        for start, span in sorted([(s - tau, span) for s, span in offsets] + offsets):
            if start <= reached + _EPS:
                reached = max(reached, start + span)
        return reached >= self.span - _EPS


class Hold(Record):
    """Something that holds: the arc it touches, and the arc it keeps the tool from, tool room included."""

    what: str
    bears: Arc
    covers: Arc
    on: Literal["waste", "finished"]


class Mounting(Record):
    """One way of holding the work; `turns` is None when no part of the tube is turned in it."""

    name: str
    turns: Arc | None
    holds: tuple[Hold, ...]


class Setting(Record):
    """What the holding plan follows from, mm and radians."""

    tube: Tube  # finished
    rough: Tube  # with the turning allowance
    flat_height: float  # of the waste flat over the tube's centre
    flat_inner: float  # reach of the waste flat from the tube's centre towards the axis
    flat_outer: float  # and away from it
    contact: float  # of the channel, up each flank
    lining: float
    spigot: float  # height of the first board's spigot
    tool_room: float
    least_overlap: float


class Fault(Record):
    """Why a holding plan does not do: `arc` is the arc that is never, or wrongly, reached."""

    kind: Literal["gap", "covered", "not-finished", "turned-away"]
    arc: Arc
    first: str  # mounting
    second: str  # the next mounting round the tube, or what holds
    overlap: float = 0.0  # of two mountings; negative for a gap


def holding_mountings(setting: Setting) -> tuple[Mounting, ...]:
    """Mountings A, B, C and D, in the order of the work. Whether they will do is for `faults` to say."""
    overlap = setting.least_overlap
    first = Arc(-TAIL, HOLE + TAIL)
    hole_side = HOLE + TAIL - overlap
    retainer, braces = _retainer(setting, reversed_on=False), _braces(setting)
    rim = tau - TAIL + overlap
    last = min(max(retainer.covers.end, HOLE + TAIL), rim)  # not what mounting A has turned already
    return (
        Mounting("A", first, (_board(setting),)),
        Mounting("B", None, (_retainer(setting, reversed_on=True),)),
        Mounting("C", Arc(hole_side, max(hole_side, braces.covers.start)), (_channel(setting), braces)),
        Mounting("D", Arc(last, rim), (_channel(setting), retainer)),
    )


def _about(middle: float, half: float) -> Arc:
    return Arc(middle - half, middle + half)


def _board(setting: Setting) -> Hold:
    """Glued to the flat; its face, or its spigot, keeps the tool from what lies near it."""
    half = max(setting.flat_inner, setting.flat_outer)
    glued = setting.rough.lean_to(half, setting.flat_height)
    edge = setting.rough.lean_to(half + setting.tool_room, setting.flat_height)
    near = setting.rough.lean_at_height(setting.flat_height - setting.spigot - setting.tool_room)
    return Hold("board", _about(FLAT, glued), _about(FLAT, max(edge, near)), "waste")


def _channel_cover(setting: Setting) -> float:
    height = setting.tube.over(setting.contact)[1]
    flank = setting.tube.beyond(setting.lining).lean_at_height(height)
    return max(flank, setting.tube.lean_at_height(height - setting.tool_room))


def _channel(setting: Setting) -> Hold:
    height = setting.tube.over(setting.contact)[1]
    flank = setting.tube.beyond(setting.lining).lean_at_height(height)
    return Hold("channel", _about(FACE, flank), _about(FACE, _channel_cover(setting)), "finished")


def _braces(setting: Setting) -> Hold:
    """On the outer half of the waste flat; their arms and blocks stand before the whole outer side."""
    bears = Arc(FLAT, FLAT + setting.rough.lean_to(setting.flat_outer, setting.flat_height))
    tip = FLAT - setting.tube.lean_at_width(setting.tool_room)
    return Hold("braces", bears, Arc(tip, tau + FACE - _channel_cover(setting)), "waste")


def _retainer(setting: Setting, reversed_on: bool) -> Hold:
    """Its band bears past the equator of the hole: on the face's side when the work is reversed on it."""
    hollow, rise = setting.tube.beyond(setting.lining), setting.tube.rise(BAND_HIGH)
    low, high = hollow.angle_at_height(setting.tube.rise(BAND_LOW)), hollow.angle_at_height(rise)
    inward = hollow.width_at(rise)
    edge = _past_rim(setting, inward, rise)
    below = FACE + _channel_cover(setting)
    if reversed_on:
        return Hold("retainer", Arc(HOLE - high, HOLE - low), Arc(HOLE - edge, HOLE + low), "finished")
    return Hold("retainer", Arc(HOLE + low, HOLE + high), Arc(below, HOLE + edge), "finished")


def _past_rim(setting: Setting, inward: float, rise: float) -> float:
    """Angle past the hole from which the tool has its room beside the retainer's rim: its lower corner, its straight
    land, its upper corner."""
    corners = [setting.tube.clear_of(inward, z, setting.tool_room) for z in (rise, rise + RIM_LAND)]
    beside = setting.tube.angle_at_width(inward - setting.tool_room)
    facing = rise <= setting.tube.at(beside)[1] <= rise + RIM_LAND
    return max(*corners, beside if facing else 0.0)


def faults(mountings: tuple[Mounting, ...], least_overlap: float) -> tuple[Fault, ...]:
    """Everything that keeps a holding plan from doing; () when every angle is turned in some mounting, those
    next to each other overlap by `least_overlap`, nothing covers what is turned, and what holds is waste that
    is still there or has been finished before."""
    return (*_gaps(mountings, least_overlap), *_covered(mountings), *_badly_held(mountings))


def _gaps(mountings: tuple[Mounting, ...], least: float) -> Iterator[Fault]:
    turning = sorted(((m, m.turns) for m in mountings if m.turns), key=lambda pair: pair[1].start)
    for (one, arc), (other, after) in zip(turning, turning[1:] + turning[:1], strict=True):
        overlap = (arc.end - after.start + pi) % tau - pi
        if overlap < least - _EPS:
            low, high = sorted((arc.end, arc.end - overlap))
            yield Fault("gap", Arc(low, high), one.name, other.name, overlap)


def _covered(mountings: tuple[Mounting, ...]) -> list[Fault]:
    return [
        Fault("covered", hold.covers, m.name, hold.what)
        for m in mountings
        for hold in m.holds
        if m.turns and m.turns.shared(hold.covers) > _EPS
    ]


def _badly_held(mountings: tuple[Mounting, ...]) -> Iterator[Fault]:
    for index, mounting in enumerate(mountings):
        before = [m.turns for m in mountings[:index] if m.turns]
        for hold in mounting.holds:
            if hold.on == "finished" and not hold.bears.within(before):
                yield Fault("not-finished", hold.bears, mounting.name, hold.what)
            if hold.on == "waste" and any(arc.shared(hold.bears) > _EPS for arc in before):
                yield Fault("turned-away", hold.bears, mounting.name, hold.what)


def degrees_of(arc: Arc) -> tuple[float, float]:
    """Both ends in degrees, the start from 0 up to 360."""
    turn = arc.start % tau
    return turn * 180 / pi, (turn + arc.span) * 180 / pi
