"""The finished section: outside as given, inside by the wall or as given."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NoReturn

import numpy as np

from geometry.bodies.floor import TightCorner
from geometry.bodies.section import Section, TooTight, least_wall
from geometry.plane.profile import Profile
from jigs.asked.inside import floor_height, inside_of
from jigs.asked.vessel_job import VesselJob
from jigs.words.findings import RefusedSoon

COARSE = 2.0  # mm between the places that are looked at while a size is dragged
MEETS = 0.05  # mm: an inside may miss the rim's height by this, from rounding


def solve_section(job: VesselJob) -> Section:
    """The section. Raises Refused where the wall does not fit the outside."""
    outer, foot = job.outside.profile, job.foot
    _own_ends(job)
    try:
        rows = (outer.vertices.tobytes(), inside_of(job).vertices.tobytes())
        return _section(*rows, foot.recess_diameter / 2, foot.recess_depth)
    except TooTight as tight:
        _refuse_tight(job, tight)
    except TightCorner as tight:
        message = f"a corner of {job.show(job.wall.inner_corner)} does not fit between floor and wall"
        remedy = f"use an inner_corner of at most {job.at_most(tight.most)}"
        _refuse(job, "tight-corner", message, "wall.inner_corner", remedy)
    except ValueError as error:
        key = "rebate" if job.rebate.width else "inside" if job.inside else "wall"
        if "wall.floor" in job.places and job.inside is None and floor_height(job) >= outer.top:
            key = "wall.floor"
        message = re.sub(r"([\d.]+) mm", lambda mm: job.show(float(mm[1])), str(error))
        remedy = "change the wall, the floor or its corner"
        _refuse(job, "no-inside", message, key, f"use a shorter seat, or {remedy}" if job.lid else remedy)


@lru_cache(maxsize=32)  # it keeps what was worked out on it while something else is changed
def _section(outer: bytes, inner: bytes, recess_radius: float, recess_depth: float) -> Section:
    """The two sides given by their vertices' bytes. Raises ValueError where they do not fit together."""
    own, hollow = (Profile(np.frombuffer(side).reshape(-1, 3)) for side in (outer, inner))
    return Section(own, hollow, recess_radius, recess_depth)


@lru_cache(maxsize=4)
def thinnest(section: Section, coarse: bool = False) -> tuple[float, float]:
    """The thinnest wall of the finished section, measured square to its surface, and its height."""
    return least_wall(section.outer, section.inner, *([COARSE] if coarse else []))


def _own_ends(job: VesselJob) -> None:
    """Raises Refused where an inside of its own ends at another height than the rim; a lid's goes on in the flange."""
    if job.inside is None or job.lid is not None:
        return
    have, want = job.inside.profile.end[1], job.outside.profile.end[1]
    if abs(have - want) > MEETS:
        ends, rim = job.show(have), job.show(want)
        _refuse(job, "no-inside", f"the inside ends at {ends}, the rim stands at {rim}", "inside",
                "let both end at the same height")  # fmt: skip


def _refuse_tight(job: VesselJob, tight: TooTight) -> NoReturn:
    key = "wall.by_height" if job.wall.by_height else "wall.thickness"
    where, most = job.show(tight.z), job.at_most(tight.most)
    thinner = f"a wall of at most {most} there, or " if tight.most >= job.wall.least else ""
    remedy = f"use {thinner}a gentler curve"
    _refuse(job, "too-tight", f"the outside curves too tightly for the wall at height {where}", key, remedy)


def _refuse(job: VesselJob, code: str, message: str, key: str, remedy: str) -> NoReturn:
    raise RefusedSoon([job.finding(code, message, key=key, remedy=remedy)])
