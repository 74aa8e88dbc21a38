"""The finished section: outside as given, inside by the wall or as given."""

from __future__ import annotations

from typing import NoReturn

from geometry.bodies.floor import TightCorner
from geometry.bodies.section import Section, TooTight, inner_from_wall, least_wall
from geometry.plane.profile import Profile, profile
from jigs.asked.nearest import at_most
from jigs.asked.vessel_job import VesselJob
from jigs.words.findings import RefusedSoon
from jigs.words.lengths import show_length

MEETS = 0.05  # mm: an inside may miss the rim's height by this, from rounding


def solve_section(job: VesselJob) -> Section:
    """The section. Raises Refused where the wall does not fit the outside."""
    outer, foot = job.outside.profile, job.foot
    try:
        inner = _own_inside(job) if job.inside else _inside_by_wall(job)
        return Section(outer, inner, foot.recess_diameter / 2, foot.recess_depth)
    except TooTight as tight:
        _refuse_tight(job, tight)
    except TightCorner as tight:
        message = (
            f"a corner of {show_length(job.wall.inner_corner, job.unit)} does not fit between floor and wall"
        )
        remedy = f"use an inner_corner of at most {at_most(job, tight.most)}"
        _refuse(job, "tight-corner", message, "wall.inner_corner", remedy)
    except ValueError as error:
        key = "inside" if job.inside else "wall"
        _refuse(job, "no-inside", str(error), key, "change the wall, the floor or its corner")


def thinnest(section: Section) -> tuple[float, float]:
    """The thinnest wall of the finished section, measured square to its surface, and its height."""
    return least_wall(section.outer, section.inner)


def floor_height(job: VesselJob) -> float:
    """The floor's height over the foot: its thickness over the hollow in the foot."""
    return wall_floor(job) + job.foot.recess_depth


def wall_floor(job: VesselJob) -> float:
    """Thickness of the floor: as asked, else the wall's at the foot."""
    wish = job.wall
    if wish.floor is not None:
        return wish.floor
    return wish.thickness or (wish.by_height[0][1] if wish.by_height else 0.0)


def _inside_by_wall(job: VesselJob) -> Profile:
    wall = job.wall.by_height or job.wall.thickness or 0.0
    return inner_from_wall(job.outside.profile, wall, floor_height(job), job.wall.inner_corner)


def _own_inside(job: VesselJob) -> Profile:
    """The inside as given, its floor led to the axis and its rim to the outside's height."""
    if job.inside is None:
        raise ValueError("there is no inside of its own")
    own, height = job.inside.profile, job.outside.profile.end[1]
    if abs(own.end[1] - height) > MEETS:
        have, want = (show_length(z, job.unit) for z in (own.end[1], height))
        _refuse(job, "no-inside", f"the inside ends at {have}, the rim stands at {want}", "inside",
                "let both end at the same height")  # fmt: skip
    side = own.spanning(own.bottom, height)
    if side.start[0] <= 1e-6:
        return side
    return profile((0.0, side.start[1]), *(tuple(row) for row in side.vertices.tolist()))


def _refuse_tight(job: VesselJob, tight: TooTight) -> NoReturn:
    key = "wall.by_height" if job.wall.by_height else "wall.thickness"
    where, most = show_length(tight.z, job.unit), at_most(job, tight.most)
    thinner = f"a wall of at most {most} there, or " if tight.most >= job.wall.least else ""
    remedy = f"use {thinner}a gentler curve"
    _refuse(job, "too-tight", f"the outside curves too tightly for the wall at height {where}", key, remedy)


def _refuse(job: VesselJob, code: str, message: str, key: str, remedy: str) -> NoReturn:
    raise RefusedSoon([job.finding(code, message, key=key, remedy=remedy)])
