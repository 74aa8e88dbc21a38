"""The two sleds of a layup: what the drawn ones cut, against its pieces as worked out anew from the job."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, ceil, cos, degrees, pi, radians, sin, tan

import numpy as np

from geometry.plane.contour import Contour, Edge
from geometry.records import Record
from jigs.asked.defaults import default_clean_up
from jigs.asked.job import Job, TorusJob
from jigs.asked.job_wood import LayupWish
from jigs.dryfit.bench import ANGLE, STRAIGHT_ON, Bench, slot_of, tab_checks, tabs
from jigs.dryfit.bolts import on_pins_checks, pin_checks, pins_in
from jigs.dryfit.files import Files
from jigs.dryfit.hold_down import Place, foot_checks, hold_checks
from jigs.dryfit.model import Check, Drawn, Drill
from jigs.dryfit.ring import CutRing
from jigs.dryfit.saw_guides import level_handle_checks, run_out_checks, runner_checks

SIDE = 0.05  # mm, of a piece


class Sides(Record):
    """A piece as cut, and a segment of such pieces as glued."""

    a: float
    b: float
    columns: int
    rows: int
    sanding: float
    height: float  # of the stack that it is cut from: the side that is neither a nor b

    @property
    def done(self) -> tuple[float, float]:
        return (self.a - (self.columns - 1) * self.sanding, self.b - (self.rows - 1) * self.sanding)


def sides(wish: LayupWish, edge: float, length: float, depth: float) -> Sides:
    """Of a segment as cut: its outer edge, its length along the tube or the height, its depth."""
    plane = wish.plane
    columns = 1 + (plane != "end" and wish.mirrored in ("left and right", "both"))
    rows = 1 + (plane != "face" and wish.mirrored in ("up and down", "both"))
    a, b = depth if plane == "end" else edge, depth if plane == "face" else length
    more = wish.sanding
    height = {"flat": depth, "end": edge, "face": length}[plane]
    return Sides(
        a / columns + (columns - 1) * more, b / rows + (rows - 1) * more, columns, rows, more, height
    )


def torus_sides(job: TorusJob, ring: CutRing, apothem: float) -> list[Sides]:
    """Of the one size of segments that wedge rings as the drawn sled cuts them are made of."""
    if job.layup is None:
        return []
    mitre, wedge, form = pi / job.form.segments, pi / job.form.wedge_rings, job.form
    kerf = (
        job.workshop.saw.kerf if job.workshop.cutting.wedge_rings != "bandsaw" else job.workshop.bandsaw.kerf
    )
    clean = default_clean_up(kerf, job.unit) if form.clean_up is None else form.clean_up
    thick = ring.thick + 2 * form.face_sanding / cos(wedge) + 2 * clean + form.flattening
    edge = 2 * apothem * tan(mitre) + 2 * form.joint_sanding / cos(mitre)
    return [sides(job.layup, edge, thick, apothem - form.core_opening / 2)]


SLED, TRIM = "layup-", "layup-trim-"
AROUND = 12.0  # mm from the mitre slot's middle to the runner's screws at most


def blade_at(base: Drawn, name: str) -> float:
    return float(base.lines[name][:, 0].mean())


def _parted(base: Drawn) -> tuple[list[Contour], list[Contour]]:
    """The handle's two slots, nearest the operator, and the fence's."""
    own = sorted((h for h in base.holes if len(h) == 4), key=lambda h: h.centroid[1])
    return own[:2], own[2:]


def _rear_wall(hole: Contour) -> Edge:
    """Of a fence's slot: the long wall towards the operator."""
    return min(sorted(hole.edges(), key=lambda e: -e.length)[:2], key=lambda e: e.midpoint[1])


