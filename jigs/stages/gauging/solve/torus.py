"""The gauges' share of the plan, and the check corner's."""

from __future__ import annotations

from math import cos, pi, sin

from geometry.bodies.torus import Blank, bevel_needed, rings_in_check
from geometry.lathe.turning import TAIL
from jigs.asked.defaults import default_plate
from jigs.asked.job import Job, TorusJob
from jigs.asked.job_shop import Process
from jigs.stages.gauging.plan.torus import CheckPlan, GaugePlan, Stage
from jigs.stages.mountings.plan import HoldingPlan
from jigs.words.findings import Finding, refuse

HOLE_PLAY = 2.0  # of the hole gauge in the hole, at its widest
TAIL_WIDENING = 1 - cos(TAIL)  # of the hole gauge past the equator, in edge radii
GAUGE_WEB = 24.0


def _stage(job: TorusJob, index: int) -> Stage:
    wish = job.gauges
    offset, last = wish.stages[index], index == len(wish.stages) - 1
    name = "finished" if last else f"stage-{index + 1}"
    label = "FINISHED" if last else f"+{job.show(offset)}".upper()
    return Stage(name, label, offset, job.form.tube.beyond(offset).beyond(wish.fit))


def plate_of(job: Job, longest: float, made: Process) -> float:
    """Of the sheet as measured, whether the cutter or a hand saw follows the outline; or as thick as a printed one."""
    if made != "print":
        return job.workshop.boards.sheet
    return job.gauges.plate_thickness or default_plate(longest, job.unit)


def solve_gauges(job: TorusJob, holding: HoldingPlan) -> GaugePlan:
    """Stages, widths and bevels of the profile gauges. Raises Refused where fit is all of a curve."""
    form, wish = job.form, job.gauges
    tightest = min(of.hollow.least_radius for of in (holding.channel, holding.retainer))
    if wish.fit >= tightest:
        refuse([_too_loose(job, tightest)])
    stages = tuple(_stage(job, index) for index in range(len(wish.stages)))
    rough, widest = form.rough, stages[0].edge
    longest = 2 * max(widest.wide, widest.high) + 2 * GAUGE_WEB
    plate, standing = (
        plate_of(job, longest, made) for made in (job.workshop.made.gauges, job.workshop.made.standing)
    )
    opening = form.major_radius - rough.wide
    tail = widest.wide * TAIL_WIDENING if widest.round else widest.wide - widest.at(TAIL)[0]
    channel = holding.channel
    flank = (form.major_radius + channel.width / 2) / sin(channel.half_angle)
    return GaugePlan(
        stages=stages,
        plate=plate,
        standing_plate=standing,
        fit=wish.fit,
        web=GAUGE_WEB,
        hole_web=min(GAUGE_WEB, 2 * opening - HOLE_PLAY - tail),
        rim_height=rough.high + 3,
        hole_land=bevel_needed(plate, opening),
        standing_land=bevel_needed(standing, opening),
        channel_land=bevel_needed(plate, flank),
        channel=channel.hollow.beyond(-wish.fit),
        retainer=holding.retainer.hollow.beyond(-wish.fit),
    )


def _too_loose(job: TorusJob, tightest: float) -> Finding:
    show = job.show
    return job.finding(
        "loose-gauge",
        f"gauges {show(job.gauges.fit)} looser than the work have corners: the tube curves by {show(tightest)}",
        key="gauges.fit",
        remedy=f"use a fit of at most {job.at_most(tightest / 2)}",
        wants={"gauges.fit": tightest / 2},
    )


def check_corner(blank: Blank) -> CheckPlan:
    """As many wedge rings as come nearest to a right angle."""
    rings = rings_in_check(blank.wedge_rings)
    return CheckPlan(rings, rings * 2 * pi / blank.wedge_rings, blank.swing_radius)
