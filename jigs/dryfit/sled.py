"""The sled put together as drawn, and a ring cut on it."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, pi, sin, tan

import numpy as np

from geometry.arcs import FloatArray, Point
from geometry.contour import Contour, Edge
from geometry.fasteners import clearance_hole
from geometry.torus import flat_normals, outer_flat
from jigs.dryfit.check import Check, near
from jigs.dryfit.files import Drawn, Files
from jigs.job import Job

SLACK = 0.03  # mm: seats, stops and gaps
ANGLE = 0.02  # degrees


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


@dataclass(frozen=True)
class CutRing:
    """A wedge ring as the drawn sled cuts it, sanded."""

    included: float  # angle between its faces, radians
    outer_radius: float  # of its outer flat or arris from the axis
    thick: float
    skew: float  # mid-plane off square, radians


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
    return [_slot(hole, frame) for hole in base.holes if len(hole) == 4]


def _slot(hole: Contour, frame: Bench) -> Slot:
    corners = frame.place(hole.points)
    edges = np.roll(corners, -1, axis=0) - corners
    turns = (np.degrees(np.arctan2(edges[:, 1], edges[:, 0])) + 45) % 90 - 45
    (s0, u0), (s1, u1) = corners.min(axis=0), corners.max(axis=0)
    return Slot((float(s0), float(s1)), (float(u0), float(u1)), float(turns[np.argmax(np.abs(turns))]))


def sled_checks(job: Job, files: Files) -> tuple[list[Check], CutRing]:
    """The table-saw sled: how its parts fit, and what it cuts."""
    base, frame = files.drawn("sled-base"), bench(files.drawn("sled-base"))
    fence, cheek, wedge = (files.drawn(name) for name in ("sled-fence", "sled-stop-cheek", "sled-wedge"))
    found = slots(base, frame)
    parts = _sort(found, job.workshop.boards.sheet)
    checks, face, stop = _standing(job, parts, fence, cheek, frame)
    ring = cut_ring(job, frame, face, stop, wedge)
    checks += [
        near("sled", "fence to blade", degrees(frame.angle), 180 / job.form.wedge_rings, ANGLE, "deg"),
        near("sled", "faces of a ring", degrees(ring.included), 360 / job.form.wedge_rings, ANGLE, "deg"),
        near("sled", "all rings together", degrees(ring.included) * job.form.wedge_rings, 360, 0.2, "deg"),
        near("sled", "ring's mid-plane off square", degrees(ring.skew), 0, ANGLE, "deg"),
        *_jaw_checks(job, files.drawn("sled-jaw"), fence, parts, stop, frame),
        *_gusset_checks(job, files.drawn("sled-gusset"), fence, parts),
        *_runner_checks(job, base, files.drawn("sled-runner")),
        *_handle_checks(files.drawn("sled-handle"), base, frame),
        *_exit_checks(job, base, files.drawn("sled-exit-block"), frame, stop),
    ]
    return checks, ring


@dataclass(frozen=True)
class _Sorted:
    fence: list[Slot]
    cheeks: list[Slot]
    gussets: list[Slot]


def _sort(found: list[Slot], sheet: float) -> _Sorted:
    """Whose slot each is: beside the fence line, right of it, square to it behind it."""
    aligned = [slot for slot in found if abs(slot.turn) < 1.0]
    fence = [slot for slot in aligned if abs(slot.u[1]) < sheet / 2 and slot.u[0] < -sheet / 2]
    cheeks = [slot for slot in aligned if slot.u[0] > -sheet / 2]
    gussets = [slot for slot in aligned if slot.u[1] < -sheet]
    return _Sorted(
        sorted(fence, key=lambda s: s.s),
        sorted(cheeks, key=lambda s: s.u),
        sorted(gussets, key=lambda s: s.s),
    )


def tabs(part: Drawn) -> list[tuple[float, float]]:
    """Extent along x of each tab below y = 0."""
    low = [edge for edge in part.straight() if max(edge.start[1], edge.end[1]) < -1]
    flat = [edge for edge in low if abs(edge.start[1] - edge.end[1]) < 1e-6]
    return sorted((min(e.start[0], e.end[0]), max(e.start[0], e.end[0])) for e in flat)


def _standing(
    job: Job, parts: _Sorted, fence: Drawn, cheek: Drawn, frame: Bench
) -> tuple[list[Check], float, float]:
    """Fence and cheeks in their slots: checks, the fence's working face (u) and the stop (s)."""
    sheet = job.workshop.boards.sheet
    faces = [slot.u[0] + sheet for slot in parts.fence]
    foot = tabs(cheek)[0][1] - working_x(job, cheek)
    stops = [slot.s[1] - foot for slot in parts.cheeks]
    checks = [
        Check("sled", "fence slots found", len(parts.fence), len(tabs(fence)), len(tabs(fence)), "pieces"),
        *(near("sled", "fence's face off its line", face, 0, SLACK) for face in faces),
        *(near("sled", "fence slot's turn", slot.turn, 0, ANGLE, "deg") for slot in parts.fence),
        *(near("sled", "stop cheek's slot's turn", slot.turn, 0, ANGLE, "deg") for slot in parts.cheeks),
        *(near("sled", "stop cheeks in one plane", stop, stops[0], SLACK) for stop in stops[1:]),
        *_tab_checks("sled", "fence tab in its slot", tabs(fence), [slot.s for slot in parts.fence], job),
    ]
    return checks, float(np.mean(faces)), float(np.mean(stops))


