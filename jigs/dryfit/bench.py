"""A base with its slots, seen from above, and the tabs that stand in them."""

from __future__ import annotations

from math import atan2

import numpy as np

from geometry.plane.contour import Contour, Edge
from geometry.plane.edges import FloatArray, Point
from geometry.records import Record
from jigs.asked.job import Job
from jigs.dryfit.model import Check, Drawn, Drill, counted, near

SLACK = 0.03  # mm: seats, stops and gaps
ANGLE = 0.02  # degrees
OVER = 0.3  # mm: a hole over its hole


class Slot(Record):
    """A slot in the base in (s, u): along the fence from the apex, and from the fence to the blade."""

    s: tuple[float, float]
    u: tuple[float, float]
    turn: float  # degrees off the fence line


class Bench(Record):
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
    low = [edge for edge in part.straight() if edge.ends[3] < -1]
    flat = [edge for edge in low if edge.apart[1] < 1e-6]
    return sorted(e.ends[::2] for e in flat)


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


def over_sheet(where: str, what: str, width: float, job: Job) -> Check:
    """A slot or mortise of this width takes the sheet, with its play."""
    boards = job.workshop.boards
    return Check(where, what, width - boards.sheet, -1e-6, 2 * boards.play + SLACK)


def square_fence_checks(
    job: Job, base: Drawn, fence: Drawn, line: str, found: list[Slot], at_fence: list[Slot]
) -> list[Check]:
    """A fence along the base's x, its tabs in their slots, the blade's line square to it, no slot turned."""
    sheet, blade = job.workshop.boards.sheet, base.lines[line]
    return [
        base.near("blade's line square to the fence", float(np.ptp(blade[:, 0])), 0.0, SLACK),
        *base.all_near("fence's face off its line", [s.u[0] + sheet for s in at_fence], 0.0, SLACK),
        *base.all_near("slot's turn", [s.turn for s in found], 0.0, ANGLE, "deg"),
        fence.counted("slots found", len(at_fence), len(tabs(fence))),
        *tab_checks(fence.name, "tab in its slot", tabs(fence), [s.s for s in at_fence], job),
    ]


def gusset_checks(
    job: Job,
    gusset: Drawn,
    where: str,
    what: str,
    mortises: list[tuple[float, float, float, float]],
    behind: list[Slot],
    feet: list[tuple[float, float]],
    shift: float = 0.0,
) -> list[Check]:
    """Gussets in the slots of the base behind what they hold up, where its mortises are by their bounds.

    `feet` are the slots from and to along the gusset; `shift` takes a mortise's x to its slot's.
    """
    side = next(e for e in gusset.straight() if e.ends[2] < -1 and e.apart[0] < 1e-6)
    over = [((m[0] + m[2]) / 2 + shift, sum(s.s) / 2) for m, s in zip(mortises, behind, strict=False)]
    spans = [(m[1], m[3]) for m in mortises]
    return [
        counted(where, "mortises found", len(mortises), len(behind)),
        *tab_checks(where, "foot tab in the base", [tabs(gusset)[0]] * len(feet), feet, job),
        *tab_checks(where, f"tab in the {what}", [side.ends[1::2]] * len(mortises), spans, job),
        *(near(where, "mortise over the base's slot", ours, theirs, OVER) for ours, theirs in over),
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
        counted(where, f"{what}, how many", len(ours), len(theirs)),
        *(near(where, what, a, b, OVER) for a, b in zip(sorted(ours), sorted(theirs), strict=False)),
    ]
