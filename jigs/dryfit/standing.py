"""The gauges that stand on their board, each in its mounting; and the one for roughing by flats."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi

import numpy as np
import shapely

from geometry.plane.contour import Edge
from jigs.asked.job import TorusJob
from jigs.dryfit.angle_plates import off_axis
from jigs.dryfit.files import Files
from jigs.dryfit.gauges import edge_checks, edge_of, high_check, passing_room
from jigs.dryfit.model import Check, Plate, contour_of, depth, moved
from jigs.dryfit.mountings import Held, Mounting
from jigs.dryfit.ring import place, section

SLACK = 0.02  # mm
ANGLE = 0.02  # degrees
ROOM = 0.3  # mm less than the tool room: the gauge's edge is larger than the tube
WIDEST_STEP = 8.0  # degrees of an edge between two of its points
STANDING = {"a-outer": "a", "a-inner": "a", "c-inner": "c", "d-outer": "d"}  # gauge by mounting


def standing_checks(job: TorusJob, files: Files, at: Held, beside: dict[str, Mounting]) -> list[Check]:
    """Every standing gauge on the finished work, in its mounting; and that no arc is left out."""
    plates = {name: files.plate(f"standing-gauge-{name}") for name in STANDING}
    arcs = {name: arc_of(job, plate, _more(job) + job.gauges.fit) for name, plate in plates.items()}
    found: list[Check] = []
    for name, plate in plates.items():
        found += edge_checks(job, plate, _more(job), _wanted(name, arcs[name]))
        found += clear_checks(job, plate, beside[STANDING[name]])
        found += _foot_checks(
            job, plate, at if name.startswith("a-") else _second(files, at), name == "a-inner"
        )
        found += _hole_checks(job, plate) if name.endswith("inner") else []
    return [*found, *_room_checks(job, files, plates, arcs)]


def _more(job: TorusJob) -> float:
    return job.gauges.stages[-1]


def _wanted(name: str, arc: tuple[float, float]) -> tuple[float, float]:
    """Where the edge must reach; in the second mounting one end is where the tool's room ends."""
    return {
        "a-outer": (-35.0, 90.0),
        "a-inner": (90.0, 215.0),
        "c-inner": (arc[0], 180.0),
        "d-outer": (0.0, arc[1]),
    }[name]


def arc_of(job: TorusJob, plate: Plate, more: float) -> tuple[float, float]:
    """From where to where (degrees, from -90) the plate has an edge near the tube so much larger: its longest run."""
    _, turn = edge_of(job, plate.outline, more)
    turns = np.sort((turn + 90.0) % 360) - 90.0
    runs = np.split(turns, np.flatnonzero(np.diff(turns) > WIDEST_STEP) + 1)
    longest = max(runs, key=lambda run: float(np.ptp(run)) if len(run) else -1.0)
    return float(longest[0]), float(longest[-1])


def clear_checks(job: TorusJob, plate: Plate, mounting: Mounting) -> list[Check]:
    """How deep a gauge stands in anything beside the work, in the waste, or in the tube across the hole."""
    laid = moved(plate.face, job.form.major_radius)
    across = section(job.form, _more(job), -job.form.major_radius)
    others = mounting.things | {"tube across the hole": across, "waste": mounting.waste}
    return [
        plate.check(f"stands in the {name} by", depth(laid, shape), 0.0, SLACK)
        for name, shape in others.items()
        if not shape.is_empty
    ]


def _second(files: Files, at: Held) -> Held:
    """The channel board in the first one's words; it has no spigot."""
    outline = files.drawn("channel-section").outline
    face = float(outline.points[:, 1].max())
    return Held(face, face, outline.bounds[2], outline.bounds[2], at.centre, 0.0, 0.0)


