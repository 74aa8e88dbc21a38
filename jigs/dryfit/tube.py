"""The tube as the job states it, by arithmetic of the dry fit's own: an ellipse, and the curves parallel to it.

A place has the angle of its normal, in degrees from straight out; of a circle that is the angle round it.
"""

from __future__ import annotations

import numpy as np
import shapely

from geometry.plane.edges import FloatArray
from jigs.asked.job import Form

ALL_ROUND = np.linspace(0.0, 360.0, 1441)
_HALVINGS = 40
_GOLDEN = (5**0.5 - 1) / 2


def half_sizes(form: Form) -> tuple[float, float]:
    """Half the tube's width and half its height, finished."""
    return form.tube_diameter / 2, (form.tube_height or form.tube_diameter) / 2


def places(form: Form, more: float, angles: FloatArray) -> FloatArray:
    """Points (m, 2) so far outside the finished tube, about its centre, at these angles (m,) in degrees."""
    wide, high = half_sizes(form)
    c, s = np.cos(np.radians(angles)), np.sin(np.radians(angles))
    if wide == high:
        return np.column_stack([(wide + more) * c, (wide + more) * s])
    support = np.hypot(wide * c, high * s)
    return np.column_stack([wide**2 * c / support + more * c, high**2 * s / support + more * s])


def place(form: Form, more: float, angle: float) -> tuple[float, float]:
    """One of them."""
    x, y = places(form, more, np.array([angle]))[0].tolist()
    return x, y


def section(form: Form, more: float, centre: float) -> shapely.Polygon:
    """The tube so much larger, its centre so far from the axis."""
    return shapely.Polygon(places(form, more, ALL_ROUND[:-1]) + np.array((centre, 0.0)))


def seen(form: Form, points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """How far points (m, 2) lie outside the finished tube (m,), and the angles of its places nearest to them.

    That distance is the greatest of n·p - h over the normals n: looked for all round, then by golden sections.
    """
    wide, high = half_sizes(form)
    if wide == high:
        off, turn = np.hypot(points[:, 0], points[:, 1]), np.arctan2(points[:, 1], points[:, 0])
        return off - wide, np.degrees(turn) % 360

    def beyond(turn: FloatArray) -> FloatArray:
        c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
        return np.asarray(points[:, :1] * c + points[:, 1:] * s - np.hypot(wide * c, high * s))

    best = ALL_ROUND[beyond(ALL_ROUND[None, :]).argmax(axis=1)][:, None]
    low, top = best - 0.25, best + 0.25
    for _ in range(_HALVINGS):
        one, two = top - _GOLDEN * (top - low), low + _GOLDEN * (top - low)
        higher = beyond(one) > beyond(two)
        low, top = np.where(higher, low, one), np.where(higher, two, top)
    middle = (low + top) / 2
    return beyond(middle)[:, 0], middle[:, 0] % 360


def widths(form: Form, more: float, heights: FloatArray) -> FloatArray:
    """Half widths (m,) of the tube so much larger at heights (m,); 0 past its top."""
    wide, high = half_sizes(form)
    if wide == high:
        return np.sqrt(np.maximum((wide + more) ** 2 - heights**2, 0.0))
    x, y = places(form, more, np.linspace(-90.0, 90.0, 20001)).T
    return np.asarray(np.interp(heights, y, x, left=0.0, right=0.0))


def angle_at(form: Form, more: float, height: float) -> float:
    """The angle, -90 to 90 degrees, at which the tube so much larger has this height."""
    turns = np.linspace(-90.0, 90.0, 20001)
    return float(np.interp(height, places(form, more, turns)[:, 1], turns))
