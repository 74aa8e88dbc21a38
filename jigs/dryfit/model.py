"""What the dry fit is made of: drawings, plates seen from above, two shapes in one section, and a check."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity

from geometry.plane.contour import Contour, Edge, polygon
from geometry.plane.edges import BoolArray, FloatArray, Point
from geometry.plane.sample import sample
from geometry.records import Record

FINE = 0.002  # mm, chords of curves
STRAIGHT = 1e-3  # mm off the line from neighbour to neighbour
HAIR = 0.01  # mm, wider than the crack between two pieces


class Check(Record):
    """A measured value and the limits it has to keep; lengths mm, angles degrees. `group` is what it belongs to.

    A `fault` measures nothing: the dry fit itself failed there, which says nothing about the jig.
    """

    where: str
    what: str
    value: float
    least: float = -inf
    most: float = inf
    unit: str = "mm"
    group: str = ""
    fault: bool = False

    @property
    def fits(self) -> bool:
        return self.least <= self.value <= self.most


def counted(where: str, what: str, found: int, wanted: int) -> Check:
    """As many pieces as are wanted."""
    return Check(where, what, found, wanted, wanted, "pieces")


def near(where: str, what: str, value: float, wanted: float, slack: float, unit: str = "mm") -> Check:
    """A value that has to be within `slack` of what is wanted."""
    return Check(where, what, value, wanted - slack, wanted + slack, unit)


class Named(Record):
    """What is checked: each check carries its name."""

    name: str

    def check(
        self, what: str, value: float, least: float = -inf, most: float = inf, unit: str = "mm"
    ) -> Check:
        return Check(self.name, what, value, least, most, unit)

    def all_within(self, what: str, values: Iterable[float], least: float, most: float = inf) -> list[Check]:
        return [self.check(what, value, least, most) for value in values]

    def near(self, what: str, value: float, wanted: float, slack: float, unit: str = "mm") -> Check:
        return near(self.name, what, value, wanted, slack, unit)

    def all_near(
        self, what: str, values: Iterable[float], wanted: float, slack: float, unit: str = "mm"
    ) -> list[Check]:
        return [self.near(what, value, wanted, slack, unit) for value in values]

    def counted(self, what: str, found: int, wanted: int) -> Check:
        return counted(self.name, what, found, wanted)


class Drill(Record):
    """A round hole."""

    centre: Point
    diameter: float


class Drawn(Named):
    """A drawing: its outline counter-clockwise, holes that are no circles, round holes, named lines."""

    outline: Contour
    holes: tuple[Contour, ...]
    drills: tuple[Drill, ...]
    lines: dict[str, FloatArray]  # (k, 2) points of all pieces of a line of that name
    engraved: FloatArray  # (k, 2) points of all engraved lines and lettering

    @cached_property
    def shape(self) -> shapely.Polygon:
        """The plate as a polygon, its holes left out."""
        return polygon_of(self.outline)

    def turned(self) -> Drawn:
        """Mirrored left to right, as it is for a saw whose blade tilts the other way."""
        way = np.array([-1.0, 1.0])
        return Drawn(
            self.name,
            self.outline.mirrored().ccw(),
            tuple(hole.mirrored().ccw() for hole in self.holes),
            tuple(Drill((-d.centre[0], d.centre[1]), d.diameter) for d in self.drills),
            {name: points * way for name, points in self.lines.items()},
            self.engraved * way,
        )

    def straight(self) -> list[Edge]:
        """The outline's straight edges."""
        return [edge for edge in self.outline.edges() if not edge.is_arc]


class Plate(Named):
    """A plate however it is made: its face, and how thick it is without its raised marks.

    `land` is the thickness of its edge, less than the plate's where that is bevelled; None where that is
    left to the file (cut and paper plates).
    """

    face: shapely.Polygon
    thickness: float
    land: float | None

    @property
    def outline(self) -> FloatArray:
        """The face's outer boundary, (m, 2), counter-clockwise."""
        return np.asarray(shapely.geometry.polygon.orient(self.face).exterior.coords)[:-1]


