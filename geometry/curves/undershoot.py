"""Where the smooth curve through stations comes nearer to the axis than both stations beside it, as few stations make
it. Points are (radius, height), mm."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from geometry.curves.spline import through
from geometry.plane.edges import Point
from geometry.records import Record

PLACES = 65  # looked at between two stations
MOST_MORE = 4  # stations


class Undershoot(Record):
    """Of the span between two stations."""

    span: tuple[float, float]  # heights of both
    height: float  # where the curve is nearest to the axis
    radius: float  # of the curve there
    stated: float  # the smaller radius of both

    @property
    def depth(self) -> float:
        return self.stated - self.radius


def undershoots(points: Sequence[Point]) -> list[Undershoot]:
    """Every span that is thinner than both its ends."""
    curve, found = through(np.array(points)), []
    for (start, end), (from_t, to_t) in zip(pairwise(points), pairwise(curve.knots), strict=True):
        x, y = min(curve.at(np.linspace(from_t, to_t, PLACES)), key=lambda place: float(place[0]))
        own = Undershoot((start[1], end[1]), float(y), float(x), min(start[0], end[0]))
        found += [own] if own.depth > 0 else []
    return found


def steadied(points: Sequence[Point], slack: float) -> list[Point]:
    """With stations more, each where the curve was thinnest, as wide as the smaller one beside it.

    Until it undershoots by no more than `slack`, or there are too many.
    """
    more = list(points)
    while len(more) < len(points) + MOST_MORE and (found := undershoots(more)):
        worst = max(found, key=lambda one: one.depth)
        if worst.depth <= slack:
            break
        more = sorted([*more, (worst.stated, worst.height)], key=lambda point: point[1])
    return more
