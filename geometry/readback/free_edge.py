"""What a plate's edge may be without harm to its work."""

from __future__ import annotations

from math import inf

from geometry.plane.edges import Point
from geometry.records import Record


class FreeEdge(Record):
    """An edge on which nothing depends: it may stand back by `less` and out by `more` mm. `at` lies on it."""

    at: Point
    less: float = inf
    more: float = inf
