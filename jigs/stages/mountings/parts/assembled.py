"""The mountings put together: the blank on its first board, then the torus as it will be when finished.

The lathe's axis is z, away from the headstock; z = 0 is the height of the tube's centre.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, pi, sin

from geometry.plane.contour import Contour, circle, polygon, regular_polygon
from jigs.forms.torus.plan import TorusPlan
from jigs.measured.ring_sizes import as_glued
from jigs.parts.assembly import ALONG, UP, Assembly, Place, Places, put_together, turned_work, wedge_of_work
from jigs.parts.part import Part

UPRIGHT, TURNED_OVER = Place(), Place(x=ALONG, y=(0.0, -1.0, 0.0))


def assembled(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Every mounting, in the order of the work."""
    form = plan.job.form
    torus = ((turned_work("torus", circle((form.major_radius, 0.0), form.tube_radius)), UPRIGHT),)
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
            f"mounting-{name}",
            f"mounting {name.upper()}: {title}",
            parts,
            places,
            _blank(plan) if name == "a" else torus,
        )
    )


def _blank(plan: TorusPlan) -> tuple[tuple[Part, Place], ...]:
    """Every wedge ring, its lowest flat sanded for the glue."""
    blank, n = as_glued(plan.asked, plan.blank), plan.blank.wedge_rings
    section = regular_polygon(blank.segments, blank.apothem, -pi / 2)
    core = regular_polygon(blank.segments, blank.core_apothem, -pi / 2)
    ring = wedge_of_work(
        "wedge-ring",
        _cut_below(section, -plan.mountings.first.centre_height).moved(blank.centre, 0.0),
        2 * blank.half_wedge,
        (core.moved(blank.centre, 0.0).cw(),),
    )
    turns = [2 * pi * k / n for k in range(n)]
    return tuple((ring, Place(x=(cos(a), sin(a), 0.0), y=UP)) for a in turns)


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
