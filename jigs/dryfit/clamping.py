"""Clamp blocks beside a joint: faces parallel to it, on the ring's flats, clear of the finished form.

Frame of a joint, seen along the axis: x along the joint from the axis, y square to it into the ring.
"""

from __future__ import annotations

from math import atan2, cos, degrees, dist, hypot, pi, sin, tan

from geometry.bodies.torus import outer_flat
from geometry.plane.contour import Edge
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn
from jigs.dryfit.ring import CutRing, half_sizes

SLACK = 0.05  # mm
ANGLE = 0.02  # degrees
ON_FLAT = 1.5  # mm, from a block's edge to the flat's
INSIDE = 0.5  # mm, of the rim block's foot


def clamping_checks(job: TorusJob, files: Files, ring: CutRing, apothem: float) -> list[Check]:
    """The blocks that the job has."""
    found: list[Check] = []
    if files.has("clamp-block-flat"):
        found += _flat_checks(job, files.drawn("clamp-block-flat"), ring, apothem)
    if files.has("clamp-block-rim"):
        found += _rim_checks(job, files.drawn("clamp-block-rim"), ring)
    return found


def _flat_checks(job: TorusJob, block: Drawn, ring: CutRing, apothem: float) -> list[Check]:
    """Placed by its pull line, which goes through the middle of the joint."""
    w, n, form = ring.included / 2, job.form.segments, job.form
    centre = ring.outer_radius - ring.parted - outer_flat(apothem, n)  # from where its faces meet
    shift = centre / cos(w) - float(block.lines["pull line"][:, 0].mean())
    half = apothem * tan(pi / n)
    corners = [
        ((x + shift) * cos(w) + y * sin(w) - centre, (x + shift) * -sin(w) + y * cos(w), x + shift)
        for x, y in block.outline.points
    ]  # across and along the ring, and along the joint
    low, high = _level(block)
    sides = [e for e in block.straight() if e.length > 2 and e.apart[1] > e.apart[0]]
    wood = apothem - max(half_sizes(form)) - job.gauges.sanding_allowance
    return [
        *block.all_near(
            "lean of a face against the joint", [_lean(e) for e in (low, high)], 0.0, ANGLE, "deg"
        ),
        *block.all_near("side along the flat", [90 - abs(_lean(e)) for e in sides], degrees(w), ANGLE, "deg"),
        block.near("set back from the joint", low.midpoint[1], job.workshop.clamping.set_back, SLACK),
        *block.all_within(
            "inside the flat's edge", [half - abs(across) for across, _, _ in corners], ON_FLAT
        ),
        *block.all_within(
            "inside the ring's other face",
            [(centre + across) * tan(w) - along for across, along, _ in corners],
            INSIDE,
        ),
        block.check("clear of the finished form", wood, 0.0),
    ]


def _level(block: Drawn) -> tuple[Edge, Edge]:
    """The lowest and the highest of the edges that lie nearly along the joint."""
    level = [e for e in block.straight() if e.apart[0] > 10 * e.apart[1]]
    level.sort(key=lambda e: e.midpoint[1])
    return level[0], level[-1]


def _lean(edge: Edge) -> float:
    """Degrees off the x axis, -90 to 90."""
    turn = degrees(edge.heading(0.0))
    return (turn + 90) % 180 - 90


def _rim_checks(job: TorusJob, block: Drawn, ring: CutRing) -> list[Check]:
    """Its foot on the rim's flat, from the joint on; its face and its joint side parallel."""
    joint, face = _level(block)
    heel = min(face.start, face.end)
    foot = min(
        (e for e in block.straight() if e != face), key=lambda e: min(dist(heel, e.start), dist(heel, e.end))
    )
    w, clamp = ring.included / 2, job.workshop.clamping
    thick_edge = 2 * (ring.outer_radius - ring.parted) * tan(w)
    end = min(foot.start, foot.end, key=lambda p: hypot(p[0] - face.midpoint[0], p[1] - face.midpoint[1]))
    form = job.form
    room = ring.outer_radius - form.major_radius - form.tube_radius - job.gauges.sanding_allowance
    return [
        block.near("foot to clamp face", 90 - abs(90 - abs(_lean(foot))), 90 - degrees(w), ANGLE, "deg"),
        block.near("lean of the face against the joint", _lean(face), 0.0, ANGLE, "deg"),
        block.near("lean of the joint's side", _lean(joint), 0.0, ANGLE, "deg"),
        block.near("face meets the foot's end", hypot(end[0], end[1]), 0.0, SLACK),
        block.near("face above the wood", face.length, clamp.height, SLACK),
        block.check("foot inside the flat", thick_edge - clamp.set_back / cos(w) - foot.length, INSIDE),
        block.near("foot leans as the rim does", _foot_lean(foot), degrees(w), ANGLE, "deg"),
        block.check("clear of the finished form", room, 0.0),
    ]


def _foot_lean(foot: Edge) -> float:
    """Degrees off square to the joint, + where the rim comes nearer to the axis away from the joint."""
    (x0, y0), (x1, y1) = sorted((foot.start, foot.end), key=lambda p: -p[1])
    return degrees(atan2(x1 - x0, y0 - y1))
