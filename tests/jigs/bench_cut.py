"""Cuts a wedge ring on the sled as its parts are drawn: plane geometry on contours, not the plan's numbers.

Everything is seen from above: a wedge ring's stock is a rectangle, T along the tube by its width across.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees

import numpy as np
import shapely

from geometry.plane.contour import Contour
from geometry.readback.measure import straight_edge
from jigs.parts.part import Line, Part
from jigs.parts.probes import EdgeAngle, EdgeGap

Vector = np.ndarray
FAR = 1e4


@dataclass(frozen=True)
class Side:
    """A straight line through `point` along the unit vector `along`."""

    point: Vector
    along: Vector

    def distance(self, place: Vector) -> float:
        """Square to the line, + to the left of it."""
        x, y = np.asarray(place) - self.point
        return float(self.along[0] * y - self.along[1] * x)

    def moved(self, left: float) -> Side:
        return Side(self.point + left * np.array([-self.along[1], self.along[0]]), self.along)

    def meets(self, other: Side) -> Vector:
        t = np.linalg.solve(np.column_stack([self.along, -other.along]), other.point - self.point)[0]
        return np.asarray(self.point + t * self.along)

    def angle_to(self, other: Side) -> float:
        """In degrees, 0 to 90."""
        (a, b), (c, d) = self.along, other.along
        return degrees(np.arctan2(abs(a * d - b * c), abs(a * c + b * d)))


def through(a: Vector, b: Vector) -> Side:
    a, b = np.asarray(a, dtype=float), np.asarray(b, dtype=float)
    return Side(a, (b - a) / np.hypot(*(b - a)))


@dataclass(frozen=True)
class Sled:
    """What the parts make of it: the fence's face runs from the apex, the stop's line square to it to the blade.

    The blade is to the left of the face; the wedge's edge runs from the stop to the apex.
    """

    face: Side
    stop: Side
    wedge: Side  # its edge that the ring bears on
    blade: float  # x

    @property
    def corner(self) -> Vector:
        """Where the stop stands on the fence."""
        return self.face.meets(self.stop)


def sled_as_drawn(parts: dict[str, Part], sheet: float) -> Sled:
    """Put the sled together; `sheet` is the measured thickness that goes into the slots."""
    base = parts["sled-base"]
    lines = [mark for mark in base.marks if isinstance(mark, Line)]
    blade = next(line for line in lines if line.name == "blade line").points
    marked = through(*next(line for line in lines if line.name == "fence line").points)
    slots = [hole for hole in base.holes if len(hole) == 4 and runs_along(hole, marked)]
    side = [marked.distance(slot.centroid) for slot in slots]
    fence = [slot for slot, off in zip(slots, side, strict=True) if -sheet < off < 0]
    cheeks = [slot for slot, off in zip(slots, side, strict=True) if off > 0]
    face = fence_face(fence, marked, sheet)
    stop = stop_line(parts["sled-stop-cheek"], cheeks, face)
    return Sled(face, stop, wedge_edge(parts["sled-wedge"], face, stop), blade[0][0])


def runs_along(slot: Contour, marked: Side) -> bool:
    """Whether a slot has a wall along the fence; the handle's have not."""
    walls = [through(edge.start, edge.end) for edge in slot.edges()]
    return any(wall.angle_to(marked) < 1e-6 for wall in walls)


def fence_face(slots: list[Contour], marked: Side, sheet: float) -> Side:
    """The fence pressed away from the blade, against the far walls of its slots."""
    walls = [sorted(slot.points, key=marked.distance)[:2] for slot in slots]
    corners = sorted((corner for wall in walls for corner in wall), key=lambda p: float(p @ marked.along))
    wall = through(corners[0], corners[-1])
    assert all(abs(wall.distance(corner)) < 1e-6 for corner in corners), (
        "the fence's slots are not in one line"
    )
    return wall.moved(sheet)


def stop_line(cheek: Part, slots: list[Contour], face: Side) -> Side:
    """The cheek's working edge, its tab pressed to the end of the slot away from the apex."""
    tab = cheek.outline.points[cheek.outline.points[:, 1] < -1e-9]
    reach = float(tab[:, 0].max()) - working_edge(cheek)
    ends = [sorted(slot.points, key=lambda p: -float(p @ face.along))[:2] for slot in slots]
    rears = [through(*sorted(end, key=face.distance)) for end in ends]
    lines = [Side(rear.point - reach * face.along, rear.along) for rear in rears]
    assert all(abs(lines[0].distance(line.point)) < 1e-6 for line in lines), "the cheeks do not line up"
    return lines[0]


def working_edge(cheek: Part) -> float:
    """x of the ring's outer flat at the cheek, or of its arris in the V."""
    probe = cheek.dimensions[0].probe
    if isinstance(probe, EdgeGap):
        flat = straight_edge((cheek.outline,), probe.first)
        assert abs(flat.start[0] - flat.end[0]) < 1e-9, "the stop's edge is not upright"
        return flat.start[0]
    assert isinstance(probe, EdgeAngle)
    arms = [straight_edge((cheek.outline,), place) for place in (probe.first, probe.second)]
    return float(through(arms[0].start, arms[0].end).meets(through(arms[1].start, arms[1].end))[0])


