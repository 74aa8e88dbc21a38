"""The mountings put together, the torus in them as it will be when finished.

The lathe's axis is z, away from the headstock; z = 0 is the height of the tube's centre.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, pi, sin

from geometry.plane.contour import circle
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.assembly import ALONG, Assembly, Place, Places, put_together, turned_work
from jigs.parts.part import Part

UPRIGHT, TURNED_OVER = Place(), Place(x=ALONG, y=(0.0, -1.0, 0.0))


def assembled(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Every mounting, in the order of the work."""
    form = plan.job.form
    work = ((turned_work("torus", circle((form.major_radius, 0.0), form.tube_radius)), UPRIGHT),)
    first, channel, retainer = "first-board-section", "channel-section", "retainer-section"
    stand: dict[str, tuple[str, Places]] = {
        "a": ("the work on the first board", {first: (UPRIGHT,)}),
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
            f"mounting-{name}", f"mounting {name.upper()}: {title}", parts, places, work
        )
    )


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
