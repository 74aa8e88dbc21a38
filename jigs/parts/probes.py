"""How a dimension is measured back from a written file."""

from __future__ import annotations

from typing import Literal

from geometry.plane.edges import Point
from geometry.records import Record


class Extent(Record):
    """Size of the outline's bounding box along one axis."""

    axis: Literal["x", "y"]


class Thickness(Record):
    """Thickness of the plate, without raised text."""


class ArcRadius(Record):
    """Radius of the working arc about `centre`, counter-clockwise from `start` to `end` (radians)."""

    centre: Point
    start: float
    end: float


class EdgeAngle(Record):
    """Angle at the crossing of two straight edges, seen towards a point on each."""

    first: Point
    second: Point


class EdgeGap(Record):
    """Distance square to the straight edge under `first`, from it to the middle of the edge under `second`."""

    first: Point
    second: Point


class EdgeLength(Record):
    """Length of the straight edge under `point`."""

    point: Point


class HoleDiameter(Record):
    """Diameter of the round hole about `centre`."""

    centre: Point


class ProfileForm(Record):
    """A whole working edge, open: `rows` of x, y and the bulge of the edge to the next row.

    Measured back is how far it is out, so the dimension's value is 0: the worst distance, both ways, square to
    the edge.
    """

    rows: tuple[tuple[float, float, float], ...]


Probe = Extent | Thickness | ArcRadius | EdgeAngle | EdgeGap | EdgeLength | HoleDiameter | ProfileForm