def wedge_edge(wedge: Part, face: Side, stop: Side) -> Side:
    """The wedge on the fence, its thin end against the stop: the edge that the ring bears on."""
    x0, _, x1, _ = wedge.outline.bounds
    foot = straight_edge((wedge.outline,), ((x0 + x1) / 2, 0.0))
    assert foot.start[1] == foot.end[1] == 0, "the wedge does not lie on the fence"
    end = next(edge for edge in wedge.outline.edges() if edge.start[0] == edge.end[0] == x0)
    top = next(edge for edge in wedge.outline.edges() if edge.end == end.start)
    corner = face.meets(stop)
    return through(*(on_fence(place, corner, face) for place in (top.end, top.start)))


def on_fence(place: tuple[float, float], corner: Vector, face: Side) -> Vector:
    """Along the fence from the stop to the apex, and away from the fence."""
    left = np.array([-face.along[1], face.along[0]])
    return np.asarray(corner - place[0] * face.along + place[1] * left)


@dataclass(frozen=True)
class Cut:
    """A cut wedge ring from above, its two cut faces, and what is measured on it."""

    outline: shapely.Polygon
    thick: float
    thin: float
    included: float  # degrees
    skew: float  # degrees by which the outer flat is off square to the mid-plane


def cut_ring(sled: Sled, thickness: float, width: float) -> Cut:
    """The two cuts: face 1 on the fence; then, turned over, the new face on the wedge."""
    once = saw(stock(sled, thickness, width), sled.blade)
    new_face = face_on(once, sled.blade)
    back = placed(mirrored(once), mirrored_line(new_face), sled)
    twice = saw(back, sled.blade)
    return measured(twice, sled)


def stock(sled: Sled, thickness: float, width: float) -> shapely.Polygon:
    corner, along = sled.corner, sled.face.along
    across = np.array([-along[1], along[0]])
    return shapely.Polygon([corner, corner - width * along, corner - width * along + thickness * across,
                            corner + thickness * across])  # fmt: skip


def saw(ring: shapely.Polygon, blade: float) -> shapely.Polygon:
    """What the blade leaves on the sled's side of it."""
    kept = ring.intersection(shapely.box(-FAR, -FAR, blade, FAR))
    assert isinstance(kept, shapely.Polygon), "the blade cuts the ring to pieces"
    return kept


def face_on(ring: shapely.Polygon, blade: float) -> Side:
    on = [np.array(p) for p in ring.exterior.coords[:-1] if abs(p[0] - blade) < 1e-7]
    assert len(on) == 2, "the blade leaves the ring's end uncut"
    return through(*on)


def mirrored(ring: shapely.Polygon) -> shapely.Polygon:
    """Turned over about its radial line."""
    return shapely.Polygon([(-x, y) for x, y in ring.exterior.coords[:-1]])


def mirrored_line(side: Side) -> Side:
    return Side(side.point * [-1, 1], side.along * [-1, 1])


def placed(ring: shapely.Polygon, face: Side, sled: Sled) -> shapely.Polygon:
    """Its cut face on the wedge, then slid until it touches the stop.

    The wedge's edge runs to the apex, so the ring, towards the blade, is on its right.
    """
    points = np.array(ring.exterior.coords[:-1])
    along = face.along if face.distance(points.mean(axis=0)) < 0 else -face.along
    turn = axes(sled.wedge.along) @ axes(along).T
    laid = (points - face.point) @ turn.T + sled.wedge.point
    past_stop = np.array([sled.stop.distance(p) for p in laid])
    return shapely.Polygon(laid - past_stop.min() / sled.stop.distance(sled.stop.point + sled.wedge.along)
                           * sled.wedge.along)  # fmt: skip


def axes(along: Vector) -> Vector:
    """A unit vector and its left, as columns."""
    return np.column_stack([along, [-along[1], along[0]]])


def measured(ring: shapely.Polygon, sled: Sled) -> Cut:
    """Outer and inner edge run along the tube; the two long sides are the cut faces."""
    points = np.array(ring.exterior.coords[:-1])
    assert len(points) == 4, "the cut ring is no trapezium"
    order = np.argsort([abs(sled.stop.distance(p)) for p in points])
    outer, inner = points[order[:2]], points[order[2:]]
    if abs(through(*outer).along @ through(outer[0], inner[0]).along) > abs(
        through(*outer).along @ through(outer[0], inner[1]).along
    ):
        inner = inner[::-1]
    faces = through(outer[0], inner[0]), through(outer[1], inner[1])
    leans = [face.angle_to(through(*outer)) for face in faces]
    return Cut(ring, float(np.hypot(*(outer[1] - outer[0]))), float(np.hypot(*(inner[1] - inner[0]))),
               faces[0].angle_to(faces[1]), abs(leans[0] - leans[1]) / 2)  # fmt: skip
