"""Truing the ends of quarters and halves: what comes off where, and what it costs.

A half's two end faces should lie in one plane through the torus axis, the planned line. Its rings at the
ends are cut `spare` over there, square to the face. A half that is `error` out spans pi + error. Seen
along the axis: the planned line is y = 0, the half lies at y > 0, wood at y < 0 is to be sanded off.
Lengths mm, angles radians.
"""

from __future__ import annotations

from math import asin, cos, hypot, sin

from geometry.bodies.torus import Blank
from geometry.records import Record


class Trued(Record):
    """What truing a half takes off at the hole's edge and at the rim's edge of its end faces.

    `shift` is how far past the planned line, into the half, the new plane lies: + brings the halves
    nearer to one another, - leaves them farther apart. It is what the truing eats of the allowance.
    """

    inner: float
    outer: float
    shift: float

    @property
    def most(self) -> float:
        return max(self.inner, self.outer)


def half_ends(rings: int) -> dict[int, int]:
    """The rings at the ends of the two halves, numbered from 1 round the torus, and which face of each is the end.

    Face 2 of a ring meets face 1 of the next; one half is rings 1 to N/2.
    """
    half = rings // 2
    return {1: 1, half: 2, half + 1: 1, rings: 2}


def half_error(blank: Blank, error: float) -> float:
    """Error of a half's span when every ring's included angle is out by `error`: N error/2."""
    return blank.wedge_rings * error / 2


def _edges(blank: Blank, error: float, spare: float) -> tuple[float, float]:
    """y of an end face's edges at hole and rim before truing."""
    lean = -error / 2  # of the face, + into the half
    c = cos(blank.half_wedge)

    def height(radius: float) -> float:
        return radius / c * sin(lean) - spare * cos(lean)

    return height(blank.inner_radius), height(blank.outer_radius)


def until_clean(blank: Blank, error: float, spare: float = 0.0) -> Trued:
    """Sand only until both whole faces lie in one plane.

    Up to (2 A_x/c) |error|/2 comes off at an edge, and the plane moves (R_p + A_x)/c |error|/2 into a half
    that spans too little, or stays (R_p - A_x)/c |error|/2 short in one that spans too much.
    """
    inner, outer = _edges(blank, error, spare)
    plane = max(inner, outer)
    return Trued(plane - inner, plane - outer, plane)


def to_line(blank: Blank, error: float, spare: float) -> Trued:
    """Sand to the planned line, and past it only where the wood does not reach it."""
    inner, outer = _edges(blank, error, spare)
    plane = max(inner, outer, 0.0)
    return Trued(plane - inner, plane - outer, plane)


def wood_left(wood: float, trued: Trued) -> float:
    """Least wood left round the finished form, of `wood`, once the half's plane has moved by `trued.shift`."""
    return wood - abs(trued.shift)


def largest_error(blank: Blank, wood: float, spare: float) -> float:
    """Largest shortfall (radians) of a half's span at which the finished form still fits.

    The rim's edge rises by (R_p + A_x)/c sin(e/2) - spare cos(e/2), which may eat all of the `wood` round it.
    """
    reach = hypot(blank.outer_radius / cos(blank.half_wedge), spare)
    return 2 * (asin(min(1.0, wood / reach)) + asin(spare / reach))


def end_wedge(wedge_at_stop: float, half_wedge: float, spare: float) -> float:
    """Thickness at the stop of the wedge that leaves `spare`, square to the face, on an end ring.

    The mid-plane is parallel to the fence in that cut: moved by spare/cos w, the face moves by spare.
    """
    return wedge_at_stop - spare / cos(half_wedge)