def fence_frame(base: Drawn, blade: str, job: Job) -> Bench:
    """Down the fence from where its face meets the blade's line, and out from its face."""
    walls = [_rear_wall(hole) for hole in _parted(base)[1]]
    points = np.array([p for wall in walls for p in (wall.start, wall.end)])
    _, _, axes = np.linalg.svd(points - points.mean(axis=0))
    dx, dy = (float(v) for v in axes[0])
    if dx > 0:
        dx, dy = -dx, -dy
    across, sheet, x = (dy, -dx), job.workshop.boards.sheet, blade_at(base, blade)
    on_face = points.mean(axis=0) + np.array(across) * sheet
    along = (x - float(on_face[0])) / dx
    apex = (x, float(on_face[1]) + along * dy)
    return Bench(apex, (dx, dy), across, atan2(-dx, -dy))


def sled_checks(job: Job, wish: LayupWish, files: Files, end: str, piece: Sides) -> list[Check]:
    """The fence lies at the plies' angle to one pair of sides, and the pin leaves the other side between cuts."""
    base = files.drawn(f"layup-base{end}")
    frame = fence_frame(base, "blade, slab's side", job)
    (pin,), kerf, beta = pins_in(base), job.workshop.saw.kerf, radians(wish.angle)
    width = pin.centre[0] - pin.diameter / 2 - frame.apex[0]
    ways = ((beta, piece.b), (pi / 2 - beta, piece.a))
    angle, side = min(ways, key=lambda way: abs(way[0] - frame.angle) + 0.01 * abs(way[1] - width))
    out = float(frame.place(np.array([pin.centre]))[0, 1])
    across, strip = piece.a * sin(beta) + piece.b * cos(beta), sum(ply.thickness for ply in wish.plies)
    stack = ceil(across / strip) * strip  # of whole strips
    return [
        base.near("fence to the blade", degrees(frame.angle), degrees(angle), ANGLE, "deg"),
        base.near(
            "pitch along the fence", (width + kerf) / sin(frame.angle), (side + kerf) / sin(angle), SIDE
        ),
        base.near("slab", width, side, SIDE),
        *pin_checks(base.name, [pin]),
        base.check("pin out from the fence, on the sawn end", out, pin.diameter / 2, stack),
        *foot_checks(files.drawn(f"layup-slab-foot{end}"), frame.apex[0], width),
        *_body_checks(
            job,
            files,
            (SLED, end),
            base,
            frame,
            piece.height,
            _sled_places(job, files, end, frame.angle, stack, piece.height),
        ),
    ]


def _body_checks(
    job: Job,
    files: Files,
    named: tuple[str, str],
    base: Drawn,
    frame: Bench,
    height: float,
    places: Sequence[Place],
) -> list[Check]:
    """Fence, handle, runner, exit block, hold-downs, for work of a height."""
    start, end = named
    saw = job.workshop.saw
    near_side = frame.apex[0] - (
        0.0 if start == TRIM else saw.kerf
    )  # the blade's face towards the mitre slot
    line = "blade, piece's side" if start == TRIM else "blade, slab's side"
    leaves = frame.apex[1] - (0.0 if start == TRIM else saw.kerf / tan(frame.angle))
    fence, handle, runner, block = (
        files.drawn(f"{start}{part}{end}") for part in ("fence", "handle", "runner", "exit-block")
    )
    grip, own = _parted(base)
    found = [slot_of(hole, frame) for hole in own]
    held = sorted((slot_of(hole, STRAIGHT_ON) for hole in grip), key=lambda s: s.s)
    slot = near_side - saw.slot_distance - saw.slot_width / 2
    over = tuple(d for d in base.drills if abs(d.centre[0] - slot) < AROUND)
    spans = sorted((-s.s[1], -s.s[0]) if start == TRIM else s.s for s in found)  # drawn as on its base
    return [
        *base.all_near("fence slot's turn", [s.turn for s in found], 0.0, ANGLE, "deg"),
        fence.counted("slots found", len(found), len(tabs(fence))),
        *tab_checks(fence.name, "tab in its slot", tabs(fence), spans, job),
        *level_handle_checks(job, handle, held, near_side),
        *runner_checks(job, Drawn(base.name, base.outline, (), over, {}, np.zeros((0, 2))), runner, slot),
        *run_out_checks(job, base, block, line, (leaves, height)),
        *(
            check
            for place in places
            for check in hold_checks(job, files, place, f"{start}cam{end}", f"{start}lever{end}")
        ),
    ]


