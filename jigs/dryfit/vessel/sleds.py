"""The sleds for flat rings and the sticks that set their stops: what n segments cut so close to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import atan2, cos, degrees, inf, pi, tan

import numpy as np

from geometry.plane.contour import Contour, Edge
from geometry.records import replace
from jigs.dryfit import flat_sled
from jigs.dryfit.angle_plates import bearing_angle
from jigs.dryfit.bench import ANGLE, SLACK
from jigs.dryfit.files import Files
from jigs.dryfit.hold_down import press_checks
from jigs.dryfit.model import Check, Drawn, counted, near
from jigs.dryfit.ring import glued_already
from jigs.dryfit.saw_guides import level_handle_checks, run_out_checks, runner_checks
from jigs.dryfit.vessel.carriage import carriage_checks
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.work import Work

RAIL = 25.0  # mm, width of the rail under blocks of a layup
SHARED = 0.02  # mm by which the edges of rings that share a setting may differ
GAP = 0.1  # mm, at the last joint of a ring, outside
SHORT = 0.02  # mm of wood missing at a ring's outside
AROUND = 12.0  # mm from the mitre slot's middle to the runner's screws at most


def sled_checks(work: Work, files: Files, rings: Sequence[Held]) -> list[Check]:
    """Every sled, by its count of segments, with all sticks of its rings; glued ones need none, and no sled alone."""
    found: list[Check] = []
    sticks = stick_names(files)
    held = [number for numbers in sticks.values() for number in numbers]
    made = [ring for ring in rings if ring.number > glued_already(work.job)]
    for ring in made:
        count = held.count(ring.number)
        found.append(counted(f"ring {ring.number}", "stop sticks found", count, 1))
    for segments in sorted({ring.segments for ring in made}):
        own = [ring for ring in rings if ring.segments == segments]
        found += _sled_checks(work, files, segments, own, sticks)
    return found


def stick_names(files: Files) -> dict[str, list[int]]:
    """Each stop stick's name, and its rings."""
    found: dict[str, list[int]] = {}
    for name in files.names():
        if match := re.fullmatch(r"stop-stick-ring-([0-9-]+?)(-[a-h])?", name):
            found[f"stop-stick-ring-{match[1]}"] = [int(number) for number in match[1].split("-")]
    return found


def _sled_checks(
    work: Work, files: Files, segments: int, rings: Sequence[Held], sticks: dict[str, list[int]]
) -> list[Check]:
    job, suffix = work.job, f"-n{segments}"
    base, fence, runner, handle, exit_block = (
        files.drawn(f"plan-angle-{part}{suffix}")
        for part in ("base", "fence", "runner", "handle", "exit-block")
    )
    line, saw, mitre = base.lines["blade, kept side"], job.workshop.saw, pi / segments
    blade = float(line[:, 0].mean())
    at_fence = {
        side: flat_sled.fence_slots(base, flat_sled.fence_frame(mitre, side), side) for side in (1, -1)
    }
    angles = [fence_angle(base, side) for side in (1, -1)]
    stops = {
        name: stick_length(files.drawn(name))
        for name, numbers in sticks.items()
        if any(ring.number in numbers for ring in rings)
    }
    grip, wood = flat_sled.grip_slots(base, blade), [_wood(work, ring) for ring in rings]
    work_end = (flat_sled.cut_ends(job, at_fence, mitre), max(height for height, _ in wood))
    slot = blade - saw.kerf - saw.slot_distance - saw.slot_width / 2
    near_slot = tuple(d for d in base.drills if abs(d.centre[0] - slot) < AROUND)
    return [
        base.near("blade's line upright", float(np.ptp(line[:, 0])), 0.0, SLACK),
        *(c for side, own in at_fence.items() for c in flat_sled.fence_checks(job, fence, own, side)),
        *flat_sled.facing(fence.name, at_fence),
        *(
            check
            for ring in rings
            for name, stop in stops.items()
            if ring.number in sticks[name]
            for check in _ring_checks(work, ring, name, stop, angles)
        ),
        *carriage_checks(
            files, suffix, base, blade, list(stops.values()), inf if glued_already(job) else 0.0
        ),
        *level_handle_checks(job, handle, grip, blade - saw.kerf),
        *runner_checks(job, replace(base, drills=near_slot), runner, slot),
        *run_out_checks(job, base, exit_block, "blade, kept side", work_end),
        *flat_sled.flat_hold_checks(job, files, suffix, wood),
        *press_checks(
            job, files, suffix, base, blade, [height for height, _ in wood], min(stops.values(), default=inf)
        ),
        *joint_checks(files.drawn(f"joint-plate{suffix}"), segments, angles),
    ]


