"""What small errors of sawing come to in a glued ring and in a closed torus. Lengths mm, angles radians, all small."""

from __future__ import annotations

from math import tan

from geometry.blanks.truing import to_line
from geometry.bodies.torus import Blank


def open_joint(radius: float, ends: int, error: float) -> float:
    """How far the last joint stays open at a radius where so many ends are each out by an angle."""
    return radius * ends * error


def skewed_step(blank: Blank, error: float) -> float:
    """From a wedge ring to the next, where both faces of all are turned alike: thick edge times the angle.

    So does a first cut that is out, seen along the torus axis, and a blade out of upright, seen from the rim.
    """
    return blank.thick_edge * error


def moved_out(blank: Blank, thicker: float) -> float:
    """How far a wedge ring's middle moves from the axis where its thick edge is so much longer: by 1/(2 tan w)."""
    return thicker / (2 * tan(blank.half_wedge))


def halves_nearer(blank: Blank, short: float, spare: float) -> float:
    """How far past the planned line each half ends, where its end rings are `short` of the `spare` left for sanding."""
    return to_line(blank, 0.0, spare - short).shift
