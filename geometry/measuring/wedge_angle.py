"""The included angle of wedge rings, from a few of them pushed dry into a corner; and what takes its error out.

Seen along the torus axis, which is the corner's point: m rings stand between the corner's two arms, one end face on
the first arm. They should fill 2 m w; E is by how much they span more (radians). The rings are alike: each is out by
E/m. w = pi/N, c = cos w. An end face is 2 A_x/c long, A_x being from a ring's middle to its outer flat or arris.
"""

from __future__ import annotations

from math import asin, cos, sin, tan

from geometry.bodies.torus import Blank
from geometry.measuring.estimate import Estimate, propagated
from geometry.records import Record


def face_length(blank: Blank) -> float:
    """Of a wedge face, from the hole's edge to the rim's, 2 A_x/c."""
    return 2 * blank.half_width / cos(blank.half_wedge)


def error_from_gap(blank: Blank, at_rim: Estimate | None, at_hole: Estimate | None) -> Estimate:
    """E from the light between the last face and the other arm: -asin(g/(2 A_x/c)) at the rim, + at the hole.

    Rings that span too little touch that arm with their hole's edge, others with their rim's. Raises ValueError where
    neither is given. A gap longer than the face counts as one as long.
    """
    if at_rim is None and at_hole is None:
        raise ValueError("no gap was read")
    length = face_length(blank)
    rim, hole = at_rim or Estimate(0.0, 0.0), at_hole or Estimate(0.0, 0.0)
    return propagated(lambda a, b: seen(b, length) - seen(a, length), rim, hole)


def seen(gap: float, length: float) -> float:
    """The angle between two edges of this length that touch at one end."""
    return asin(max(-1.0, min(1.0, gap / length)))


def chord(thick: float, rings: int, included: float) -> float:
    """Between the outer corners of m rings of one thick edge, each of this included angle.

    The corners lie on a circle in equal steps: thick sin(m a)/sin a with a = included/2.
    """
    return thick * sin(rings * included / 2) / sin(included / 2)


def error_from_chord(blank: Blank, rings: int, over: Estimate, thick: Estimate) -> Estimate:
    """E from the chord over the outer corners and the rings' thick edge as read.

    The thick edge is what the stop sets, whatever the angle: a chord compared with the plan's radius would take a
    ring that is too thick for one that is too open. Raises ValueError for a chord that no such rings have.
    """
    return propagated(lambda c, t: _from_chord(blank, rings, c, t), over, thick)


def _from_chord(blank: Blank, rings: int, over: float, thick: float) -> float:
    """By Newton's method from the planned angle; the chord falls steadily as the rings open."""
    if rings < 2 or min(over, thick) <= 0:
        raise ValueError("one ring's chord is its thick edge, and both are more than nothing")
    planned, step = 2 * blank.half_wedge, 1e-6
    included = planned
    for _ in range(30):
        off = chord(thick, rings, included) - over
        slope = (chord(thick, rings, included + step) - chord(thick, rings, included - step)) / (2 * step)
        included -= off / slope
        if not planned / 2 < included < 2 * planned:
            raise ValueError("no rings of this thick edge have such a chord")
        if abs(off) < 1e-9:
            break
    return rings * (included - planned)


class WedgeShim(Record):
    """What turns the second cut of each ring by `turn` (+ makes rings larger): one of the two, at either end.

    Paper `thick_end` under the thick end (where it is negative, so much off it, tapering to nothing at the thin end).
    Or paper `thin_end` under the thin end, which is for a negative turn: it pushes the ring towards the blade, so
    `stop` is planed off the stop, square to its edges, to keep the ring's size.
    """

    turn: float
    thick_end: float
    thin_end: float
    stop: float


def wedge_shim(blank: Blank, length: float, turn: float) -> WedgeShim:
    """For a wedge whose ends are `length` apart along the fence: L tan|E/m| at an end.

    A thickness s at the stop makes the ring s/(2 tan w) smaller in R_p, a stop out by d along the fence d larger.
    """
    at_end = length * tan(turn)
    under = max(0.0, -at_end)
    return WedgeShim(turn, at_end, under, blank.packing * under / (2 * tan(blank.half_wedge)))


class FaceTaper(Record):
    """What comes off each wedge face of a ring that is cut already, square to it, tapering to nothing."""

    at_hole: float
    at_rim: float
    centre: float  # R_p then, where the edge that stays has its planned length


def face_taper(blank: Blank, turn: float) -> FaceTaper:
    """Each face turns by half of `turn`: (2 A_x/c) tan(|turn|/2) off at the hole's edge if the ring has to open, at the
    rim's if it has to close.

    The edge that stays keeps its length: the thick edge in the first case, and R_p with it; the thin one in the other.
    """
    w, most = blank.half_wedge, face_length(blank) * tan(abs(turn) / 2)
    if turn >= 0:
        return FaceTaper(most, 0.0, blank.centre)
    before = w - turn / 2  # half of the ring's included angle
    thin = blank.thick_edge - 4 * blank.half_width * tan(before)
    return FaceTaper(0.0, most, thin / (2 * tan(w)) + blank.half_width + blank.parted)
