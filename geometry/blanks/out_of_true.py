"""What small errors of sawing come to in a glued ring and in a closed torus. Lengths mm, angles radians, all small.

A strip of parallel faces turns nothing: it only parts two segments, square to their joint. So strips that are all
out by as much make a larger or a smaller ring that still closes; one that tapers opens its joint on the thin side.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sin, tan

import numpy as np

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


def across_flats_off(error: float, segments: int) -> float:
    """How much wider across its flats a ring is whose strips are all `error` too thick: error / sin mu."""
    return error / sin(pi / segments)


def light_in_all(taper: float, segments: int) -> float:
    """Light at one side of a ring, all joints together, where each strip is `taper` thicker at the other side."""
    return segments * taper


def half_step(errors: Sequence[float]) -> float:
    """How far out of one line the two ends of a half ring lie, whose strips have these errors from end to end.

    The ends stay parallel; each error counts by its share along their normal.
    """
    joints = len(errors) + 1
    return float(np.asarray(errors, dtype=np.float64) @ np.cos(pi * np.arange(1, joints) / joints))
