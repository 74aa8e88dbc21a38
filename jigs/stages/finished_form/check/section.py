"""Whether the outside is one that can be turned, and the wall thick enough."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from geometry.bodies.section import Section
from geometry.plane.nearest import distances
from jigs.asked.job import largest_that_fits
from jigs.asked.undershot import undershot
from jigs.asked.vessel_job import Shape, VesselJob
from jigs.stages.finished_form.check.form import stage_findings
from jigs.words.findings import Finding

LEAST_FOOT = 5.0  # mm, radius
LEAST_STEM = 0.5  # mm, radius


def shape_findings(job: VesselJob) -> Iterator[Finding]:
    """What is wrong with stages and profiles before there is a section."""
    yield from stage_findings(job, job.rings.turning_allowance)
    yield from _folds(job, "profile", job.outside)
    if job.inside is not None:
        yield from _folds(job, "inside", job.inside)
    yield from _meets_axis(job)
    foot = job.outside.profile.start[0]
    if foot < LEAST_FOOT:
        least = job.at_least(2 * LEAST_FOOT)
        message = f"a foot {job.show(2 * foot)} across is not glued or held"
        yield job.finding(
            "no-foot", message, key=_key("profile", job.outside), remedy=f"give at least {least}"
        )
    elif job.foot.recess_diameter:
        yield from _hollow(job, foot)


def _meets_axis(job: VesselJob) -> Iterator[Finding]:
    outside = job.outside.profile
    if outside.radii(outside.bottom, outside.top)[0] < LEAST_STEM:
        message = f"the outside meets the axis{undershot(job)}"
        more = "add a station there, as wide as you want it, or " if job.outside.way == "stations" else ""
        remedy = f"{more}make it thicker there"
        yield job.finding("meets-axis", message, key=_key("profile", job.outside), remedy=remedy)


def _hollow(job: VesselJob, foot: float) -> Iterator[Finding]:
    """Foot beside the hollow in it, and wood over it under an outside that rises flat."""
    across, deep = job.foot.recess_diameter, job.foot.recess_depth
    if across / 2 > foot - LEAST_FOOT:
        message = f"a hollow {job.show(across)} across leaves no foot to stand on"
    elif not _leaves_wood(job, across):
        message = (
            f"a hollow {job.show(across)} across and {job.show(deep)} deep leaves less than the least wall, "
            f"{job.show(job.wall.least)}, under the outside"
        )
    else:
        return
    most = largest_that_fits(lambda mm: _leaves_wood(job, mm), 0.0, 2 * (foot - LEAST_FOOT))
    remedy = f"use at most {job.at_most(most)}" if most > 0 else "leave it out"
    yield job.finding("no-foot", message, key="foot.recess_diameter", remedy=remedy)


def _leaves_wood(job: VesselJob, across: float) -> bool:
    """Whether the least wall stands over the corner of a hollow so wide, where the outside can be followed."""
    outer, corner = job.outside.profile, (across / 2, job.foot.recess_depth)
    if not corner[1] or outer.fold() is not None or corner[1] >= outer.top:
        return True
    gap = float(distances(outer.edges(), np.array([corner]))[0])
    return outer.radius_at(corner[1]) > corner[0] and gap >= job.wall.least


def _key(table: str, shape: Shape) -> str:
    return f"{table}.{shape.way}"


def _folds(job: VesselJob, table: str, shape: Shape) -> Iterator[Finding]:
    fold = shape.profile.fold()
    if fold is not None:
        message = f"the profile turns downward at height {job.show(fold)}"
        remedy = f"{_STRAIGHTEN[shape.way]}: the profile has to rise all the way"
        yield job.finding("folds", message, key=_key(table, shape), remedy=remedy)


_STRAIGHTEN = {
    "stations": "add a station near there, or move one",
    "edges": "move a corner there, or give its arc a larger radius",
    "drawing": "redraw it there",
}


def wall_findings(job: VesselJob, section: Section, thinnest: tuple[float, float]) -> Iterator[Finding]:
    """A wall thinner than the thinnest that is turned; a floor thinner than that."""
    least, (wall, height) = job.wall.least, thinnest
    key = "inside" if job.inside else "wall.by_height" if job.wall.by_height else "wall.thickness"
    if wall < least - 1e-3:
        at, thin = job.show(height), job.show(least)
        found = f"the wall is {job.show(wall)} at height {at}" if wall > 0 else (
            f"the inside lies without the outside at height {at}"
        )  # fmt: skip
        remedy = f"make it {job.at_least(least)}" if wall > 0 else "move it inward there"
        yield job.finding("thin-wall", f"{found}, under the least of {thin}", key=key, remedy=remedy)
    floor = section.floor_thickness
    if not section.through and floor < least - 1e-3:
        message = f"the floor is {job.show(floor)}, under the least wall of {job.show(least)}"
        key = "inside" if job.inside else "wall.floor"
        yield job.finding("thin-floor", message, key=key, remedy=f"make it {job.at_least(least)}")
