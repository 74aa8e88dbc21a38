"""A base with its slots, seen from above, and the tabs that stand in them."""

from __future__ import annotations

from math import atan2

import numpy as np

from geometry.plane.arcs import FloatArray, Point
from geometry.plane.contour import Contour, Edge
from geometry.records import dataclass
from jigs.asked.job import Job
from jigs.dryfit.check import Check, near
from jigs.dryfit.plates import Drawn, Drill

SLACK = 0.03  # mm: seats, stops and gaps
ANGLE = 0.02  # degrees
OVER = 0.3  # mm: a hole over its hole


@dataclass(frozen=True)
class Slot:
    """A slot in the base in (s, u): along the fence from the apex, and from the fence to the blade."""

    s: tuple[float, float]
    u: tuple[float, float]
    turn: float  # degrees off the fence line


@dataclass(frozen=True)
class Bench:
    """The base's own frame, from its marked lines: where a point is along the fence and off it."""

    apex: Point
    along: Point  # from the apex down the fence
    across: Point  # from the fence to the blade
    angle: float  # fence line to blade line, radians

    def place(self, points: FloatArray) -> FloatArray:
        """(s, u) of points (k, 2)."""
        away = points - np.array(self.apex)
        return np.column_stack([away @ np.array(self.along), away @ np.array(self.across)])


def bench(base: Drawn) -> Bench:
    """Find the frame from the lines named on the base."""
    blade, fence = _fitted(base.lines["blade line"]), _fitted(base.lines["fence line"])
    (bx, by), (bdx, bdy) = blade
    (fx, fy), (fdx, fdy) = fence
    t = ((bx - fx) * bdy - (by - fy) * bdx) / (fdx * bdy - fdy * bdx)
    apex = (fx + t * fdx, fy + t * fdy)
    if fdy > 0:  # down the fence is towards the operator
        fdx, fdy = -fdx, -fdy
    return Bench(apex, (fdx, fdy), (-fdy, fdx), abs(atan2(fdx * bdy - fdy * bdx, abs(fdx * bdx + fdy * bdy))))


def _fitted(points: FloatArray) -> tuple[Point, Point]:
    middle = points.mean(axis=0)
    _, _, axes = np.linalg.svd(points - middle)
    return (float(middle[0]), float(middle[1])), (float(axes[0, 0]), float(axes[0, 1]))


def slots(base: Drawn, frame: Bench) -> list[Slot]:
    """The base's four-cornered holes in the frame of the fence."""
    return [slot_of(hole, frame) for hole in base.holes if len(hole) == 4]


def slot_of(hole: Contour, frame: Bench) -> Slot:
    corners = frame.place(hole.points)
    edges = np.roll(corners, -1, axis=0) - corners
    turns = (np.degrees(np.arctan2(edges[:, 1], edges[:, 0])) + 45) % 90 - 45
    (s0, u0), (s1, u1) = corners.min(axis=0), corners.max(axis=0)
    return Slot((float(s0), float(s1)), (float(u0), float(u1)), float(turns[np.argmax(np.abs(turns))]))


def tabs(part: Drawn) -> list[tuple[float, float]]:
    """Extent along x of each tab below y = 0."""
    low = [edge for edge in part.straight() if max(edge.start[1], edge.end[1]) < -1]
    flat = [edge for edge in low if abs(edge.start[1] - edge.end[1]) < 1e-6]
    return sorted((min(e.start[0], e.end[0]), max(e.start[0], e.end[0])) for e in flat)


def tab_checks(
    where: str, what: str, tab: list[tuple[float, float]], slot: list[tuple[float, float]], job: Job
) -> list[Check]:
    """Each tab inside its slot, play left, all by one shift."""
    most = 2 * job.workshop.boards.play + SLACK
    return [
        check
        for (t0, t1), (s0, s1) in zip(tab, slot, strict=False)
        for check in (
            Check(where, f"{what}, play", (s1 - s0) - (t1 - t0), -1e-6, most),
            Check(where, f"{what}, near end", t0 - s0, -1e-6, most),
            Check(where, f"{what}, far end", s1 - t1, -1e-6, most),
        )
    ]


def meeting(a: Edge, b: Edge) -> Point:
    ax, ay = a.end[0] - a.start[0], a.end[1] - a.start[1]
    bx, by = b.end[0] - b.start[0], b.end[1] - b.start[1]
    t = ((b.start[0] - a.start[0]) * by - (b.start[1] - a.start[1]) * bx) / (ax * by - ay * bx)
    return (a.start[0] + t * ax, a.start[1] + t * ay)


STRAIGHT_ON = Bench((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 0.0)  # the drawing's own x and y


def hole_checks(where: str, what: str, ours: list[Drill], wanted: float) -> list[Check]:
    """Round holes of one size."""
    return [near(where, what, drill.diameter, wanted, SLACK) for drill in ours]


def over_checks(where: str, what: str, ours: list[float], theirs: list[float]) -> list[Check]:
    """Holes that lie over each other, in order, each as far along as its fellow."""
    return [
        Check(where, f"{what}, how many", len(ours), len(theirs), len(theirs), "pieces"),
        *(near(where, what, a, b, OVER) for a, b in zip(sorted(ours), sorted(theirs), strict=False)),
    ]
