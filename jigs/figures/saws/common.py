"""What every set-up shows: the blade's line, what is fed, what lies under the base."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from geometry.hardware.stop_sled import StopSled
from jigs.figures.items import Arrow, Item, Paint, Point, Shape, box, line, polygon
from jigs.plans.torus import TorusPlan

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.layout.sled import LayupSledLayout

CENTRE_LINE = (5.0, 1.2, 1.0, 1.2)
HIDDEN = (1.8, 1.2)
BLADE_SHOWN = 45.0  # mm of the blade beyond the base


def blade(left: float, right: float, y: float) -> Shape:
    """Beyond a base whose far edge is there, before the cut."""
    return box(left, y, right, y + BLADE_SHOWN, fill="blade")


def blade_line(x: float, low: float, high: float) -> Shape:
    """Where the cut runs."""
    return line((x, low), (x, high), paint="blade", width=0.3, dashes=CENTRE_LINE)


def hidden(*points: Point) -> Shape:
    """What lies under something."""
    return line(*points, paint="grey", dashes=HIDDEN)


def runner(sides: tuple[float, float], low: float, high: float) -> tuple[Item, ...]:
    """Under the base, in the mitre slot."""
    return tuple(hidden((x, low), (x, high)) for x in sides)


def feed(x: float, low: float, high: float) -> Arrow:
    """Away from the operator, beside the base."""
    return Arrow((x, low), (x, high), "feed")


def bare(
    own: LayupSledLayout | StopSled, left: float, low: float, fence: Shape, cut: tuple[float, float]
) -> tuple[Item, ...]:
    """A sled from this edge of its base, and this one nearest the operator, on; x of the blade's two sides."""
    far = own.far_edge
    return (
        box(left, low, own.right_edge, far, fill="jig"),
        *(runner(own.runner, low, far) if left < own.runner[0] else ()),
        box(*own.exit_block, fill="pale"),
        fence,
        blade(*cut, far),
        blade_line(0.0, low - 4, far),
        feed(left - 12, low + 15, low + 60),
    )


def held(own: StopSled) -> Shape:
    """The finger on the piece."""
    left, right = own.foot
    return box(left, 0.0, right, own.hold.finger_end, fill="grey")


def wall(
    place: Callable[[float, float], Point], along: tuple[float, float], out: tuple[float, float], fill: Paint = "pale"
) -> Shape:  # fmt: skip
    """What stands upright on a base, from and to along a fence and off its face."""
    places = ((along[0], out[0]), (along[1], out[0]), (along[1], out[1]), (along[0], out[1]))
    return polygon([place(*corner) for corner in places], fill=fill)


def outward(plan: TorusPlan) -> str:
    """What of the ring lies against the stop."""
    return "corner" if plan.blank.arris_out else "flat"
