"""By how much the rings of a stack are turned against one another, and what that does to their joint. mm, radians."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, cos, pi, sin

from geometry.blanks.ring_stack import Ring

_PLACES = 32  # between two corners, where a width's slope is looked at for a change of sign
_HALVINGS = 60
_TIE = 1e-9


def wrapped(angle: float) -> float:
    """The same direction, over -π and up to π."""
    turn = angle % (2 * pi)
    return turn - 2 * pi if turn > pi else turn


def stands_over(segments: int, turn: float) -> tuple[int, float]:
    """Which segment of a ring the middle of segment 1 of the ring on it stands over, and by how much past its middle.

    `turn` is that of the upper ring against the lower, counter-clockwise from above, as segments are numbered. Over a
    joint it is the segment before it.
    """
    pitch = 2 * pi / segments
    number = ceil(turn / pitch - 0.5 - _TIE)
    return number % segments + 1, turn - number * pitch


def width_turned(lower: Ring, upper: Ring, turn: float) -> float:
    """The least radial width on which two rings of one number of segments meet before turning, one turned by `turn`.

    0 or less where they do not meet all round. What counts is the nearer outside less the farther opening in every
    direction: the lesser of each ring's own depth and, of either with the other, the least of A/cos φ - C/cos(φ - t).
    """
    pitch = 2 * lower.mitre
    rest = turn % pitch
    crossed = min(
        _least(lower.outer, upper.core, lower.mitre, rest),
        _least(upper.outer, lower.core, lower.mitre, -rest),
    )
    return min(lower.outer - lower.core, upper.outer - upper.core, crossed)


def _least(outer: float, core: float, mitre: float, turn: float) -> float:
    """The least of A/cos φ - C/cos(φ - t) over a pitch; both angles are those from the middle of their own flat."""
    turn %= 2 * mitre
    corner = turn - mitre  # of the opening, within -μ..μ of the outer flat; the next flat of it lies before

    def width(phi: float, shift: float) -> float:
        return outer / cos(phi) - core / cos(phi + shift)

    def slope(phi: float, shift: float) -> float:
        psi = phi + shift
        return outer * sin(phi) / cos(phi) ** 2 - core * sin(psi) / cos(psi) ** 2

    found = []
    for begin, end, shift in ((-mitre, corner, 2 * mitre - turn), (corner, mitre, -turn)):
        found += [width(begin, shift), width(end, shift)]
        places = [begin + (end - begin) * k / _PLACES for k in range(_PLACES + 1)]
        for low, high in pairwise(places):
            if slope(low, shift) < 0.0 <= slope(high, shift):
                for _ in range(_HALVINGS):
                    middle = (low + high) / 2
                    low, high = (middle, high) if slope(middle, shift) < 0.0 else (low, middle)
                found.append(width(low, shift))
    return min(found)
