"""Dimensions and arrows as lines, with the places that their words may have."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, hypot, pi, sin

from jigs.figures.boxes import text_width
from jigs.figures.figure import THICK, WORDS, Anchor, Arrow, Dimension, Paint, Point, Shape, Words
from jigs.figures.shapes import line

ARROW = 2.4  # mm long
OVER = 0.8  # mm from a dimension's line to the words on it
OUT = 2.4  # and to words beside an upright one
SLIDES = (0.0, 0.25, -0.25, 0.5, -0.5)  # of the room that they have along it, from its middle


def dimension_items(one: Dimension, scale: float) -> tuple[tuple[Shape, ...], Iterator[Words]]:
    """Two lines to the places, one with arrows, these outside where there is no room between; and the places that
    its words may have, the best first."""
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    nx, ny = -uy, ux
    off, past = one.off / scale + one.away, 1.5 / scale * (1 if one.off >= 0 else -1)
    a, b = (ax + off * nx, ay + off * ny), (bx + off * nx, by + off * ny)
    ends = [line(p, (q[0] + past * nx, q[1] + past * ny), paint="grey") for p, q in ((one.a, a), (one.b, b))]
    head, wide = ARROW / scale, text_width(one.text, WORDS) / scale
    within = long >= wide + head
    if within:
        shaft = [line(a, b), _head(a, (ux, uy), head), _head(b, (-ux, -uy), head)]
    else:
        tails = [(p[0] + k * 2 * head * ux, p[1] + k * 2 * head * uy) for p, k in ((a, -1), (b, 1))]
        shaft = [line(tails[0], tails[1]), _head(a, (-ux, -uy), head), _head(b, (ux, uy), head)]
    beside = past / 1.5 * OUT
    out = ((a[0] + b[0]) / 2 + beside * nx, (a[1] + b[1]) / 2 + beside * ny)
    return (*ends, *shaft), _places(one.text, a, b, wide, scale, within, out)


def _places(
    text: str, a: Point, b: Point, wide: float, scale: float, within: bool, out: Point
) -> Iterator[Words]:
    """Over the line where it is long enough, from its middle outward, then under it; else past either end of it.

    Level at `out`, beside an upright one, where all of these lie over something.
    """
    (ax, ay), (bx, by) = a, b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    turn = atan2(uy, ux)
    flipped = not -pi / 2 + 1e-9 < turn <= pi / 2 + 1e-9
    angle = turn - (pi if turn > 0 else -pi) if flipped else turn
    up = (-sin(angle), cos(angle))

    def at(along: float, lift: float, anchor: Anchor) -> Words:
        place = (ax + along * ux + lift / scale * up[0], ay + along * uy + lift / scale * up[1])
        return Words(text, place, anchor=anchor, angle=angle)

    lifts, past = (OVER, -OVER - 0.75 * WORDS), 2.4 * ARROW / scale
    spare = long - wide - ARROW / scale
    if within:
        yield from (at(long / 2 + part * spare, lift, "middle") for lift in lifts for part in SLIDES)
    beyond: tuple[tuple[float, Anchor], ...] = (
        (long + past, "end" if flipped else "start"),
        (-past, "start" if flipped else "end"),
    )
    yield from (at(along, -0.35 * WORDS, anchor) for along, anchor in beyond)
    if not within:
        yield from (at(long / 2, lift, "middle") for lift in lifts)
    if abs(uy) > abs(ux):
        level = (out[0], out[1] - 0.35 * WORDS / scale)
        yield Words(text, level, anchor="start" if out[0] > (ax + bx) / 2 else "end")


def arrow_items(one: Arrow, scale: float) -> tuple[tuple[Shape, ...], Iterator[Words]]:
    """Its lines, and the places that its words may have, if it has any."""
    (ax, ay), (bx, by) = one.a, one.b
    long = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / long, (by - ay) / long
    head = 1.6 * ARROW / scale
    shaft = line(one.a, (bx - head * ux, by - head * uy), paint=one.paint, width=THICK)
    lines = (shaft, _head(one.b, (-ux, -uy), head, one.paint, 4))
    if not one.text:
        return lines, iter(())
    beside, half = 2.0 / scale, 0.35 * WORDS / scale
    left, level = one.side == "left", abs(ux) > abs(uy)
    anchor: Anchor = "middle" if level else "end" if left else "start"
    across = (0.0, beside) if level else (-beside if left else beside, -half)
    parts = (0.5 + slide for slide in SLIDES)
    places = ((ax + k * (bx - ax) + across[0], ay + k * (by - ay) + across[1]) for k in parts)
    return lines, (Words(one.text, at, anchor=anchor) for at in places)


def _head(tip: Point, along: Point, head: float, paint: Paint = "ink", slim: float = 6) -> Shape:
    """Filled, its tip there, its shaft along."""
    (x, y), (ux, uy) = tip, along
    back, half = (x + head * ux, y + head * uy), head / slim
    corners = [tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)]
    return Shape(tuple((px, py, 0.0) for px, py in corners), closed=True, fill=paint, stroke=None)
