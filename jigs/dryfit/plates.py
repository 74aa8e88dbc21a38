"""What the readers of the dry fit hand over: drawings, and plates seen from above."""

from __future__ import annotations

from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.plane.arcs import FloatArray, Point
from geometry.plane.contour import Contour, Edge, polygon
from geometry.plane.sample import sample
from geometry.records import dataclass

FINE = 0.002  # mm, chords of curves
STRAIGHT = 1e-3  # mm off the line from neighbour to neighbour
HAIR = 0.01  # mm, wider than the crack between two pieces


@dataclass(frozen=True)
class Drill:
    """A round hole."""

    centre: Point
    diameter: float


@dataclass(frozen=True)
class Drawn:
    """A drawing: its outline counter-clockwise, holes that are no circles, round holes, named lines."""

    name: str
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


@dataclass(frozen=True)
class Plate:
    """A plate however it is made: its face, and how thick it is without its raised marks.

    `land` is the thickness of its edge, less than the plate's where that is bevelled; None where that is
    left to the file (cut and paper plates).
    """

    name: str
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