def _tab_checks(
    where: str, what: str, tab: list[tuple[float, float]], slot: list[tuple[float, float]], job: Job
) -> list[Check]:
    """Each tab inside its slot, play left, all by one shift."""
    most = 2 * job.workshop.boards.play + SLACK
    return [
        check
        for (t0, t1), (s0, s1) in zip(tab, slot, strict=False)
        for check in (
            Check(where, f"{what}, play", (s1 - s0) - (t1 - t0), 0.0, most),
            Check(where, f"{what}, near end", t0 - s0, -1e-6, most),
            Check(where, f"{what}, far end", s1 - t1, -1e-6, most),
        )
    ]


def working_x(job: Job, cheek: Drawn) -> float:
    """Where along its plate the cheek's working edge, or the tip of its V, stands."""
    upright = [
        e for e in cheek.straight() if abs(e.start[0] - e.end[0]) < 1e-6 and e.start[1] > 1 and e.end[1] > 1
    ]
    if job.form.segments % 4 == 0:
        return min(e.start[0] for e in upright)
    arms = sorted((e for e in cheek.straight() if _leans(e)), key=lambda e: min(e.start[0], e.end[0]))[:2]
    return _meeting(*arms)[0]


def _leans(edge: Edge) -> bool:
    return (
        min(abs(edge.start[0] - edge.end[0]), abs(edge.start[1] - edge.end[1])) > 0.5
        and min(edge.start[0], edge.end[0]) < 0
    )


def _meeting(a: Edge, b: Edge) -> Point:
    ax, ay = a.end[0] - a.start[0], a.end[1] - a.start[1]
    bx, by = b.end[0] - b.start[0], b.end[1] - b.start[1]
    t = ((b.start[0] - a.start[0]) * by - (b.start[1] - a.start[1]) * bx) / (ax * by - ay * bx)
    return (a.start[0] + t * ax, a.start[1] + t * ay)


def cut_ring(job: Job, frame: Bench, face: float, stop: float, wedge: Drawn) -> CutRing:
    """Both cuts: face 1 on the fence; turned over, the cut face on the wedge, the same stop.

    The wedge lies with its longest edge on the fence, its thin end at the stop.
    """
    bed, work, thin = _wedge_edges(wedge)
    slope = atan2(work.end[1] - work.start[1], work.end[0] - work.start[0]) - atan2(
        bed.end[1] - bed.start[1], bed.end[0] - bed.start[0]
    )
    taper = (slope + pi / 2) % pi - pi / 2
    rising = _thick_at_far_end(bed, work)
    blade = frame.angle
    gap = (stop - face / tan(blade)) * tan(blade)  # from the fence's face to the blade, at the stop
    included = blade + abs(taper) * (1 if rising else -1)
    thick = gap - thin
    sanding = job.form.face_sanding
    sanded = thick - 2 * sanding / cos(included / 2)
    return CutRing(included, sanded / (2 * tan(included / 2)), sanded, (blade - abs(taper)) / 2)