def _foot_checks(job: TorusJob, plate: Plate, on: Held, spigot: bool) -> list[Check]:
    """The foot stands on the board, or the spigot, all of it, and level."""
    low = float(plate.outline[:, 1].min())
    foot = plate.outline[plate.outline[:, 1] < low + 0.2]
    ground, edge = (on.spigot, on.spigot_radius) if spigot else (on.face, on.board_radius)
    return [
        plate.near("foot off the ground", low - ground, 0.0, SLACK),
        plate.near("foot out of level", float(np.ptp(foot[:, 1])), 0.0, SLACK),
        plate.check("width of the foot", float(np.ptp(foot[:, 0])), 3.0),
        plate.check("foot inside the edge", edge - job.form.major_radius - float(foot[:, 0].max()), 0.0),
    ]


def _hole_checks(job: TorusJob, plate: Plate) -> list[Check]:
    hole = job.form.hole_diameter / 2
    return [
        plate.check("passes the hole with", passing_room(job, plate), 0.5),
        *high_check(plate, "in the hole", hole),
    ]


def _room_checks(
    job: TorusJob, files: Files, plates: dict[str, Plate], arcs: dict[str, tuple[float, float]]
) -> list[Check]:
    """Mountings C and D reach each other, and stop the tool's room short of braces and retainer."""
    wish, major = job.workshop.holding, job.form.major_radius
    start, end = arcs["c-inner"][0], arcs["d-outer"][1]
    tip = files.drawn("brace-strap").outline.bounds[0]
    x, y = place(job.form, _more(job), end)
    last = shapely.Point(major + x, y)
    retainer = float(files.drawn("retainer-section").shape.distance(last))
    return [
        Check(
            "standing gauges",
            "mountings C and D both show",
            end - start,
            wish.least_overlap - 0.1,
            unit="deg",
        ),
        plates["c-inner"].check(
            "tool room before the braces", tip - place(job.form, _more(job), start)[0], wish.tool_room - ROOM
        ),
        plates["d-outer"].check("tool room before the retainer", retainer, wish.tool_room - ROOM),
    ]


def flats_checks(job: TorusJob, files: Files, first: Mounting) -> list[Check]:
    """The roughing gauge against a polygon of twice the blank's sides, at the first stage's size."""
    if not files.has("flats-gauge"):
        return []
    plate = files.plate("flats-gauge")
    size, step = job.form.tube_radius + job.gauges.stages[0] + job.gauges.fit, 180 / job.form.segments
    flats = [e for e in contour_of(plate.face).edges() if off_axis(e) < size + 1 and _faces_tube(e)]
    normals = sorted(_normal(e) for e in flats)
    off = [(turn / step + 0.5) % 1 - 0.5 for turn in normals]
    corners = max((hypot(*p) for e in flats[:-1] for p in (e.start, e.end)), default=0.0)
    return [
        *plate.all_near("flat off the tube's centre", [off_axis(e) for e in flats], size, SLACK),
        *plate.all_near("flat's turn", [turn * step for turn in off], 0.0, ANGLE, "deg"),
        plate.near("first flat", normals[-1], 90.0, ANGLE, "deg"),
        *plate.all_near("from flat to flat", [b - a for a, b in pairwise(normals)], step, 2 * ANGLE, "deg"),
        plate.check("last flat", normals[0], -35.0 - ANGLE, -35.0 + step, "deg"),
        plate.check(
            "corners within the blank's", corners, 0.0, size / cos(pi / 2 / job.form.segments) + SLACK
        ),
        *clear_checks(job, plate, Mounting(first.name, first.things, shapely.Polygon())),
    ]


def _faces_tube(edge: Edge) -> bool:
    """Counter-clockwise, the plate lies left of its edges: the tube's centre is right of a working one."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    near_middle = hypot(*edge.midpoint) < 1.3 * off_axis(edge)
    return x0 * y1 - x1 * y0 < 0 and near_middle


def _normal(edge: Edge) -> float:
    """Direction from the tube's centre square to an edge's line, degrees from -180."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    return degrees(atan2(x1 - x0, y0 - y1))