def _wood(work: Work, ring: Held) -> tuple[float, float]:
    """Thickness and width of a ring's strip, of a layup's with its rail."""
    rail = RAIL if work.job.layup is not None and work.job.layup.covers(ring.number) else 0.0
    return ring.top - ring.bottom + work.job.rings.flattening, ring.most - ring.core + rail


def fence_angle(base: Drawn, side: int) -> float:
    """Of the line through a fence's slots, along the walls that it stands against, off square to the blade, radians.

    Raises ValueError where the base lacks them.
    """
    walls = [
        _outer_wall(hole, side)
        for hole in base.holes
        if len(hole) == 4 and hole.centroid[1] * side > 0 and hole.centroid[0] < 0
    ]
    points = np.array([p for wall in walls if wall for p in (wall.start, wall.end)])
    if len(points) < 4:
        raise ValueError(f"{base.name} lacks slots of a fence")
    _, _, axes = np.linalg.svd(points - points.mean(axis=0))
    dx, dy = axes[0]
    return float(atan2(-side * dy * np.sign(dx), abs(dx)))


def _outer_wall(hole: Contour, side: int) -> Edge | None:
    """A leaning slot's long wall away from the strip; None for a level slot, which is the handle's."""
    walls = sorted(hole.edges(), key=lambda e: -e.length)[:2]
    if all(e.apart[1] < 0.01 * e.length for e in walls):
        return None
    return max(walls, key=lambda e: side * e.midpoint[1])


def stick_length(stick: Drawn) -> float:
    """From the edge that goes to the blade, level and lowest, to the level edge over its left end, mm.

    Raises ValueError where it has no such edges.
    """
    left, low, right, _ = stick.outline.bounds
    level = [e for e in stick.straight() if e.apart[1] < 1e-3]
    over = [e for e in level if e.ends[0] < left + 1e-3 and e.midpoint[1] > low + 1.0]
    if len(over) != 1 or right - left < 20:
        raise ValueError(f"{stick.name} has no two edges in line")
    return over[0].midpoint[1] - low


def _ring_checks(work: Work, ring: Held, name: str, stop: float, angles: Sequence[float]) -> list[Check]:
    """n segments, each cut once on either fence: do they close, and do they hold the wall and its allowance?

    Butted to the stop, a tip is `stop` from the blade: the outer edge is stop / cos of the fence's angle.
    """
    n, where = ring.segments, f"ring {ring.number}"
    together = n * sum(angles)
    edges = [stop / cos(angle) for angle in angles]
    sanded = min(edges) - 2 * work.job.rings.end_sanding(ring.spacer) / cos(ring.mitre)
    apothem = (sanded + ring.spacer / cos(ring.mitre)) / (2 * tan(ring.mitre))
    shared = SHARED / (2 * tan(ring.mitre))
    return [
        near(where, "all end angles together", degrees(together), 360.0, n * ANGLE, "deg"),
        near(where, "gap at the last joint", abs(2 * pi - together) * ring.most, 0.0, GAP),
        near(where, "outer edges from the two fences differ by", edges[0] - edges[1], 0.0, SHARED),
        Check(
            where,
            f"by {name}: outside over the wall and its allowance",
            apothem - ring.most,
            -SHORT,
            shared + SHORT,
        ),
    ]


def joint_checks(plate: Drawn, segments: int, angles: Sequence[float]) -> list[Check]:
    """The plate fills the angle of a joint, and the angle between the two fences."""
    angle = bearing_angle(plate)
    return [
        plate.near("angle", angle, 360 / segments, ANGLE, "deg"),
        plate.near("angle less that between the fences", angle - degrees(sum(angles)), 0.0, 2 * ANGLE, "deg"),
    ]