def _sled_places(job: Job, files: Files, end: str, angle: float, stack: float, depth: float) -> list[Place]:
    """The hold-downs on the stack and on the slab; along the fence the blade lies slanted."""
    fence, on_stack = files.drawn(f"{SLED}fence{end}"), files.drawn(f"{SLED}finger{end}")
    on_slab, foot = files.drawn(f"{SLED}slab-finger{end}"), files.drawn(f"{SLED}slab-foot{end}")
    kerf, clear = job.workshop.saw.kerf, job.workshop.sled.clear_of_blade
    stacked, cut = files.drawn(f"{SLED}hold{end}"), files.drawn(f"{SLED}slab-hold{end}")
    return [
        Place(fence, stacked, (on_stack,), 1, kerf / sin(angle), (depth,), stack, clear),
        Place(fence, cut, (on_slab,), -1, 0.0, (depth,), stack, foot=foot),
    ]


def _trim_place(files: Files, end: str, lengths: Sequence[float], depth: float) -> Place:
    fence, slide, finger = (files.drawn(f"{TRIM}{name}{end}") for name in ("fence", "hold", "finger"))
    return Place(fence, slide, (finger,), -1, 0.0, (depth,), max(lengths))


def trim_checks(job: Job, files: Files, end: str, slant: float, piece: Sides) -> list[Check]:
    """Square to the blade; every stop on the same pins, the slanted one at the angle of the slabs' ends."""
    base = files.drawn(f"layup-trim-base{end}")
    frame = fence_frame(base, "blade, piece's side", job)
    names = [f"layup-square-stop-{side}{end}" for side in "ab"]
    slanted = f"layup-slanted-stop{end}"
    stops = [files.drawn(name) for name in (*names, *([slanted] if files.has(slanted) else []))]
    lengths = [frame.apex[0] - stop.outline.bounds[2] for stop in stops[:2]]
    return [
        base.near("fence square to the blade", degrees(frame.angle), 90.0, ANGLE, "deg"),
        *(check for stop in stops for check in on_pins_checks(stop.name, _by_place(stop), pins_in(base))),
        *(stop.near("edge square to the fence", _leaning(stop)[0], 90.0, ANGLE, "deg") for stop in stops[:2]),
        *(check for stop in stops[2:] for check in _slanted_checks(stop, frame, slant, lengths)),
        *_body_checks(
            job,
            files,
            (TRIM, end),
            base,
            frame,
            piece.height,
            [_trim_place(files, end, lengths, piece.height)],
        ),
    ]


def _by_place(stop: Drawn) -> list[Drill]:
    return sorted(stop.drills, key=lambda drill: drill.centre)


def _leaning(stop: Drawn) -> tuple[float, Edge]:
    """The angle to the fence of a stop's working edge, the one farthest right, and that edge."""
    upright = [e for e in stop.straight() if e.apart[1] > 1.0]
    edge = max(upright, key=lambda e: e.midpoint[0])
    dx, dy = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    return degrees(atan2(abs(dy), -dx if dy > 0 else dx)), edge


def _slanted_checks(stop: Drawn, frame: Bench, slant: float, lengths: Sequence[float]) -> list[Check]:
    """Its edge, led on to the fence's face, is one of the pieces' sides from the blade."""
    turn, edge = _leaning(stop)
    (x0, y0), (x1, y1) = edge.start, edge.end
    at_fence = x0 + (x1 - x0) * (frame.apex[1] - y0) / (y1 - y0)
    found = frame.apex[0] - at_fence
    return [
        stop.near("edge at the angle of the slab's ends", turn, degrees(slant), ANGLE, "deg"),
        stop.near("edge from the blade", found, min(lengths, key=lambda one: abs(one - found)), SIDE),
    ]