def polygon_of(contour: Contour) -> shapely.Polygon:
    """A contour as a fine polygon."""
    return shapely.Polygon(sample(contour, FINE))


def contour_of(face: shapely.Polygon) -> Contour:
    """A polygon's outer boundary, corners in one line with their neighbours left out."""
    points = np.asarray(shapely.geometry.polygon.orient(face).exterior.coords)[:-1]
    return polygon([(float(x), float(y)) for x, y in points[_corners(points)]])


def _corners(points: FloatArray) -> NDArray[np.bool_]:
    before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
    along = after - before
    off = (points - before)[:, 0] * along[:, 1] - (points - before)[:, 1] * along[:, 0]
    return np.asarray(np.abs(off) > STRAIGHT * np.hypot(along[:, 0], along[:, 1]))


def joined(faces: list[shapely.Polygon]) -> shapely.Polygon:
    """Pieces butted together, all in the coordinates of the whole. Raises ValueError where they do not meet."""
    if len(faces) == 1:
        return faces[0]
    closed = shapely.union_all([face.buffer(HAIR, join_style="mitre") for face in faces])
    whole = closed.buffer(-HAIR, join_style="mitre")
    if not isinstance(whole, shapely.Polygon):
        raise ValueError("the pieces do not meet")
    return whole


FAR = 1e4  # mm
TOUCHES = 0.01  # mm


def spans(face: shapely.Polygon, at: float, axis: int = 0) -> list[tuple[float, float]]:
    """From and to where a level line is on a plate, its holes filled; along axis 1 an upright line."""
    ends = [(-FAR, at), (FAR, at)] if axis == 0 else [(at, -FAR), (at, FAR)]
    cut = shapely.Polygon(face.exterior).intersection(shapely.LineString(ends))
    parts = [part.bounds for part in getattr(cut, "geoms", [cut]) if part.length > TOUCHES]
    return sorted((part[axis], part[axis + 2]) for part in parts)


def moved(shape: shapely.Polygon, dx: float, dy: float = 0.0) -> shapely.Polygon:
    """The shape in another place."""
    return affinity.translate(shape, dx, dy)


def gaps(points: FloatArray, shape: shapely.Polygon) -> FloatArray:
    """Distance of each point (m, 2) from the shape, negative by its depth inside, (m,)."""
    inside, found = _inside(points, shape), np.empty(len(points))
    found[inside] = -shapely.distance(shape.exterior, shapely.points(points[inside]))
    found[~inside] = shapely.distance(shape, shapely.points(points[~inside]))
    return found


def deepest(points: FloatArray, shape: shapely.Polygon) -> float:
    """How deep the deepest of some points (m, 2) stands in a shape, 0 where none does."""
    inside = shapely.points(within(points, shape))
    return float(shapely.distance(shape.exterior, inside).max(initial=0.0))


def within(points: FloatArray, shape: shapely.Polygon) -> FloatArray:
    """Those of some points (m, 2) that stand in a shape."""
    return points[_inside(points, shape)]


def farthest(points: FloatArray, shape: shapely.Polygon) -> float:
    """How far the farthest of some points (m, 2) lies off a shape, 0 where none does."""
    outside = points[~_inside(points, shape)]
    return float(shapely.distance(shape, shapely.points(outside)).max(initial=0.0))


def depth(one: shapely.Polygon, other: shapely.Polygon) -> float:
    """How deep one plate stands in another, 0 where they only touch, mm."""
    return max(deepest(dense(one), other), deepest(dense(other), one))


def _inside(points: FloatArray, shape: shapely.Polygon) -> BoolArray:
    shapely.prepare(shape)
    return np.asarray(shapely.contains_xy(shape, points[:, 0], points[:, 1]))


def dense(shape: shapely.Polygon) -> FloatArray:
    """Points along the outline no more than 0.5 mm apart, (m, 2)."""
    return np.asarray(shapely.segmentize(shape.exterior, 0.5).coords)
