"""Whether the outside is one that can be turned, and the wall thick enough."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from geometry.nearest import distances
from geometry.section import Section
from jigs.checks.form import stage_findings
from jigs.checks.nearest import at_least, at_most
from jigs.findings import Finding
from jigs.lengths import show_length
from jigs.vessel_job import Shape, VesselJob

LEAST_FOOT = 5.0  # mm, radius


def shape_findings(job: VesselJob) -> Iterator[Finding]:
    """What is wrong with stages and profiles before there is a section."""
    yield from stage_findings(job, job.rings.turning_allowance)
    yield from _folds(job, "profile", job.outside)
    if job.inside is not None:
        yield from _folds(job, "inside", job.inside)
    foot = job.outside.profile.start[0]
    if foot < LEAST_FOOT:
        least = at_least(job, 2 * LEAST_FOOT)
        message = f"a foot {show_length(2 * foot, job.unit)} across is not glued or held"
        yield job.finding(
            "no-foot", message, key=_key("profile", job.outside), remedy=f"give at least {least}"
        )
    elif job.foot.recess_diameter / 2 > foot - LEAST_FOOT:
        most = at_most(job, 2 * (foot - LEAST_FOOT))
        message = (
            f"a hollow {show_length(job.foot.recess_diameter, job.unit)} across leaves no foot to stand on"
        )
        yield job.finding("no-foot", message, key="foot.recess_diameter", remedy=f"use at most {most}")
    elif job.foot.recess_diameter and job.foot.recess_depth:
        yield from _thin_over_recess(job)


def _thin_over_recess(job: VesselJob) -> Iterator[Finding]:
    """Wood between the hollow in the foot and an outside that rises flat from it."""
    outer, corner = job.outside.profile, (job.foot.recess_diameter / 2, job.foot.recess_depth)
    if outer.fold() is not None or corner[1] >= outer.top:
        return
    gap = float(distances(outer.edges(), np.array([corner]))[0])
    through = outer.radius_at(corner[1]) <= corner[0]
    if through or gap < job.wall.least:
        found = (
            "cuts through the outside"
            if through
            else f"leaves {show_length(gap, job.unit)} under the outside"
        )
        across, deep, least = (show_length(mm, job.unit) for mm in (2 * corner[0], corner[1], job.wall.least))
        yield job.finding(
            "no-foot",
            f"a hollow {across} across and {deep} deep {found}, and {least} is the least wall",
            key="foot.recess_diameter",
            remedy="make it narrower or shallower",
        )


def _key(table: str, shape: Shape) -> str:
    return f"{table}.{shape.way}"


def _folds(job: VesselJob, table: str, shape: Shape) -> Iterator[Finding]:
    fold = shape.profile.fold()
    if fold is not None:
        message = f"the profile turns downward at height {show_length(fold, job.unit)}"
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
        at, thin = show_length(height, job.unit), show_length(least, job.unit)
        found = f"the wall is {show_length(wall, job.unit)} at height {at}" if wall > 0 else (
            f"the inside lies without the outside at height {at}"
        )  # fmt: skip
        remedy = f"make it {at_least(job, least)}" if wall > 0 else "move it inward there"
        yield job.finding("thin-wall", f"{found}, under the least of {thin}", key=key, remedy=remedy)
    floor = section.floor_thickness
    if floor < least - 1e-3:
        message = f"the floor is {show_length(floor, job.unit)}, under the least wall of {show_length(least, job.unit)}"
        key = "inside" if job.inside else "wall.floor"
        yield job.finding("thin-floor", message, key=key, remedy=f"make it {at_least(job, least)}")