def _wedge_edges(wedge: Drawn) -> tuple[Edge, Edge, float]:
    """The edge on the fence (level, low), the one opposite, and the thickness of the left, thin, end."""
    by_length = sorted(wedge.straight(), key=lambda e: -e.length)[:2]
    bed, work = sorted(by_length, key=lambda e: e.midpoint[1])
    left = min(wedge.straight(), key=lambda e: e.midpoint[0])
    return bed, work, left.length


def _thick_at_far_end(bed: Edge, work: Edge) -> bool:
    """Whether the wedge grows towards +x, from the stop to the apex."""
    right = max((work.start, work.end), key=lambda p: p[0])
    left = min((work.start, work.end), key=lambda p: p[0])
    return right[1] - left[1] > bed.end[1] - bed.start[1]


def ring_apothem(jaw: Drawn) -> float:
    """Half the height at which the jaw's flat comes down on the ring."""
    level = [e for e in jaw.straight() if abs(e.start[1] - e.end[1]) < 1e-6]
    return min(e.start[1] for e in level) / 2


def _jaw_checks(job: Job, jaw: Drawn, fence: Drawn, parts: _Sorted, stop: float, frame: Bench) -> list[Check]:
    n, apothem = job.form.segments, ring_apothem(jaw)
    lean = [e for e in jaw.straight() if min(abs(e.start[0] - e.end[0]), abs(e.start[1] - e.end[1])) > 0.5]
    angles = [degrees(atan2(abs(e.end[1] - e.start[1]), abs(e.end[0] - e.start[0]))) for e in lean]
    rounds = [hole for hole in fence.holes if any(e.is_arc for e in hole.edges())]
    shift = _fence_shift(parts, fence)
    spots = sorted(hole.centroid[0] + shift - stop for hole in rounds)
    drills = sorted(d.centre[0] for d in jaw.drills)
    bolt = clearance_hole("M6")
    return [
        *(
            near("jaw", "lean of an edge", (a * n / 360 + 0.5) % 1 - 0.5, 0, ANGLE * n / 360, "flats")
            for a in angles
        ),
        *(
            near("jaw", "bolt hole over the fence's slot", d, s, 0.3)
            for d, s in zip(drills, spots, strict=True)
        ),
        *(
            near("jaw", "bolt at the middle of its slot", d.centre[1], hole.centroid[1], 0.5)
            for d, hole in zip(jaw.drills, rounds, strict=True)
        ),
        *(near("jaw", "bolt hole (M6, ISO 273)", d.diameter, bolt, SLACK) for d in jaw.drills),
        *(near("jaw", "fence's slot for it", h.bounds[2] - h.bounds[0], bolt, SLACK) for h in rounds),
        Check(
            "jaw", "flat bears past the ring's middle", -jaw.outline.bounds[0], outer_flat(apothem, n) - SLACK
        ),
        Check("jaw", "clear of the blade at its far end", _jaw_room(job, jaw, stop, frame), 10.0),
    ]


def _fence_shift(parts: _Sorted, fence: Drawn) -> float:
    """From the fence's own x to s along the fence line, its tabs in the middle of their slots."""
    return float(np.mean([slot.s for slot in parts.fence])) - float(np.mean(tabs(fence)))


def _jaw_room(job: Job, jaw: Drawn, stop: float, frame: Bench) -> float:
    return (stop + jaw.outline.bounds[0]) * tan(frame.angle) - job.workshop.boards.sheet


