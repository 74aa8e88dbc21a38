"""The holding plan round the tube: a ring for each mounting, what it turns, what holds, where they overlap."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, pi, tau

from geometry.lathe.mountings import Arc, Mounting, degrees_of
from geometry.plane.edges import on_circle
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Item, Paint, Shape, Words, arc_rows, disc, line, moved, tube
from jigs.plans.torus import TorusPlan

TUBE, FIRST, STEP, BAND = (
    50.0,
    68.0,
    20.0,
    12.0,
)  # as drawn: the tube's radius; of the rings the first, pitch, width


def holding_plan(plan: TorusPlan) -> Figure:
    """Angles as on the gauges: 0 the rim, 90 degrees the face turned first, 180 the hole, 270 the waste flat."""
    mountings = plan.mountings.mountings
    rings = [item for k, mounting in enumerate(mountings) for item in _ring(mounting, FIRST + STEP * k)]
    return Figure(
        "mountings",
        f"{plan.job.title}: holding plan",
        "A ring round the tube for each mounting, A innermost: what it turns is hatched one way, what holds on waste "
        "the other way, what holds on finished wood upright. Where the tool has no room is grey.",
        (*_overlaps(mountings), *_tube(plan), *rings, *_directions(len(mountings))),
        width=250.0,
        height=160.0,
    )


def span_text(arc: Arc) -> str:
    """Both ends in whole degrees from 0 to 360, and whether it runs over 0."""
    start, end = (round(at) for at in degrees_of(arc))
    if start < 360 < end:
        return f"{start}° over 0° to {end - 360}°"
    return f"{start % 360}° to {end - start + start % 360}°"


def _sector(arc: Arc, inner: float, outer: float, fill: Paint) -> Shape:
    out = arc_rows((0.0, 0.0), outer, arc.start, arc.end)
    back = arc_rows((0.0, 0.0), inner, arc.end, arc.start)
    return Shape((*out, *back), closed=True, fill=fill, stroke=None)


def _ring(mounting: Mounting, radius: float) -> Iterator[Item]:
    inner, outer = radius - BAND / 2, radius + BAND / 2
    name = mounting.name
    yield disc((0.0, 0.0), radius, stroke="pale")
    yield from (_sector(hold.covers, inner, outer, "pale") for hold in mounting.holds)
    for hold in mounting.holds:
        yield _sector(hold.bears, inner, outer, "waste" if hold.on == "waste" else "finished")
        at = on_circle(radius, hold.bears.start + 0.2 * hold.bears.span)
        yield Callout(f"{name}: {hold.what} on {hold.on} wood {span_text(hold.bears)}", at)
    if mounting.turns:
        yield _sector(mounting.turns, inner, outer, "turned")
        at = on_circle(radius, mounting.turns.start + 0.62 * mounting.turns.span)
        yield Callout(f"{name}: turns {span_text(mounting.turns)}", at)
    yield disc(on_circle(radius, pi / 2), 0.55 * BAND, fill="paper")
    x, y = on_circle(radius, pi / 2)
    yield Words(name, (x, y - 2.2), anchor="middle", bold=True)


def _between(mountings: tuple[Mounting, ...]) -> Iterator[tuple[str, Arc]]:
    """Where one mounting's arc runs into the next one's, with both names."""
    turning = [(m.name, m.turns) for m in mountings if m.turns]
    for (one, arc), (other, after) in zip(turning, turning[1:] + turning[:1], strict=True):
        start = arc.end - (arc.end - after.start) % tau
        yield f"{one} + {other}", Arc(start, arc.end)


def _overlaps(mountings: tuple[Mounting, ...]) -> Iterator[Item]:
    """From the tube out past the rings for each overlap, with its size."""
    outer = FIRST + STEP * len(mountings) - 2
    for names, arc in _between(mountings):
        yield _sector(arc, TUBE, outer, "metal")
        yield Callout(
            f"both {names}: {degrees(arc.span):.0f}°", on_circle(outer - 2, (arc.start + arc.end) / 2)
        )


def _tube(plan: TorusPlan) -> tuple[Item, ...]:
    """Its section, and the waste flat below it."""
    setting = plan.mountings.setting
    scale = TUBE / max(setting.tube.wide, setting.tube.high)
    y = -setting.flat_height * scale
    flat = line((-setting.flat_inner * scale, y), (setting.flat_outer * scale, y), width=0.9)
    return (
        *(
            [disc((0.0, 0.0), TUBE, fill="wood")]
            if setting.tube.round
            else moved([tube(setting.tube, fill="wood")], 0.0, 0.0, scale)
        ),
        flat,
        Words("tube", (0.0, 4.0), anchor="middle"),
        Words("axis to the left", (0.0, -8.0), anchor="middle"),
    )


def _directions(count: int) -> tuple[Item, ...]:
    last = FIRST + STEP * (count - 1)
    out = last + STEP - 4
    return (
        Callout("0° rim", (last, 0.0), "right"),
        Callout("180° hole", (-last, 0.0), "left"),
        Words("90° face", (0.0, out + 2), anchor="middle"),
        Words("270° waste flat", (0.0, -out - 14), anchor="middle"),
    )
