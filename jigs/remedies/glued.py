"""Rings that are glued already: no change of a job makes them other wood."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from jigs.asked.jobfile import AnyJob
from jigs.asked.readings.readings import Readings
from jigs.forms.solve import solve
from jigs.measured.glued import Glued, glued_rings
from jigs.measured.since import rings_glued
from jigs.plans.plan import Plan, by_form
from jigs.words.findings import Finding, Refused

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

OTHERS = Finding("glued-rings", "the glued rings would be others")


def some_glued(readings: Readings) -> bool:
    """Whether there is wood already that a job has to go on with."""
    return glued_rings(readings).count > 0 or rings_glued(readings)


def rings_made(job: AnyJob) -> tuple[object, ...]:
    """Those that a job's readings say are glued, as the job has them; nothing where they say none, or where the job is
    refused without readings too."""
    if not some_glued(job.readings):
        return ()
    try:
        return as_planned(solve(replace(job, readings=Readings()), early=True), job.readings)
    except Refused:
        return ()


def as_planned(plan: Plan, readings: Readings) -> tuple[object, ...]:
    """What a plan takes the glued rings to be, where that was not measured."""
    return by_form(
        plan,
        torus=lambda own: _blank(own) if rings_glued(readings) else (),
        vessel=lambda own: tuple(_rows(own, glued_rings(readings))),
    )


def _blank(plan: TorusPlan) -> tuple[object, ...]:
    blank = plan.blank
    sizes = (blank.apothem, blank.core_apothem, blank.centre, blank.parted)
    return (blank.wedge_rings, blank.segments, *(round(size, 6) for size in sizes))


def _rows(plan: VesselPlan, glued: Glued) -> Iterator[object]:
    for layer in plan.planned.layers[: glued.count]:
        number, ring = layer.number, layer.ring
        yield (
            layer.kind,
            ring.segments,
            number in glued.across or round(ring.outer, 6),
            number in glued.openings or round(ring.core, 6),
            number in glued.tops or number in glued.heights or round(ring.top - plan.planned.bottom, 6),
        )
