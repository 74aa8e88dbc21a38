"""A torus and a vessel whose wood is set by each test."""

from dataclasses import replace
from functools import cache

from jigs.asked.job import Job, TorusJob
from jigs.asked.job_wood import LayupWish, Ply
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.layup.solve.whole import torus_layups, vessel_layups
from tests.jigs.vessel.jobs import job as vessel_job

HOOP = """\
title = "Hoop"
unit = "{unit}"
[form]
outer_diameter = "250 mm"
tube_diameter = "54 mm"
wedge_rings = 18
segments = 8
core_opening = "20 mm"
{more}
"""
WISH = LayupWish(
    plies=(Ply("maple", 3.0), Ply("black", 0.6, "#202020"), Ply("walnut", 2.4)),
    angle=30.0,
    plane="flat",
    mirrored="both",
    one_hand=False,
    stacking="auto",
    turned=False,
    sanding=0.1,
    rings=None,
    sheet_width=300.0,
    sheet_length=600.0,
)


@cache
def hoop(unit: str = "mm", more: str = "") -> TorusPlan:
    return solve(parse(HOOP.format(unit=unit, more=more), "hoop.toml"))


@cache
def vessel(name: str) -> VesselPlan:
    return solve(vessel_job(name))


def with_layup(job: Job, wish: LayupWish = WISH, **changes: object) -> Job:
    return replace(job, layup=replace(wish, **changes))


def of_hoop(plan: TorusPlan | None = None, **changes: object) -> LayupPlan:
    """The one layup of the torus."""
    plan = plan or hoop()
    job = with_layup(plan.job, **changes)
    assert isinstance(job, TorusJob)
    [layup] = torus_layups(job, plan.blank, plan.cutting.carrier)
    return layup


def of_vessel(name: str, **changes: object) -> tuple[LayupPlan, ...]:
    plan = vessel(name)
    return vessel_layups(with_layup(plan.job, **changes), plan.stack, plan.saws.strips_held)