def _gusset_checks(job: Job, gusset: Drawn, fence: Drawn, parts: _Sorted) -> list[Check]:
    sheet, (foot, *_) = job.workshop.boards.sheet, tabs(gusset)
    mortises = sorted(h.bounds for h in fence.holes if not any(e.is_arc for e in h.edges()))
    shift = _fence_shift(parts, fence)
    over = [
        ((b[0] + b[2]) / 2 + shift, (slot.s[0] + slot.s[1]) / 2)
        for b, slot in zip(mortises, parts.gussets, strict=False)
    ]
    behind = [(-slot.u[1] - sheet, -slot.u[0] - sheet) for slot in parts.gussets]
    into = [
        e for e in gusset.straight() if max(e.start[0], e.end[0]) < -1 and abs(e.start[0] - e.end[0]) < 1e-6
    ]
    tab = (min(into[0].start[1], into[0].end[1]), max(into[0].start[1], into[0].end[1]))
    square = [e for e in gusset.straight() if abs(e.midpoint[0]) < 0.5 and e.length > 10]
    return [
        Check("gusset", "mortises found", len(mortises), len(behind), len(behind), "pieces"),
        *_tab_checks("gusset", "foot tab in the base", [foot] * len(behind), behind, job),
        *_tab_checks(
            "gusset", "tab in the fence", [tab] * len(mortises), [(b[1], b[3]) for b in mortises], job
        ),
        *(near("gusset", "mortise over the base's slot", ours, theirs, 0.3) for ours, theirs in over),
        *(Check("gusset", "mortise over the sheet", b[2] - b[0] - sheet, 0.0, 0.5) for b in mortises),
        *(near("gusset", "fence side upright", abs(e.end[0] - e.start[0]), 0, SLACK) for e in square),
    ]


def _runner_checks(job: Job, base: Drawn, runner: Drawn) -> list[Check]:
    saw, screw = job.workshop.saw, clearance_hole("M4")
    width = runner.outline.bounds[3] - runner.outline.bounds[1]
    ours = sorted(d.centre[0] for d in runner.drills)
    theirs = sorted(d.centre[1] - base.outline.bounds[1] for d in base.drills)
    across = -saw.slot_distance - saw.slot_width / 2
    return [
        Check("runner", "play in the mitre slot", saw.slot_width - width, 0.0, 0.5),
        Check("runner", "screws that meet the base", len(ours), len(theirs), len(theirs), "pieces"),
        *(
            near("runner", "screw under the base's hole", a, b, 0.3)
            for a, b in zip(ours, theirs, strict=False)
        ),
        *(near("runner", "base's hole over the slot", d.centre[0], across, 0.3) for d in base.drills),
        *(
            near("runner", "hole (M4, ISO 273)", d.diameter, screw, SLACK)
            for d in (*base.drills, *runner.drills)
        ),
    ]


def _handle_checks(handle: Drawn, base: Drawn, frame: Bench) -> list[Check]:
    upright = [h.bounds for h in base.holes if abs(_slot(h, frame).turn) >= 1.0]
    spread = sorted((b[1], b[3]) for b in upright)
    ours = tabs(handle)
    gaps = [(t[0] - ours[0][0], s[0] - spread[0][0]) for t, s in zip(ours, spread, strict=False)]
    return [
        Check("handle", "slots found", len(spread), len(ours), len(ours), "pieces"),
        *(near("handle", "tab over its slot", t, s, 0.15) for t, s in gaps),
        *(Check("handle", "hands clear of the blade", -b[2], 150.0) for b in upright),
    ]


def _exit_checks(job: Job, base: Drawn, block: Drawn, frame: Bench, stop: float) -> list[Check]:
    x0, y0, x1, y1 = block.outline.bounds
    leaves = -stop / cos(frame.angle)
    return [
        Check("exit block", "reaches past the blade", x1 - job.workshop.saw.kerf, 20.0),
        Check("exit block", "blade inside its left side", -x0, 5.0),
        Check("exit block", "starts behind the ring", leaves - y1, 0.0, 40.0),
        Check("exit block", "lies on the base", y0 - base.outline.bounds[1], -SLACK),
    ]


def ring_margins(job: Job, ring: CutRing, apothem: float) -> float:
    """Least wood between the torus with its allowance and the rings as cut, by sampling, mm."""
    form = job.form
    reach = form.tube_radius + form.turning_allowance
    centre = ring.outer_radius - outer_flat(apothem, form.segments)
    phi = np.linspace(-ring.included / 2, ring.included / 2, 41)[:, None]
    theta = np.linspace(0, 2 * pi, 721)[None, :]
    x = (form.major_radius + reach * np.cos(theta)) * np.cos(phi) - centre
    z = reach * np.sin(theta) * np.ones_like(phi)
    normals = flat_normals(form.segments)
    return float(min((apothem - (x * cos(a) + z * sin(a))).min() for a in normals))
