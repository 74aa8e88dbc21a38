"""The mountings put together, in each the work as it is when it is mounted: what is turned, what is flat still.

The lathe's axis is z, away from the headstock; z = 0 is the height of the tube's centre.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import atan2, cos, inf, pi, sin, tau

import numpy as np

from geometry.plane.contour import Contour, polygon, regular_polygon
from jigs.measured.ring_sizes import as_glued
from jigs.parts.assembly import ALONG, UP, Assembly, Place, Places, put_together, wedge_of_work
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan

UPRIGHT, TURNED_OVER = Place(), Place(x=ALONG, y=(0.0, -1.0, 0.0))


def assembled(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Every mounting, in the order of the work, which is drawn as it is when that mounting begins."""
    first, channel, retainer = "first-board-section", "channel-section", "retainer-section"
    stand: dict[str, tuple[str, Places]] = {
        "a": ("the blank on the first board", {first: (UPRIGHT,)}),
        "b": (
            "the work reversed on the retainer, the first board on it still",
            {retainer: (TURNED_OVER,), first: (TURNED_OVER,)},
        ),
        "c": ("the work in its channel, held by braces", {channel: (UPRIGHT,), **_braces(plan)}),
        "d": ("the work in its channel, held by the retainer", {channel: (UPRIGHT,), retainer: (UPRIGHT,)}),
    }
    return tuple(
        found
        for name, (title, places) in stand.items()
        for found in put_together(
            f"mounting-{name}", f"mounting {name.upper()}: {title}", parts, places, _work(plan, name.upper())
        )
    )


def _work(plan: TorusPlan, mounting: str) -> tuple[tuple[Part, Place], ...]:
    """Every wedge ring, its lowest flat sanded for the glue, turned as far as the mountings before have; from B on
    the side that is turned first lies down."""
    blank, n = as_glued(plan.asked, plan.blank), plan.blank.wedge_rings
    section = regular_polygon(blank.segments, blank.apothem, -pi / 2)
    core = regular_polygon(blank.segments, blank.core_apothem, -pi / 2)
    outline = _cut_below(section, -plan.mountings.first.centre_height).moved(blank.centre, 0.0)
    ring = wedge_of_work(
        "wedge-ring",
        outline,
        2 * blank.half_wedge,
        (core.moved(blank.centre, 0.0).cw(),),
        _turned_before(plan, mounting, outline),
    )
    turns = [2 * pi * k / n for k in range(n)]
    up = UP if mounting == "A" else (0.0, 0.0, -1.0)
    return tuple((ring, Place(x=(cos(a), sin(a), 0.0), y=up)) for a in turns)


def _turned_before(plan: TorusPlan, mounting: str, outline: Contour) -> Contour | None:
    """The tube's section where earlier mountings turned it, open to well outside the wood elsewhere."""
    names = [one.name for one in plan.mountings.mountings]
    gone = [one.turns for one in plan.mountings.mountings[: names.index(mounting)] if one.turns]
    if not gone:
        return None
    start, end = gone[0].start, max(arc.end for arc in gone)  # each begins within the one before
    major, tube = plan.job.form.major_radius, plan.job.form.tube
    x0, y0, x1, y1 = outline.bounds
    box = (0.5 * x0 - major, 2 * y0, 2 * x1 - major, 2 * y1)
    corners = [(box[0], box[3]), (box[0], box[1]), (box[2], box[1]), (box[2], box[3])]
    left = tau - (end - start)
    between = sorted(((atan2(y, x) - end) % tau, (x, y)) for x, y in corners)
    beyond = [_on_box(end, box), *(at for past, at in between if past < left), _on_box(start, box)]
    last = tube.at(end)
    rows = [
        *tube.run(tube.at(start), last, ccw=True, more=1),
        (*last, 0.0),
        *((x, y, 0.0) for x, y in beyond),
    ]
    return Contour(np.array(rows)).moved(major, 0.0)


def _on_box(angle: float, box: tuple[float, float, float, float]) -> tuple[float, float]:
    """Where a ray from the origin leaves a box round it."""
    c, s = cos(angle), sin(angle)
    reach = min(
        (box[2] if c > 0 else box[0]) / c if abs(c) > 1e-12 else inf,
        (box[3] if s > 0 else box[1]) / s if abs(s) > 1e-12 else inf,
    )
    return (reach * c, reach * s)


def _cut_below(section: Contour, height: float) -> Contour:
    """A regular polygon, a flat of it lowest, with less of that flat."""
    points = section.points.tolist()
    kept = []
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
        if y0 >= height:
            kept.append((x0, y0))
        if (y0 < height) != (y1 < height):
            t = (height - y0) / (y1 - y0)
            kept.append((x0 + t * (x1 - x0), height))
    return polygon(kept)


def _braces(plan: TorusPlan) -> Places:
    """Blocks on the channel board, pads on them, straps on the waste flat."""
    brace, count = plan.mountings.brace, plan.holding.braces
    face = -plan.holding.channel.centre_height
    pad = face + brace.layers * brace.thickness
    heights = [face + k * brace.thickness for k in range(brace.layers)]
    turns = [2 * pi * k / count for k in range(count)]

    def round_axis(height: float) -> tuple[Place, ...]:
        return tuple(
            Place(
                (brace.tip * cos(a), brace.tip * sin(a), height),
                (cos(a), sin(a), 0.0),
                (-sin(a), cos(a), 0.0),
            )
            for a in turns
        )

    blocks = {"brace-block-layer": tuple(one for height in heights for one in round_axis(height))}
    return {
        **(blocks if heights else {}),
        "brace-pad": round_axis(pad),
        "brace-strap": round_axis(plan.mountings.setting.flat_height),
    }
