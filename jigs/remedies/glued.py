"""Rings that are glued already: no change of a job makes them other wood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from geometry.records import Record, replace
from jigs.asked.jobfile import AnyJob
from jigs.asked.readings.readings import Readings
from jigs.forms.solve import solve
from jigs.measured.glued import glued_rings
from jigs.measured.since import rings_glued
from jigs.plans.plan import Plan, by_form
from jigs.words.findings import Finding, Refused

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

OTHERS = Finding("glued-rings", "the glued rings would be others")
TURNED = ("outside.", "inside.", "reversing.")  # of a vessel: all its rings are glued before these
OF_RINGS = {"form", "rings", "layup", "staves"}  # sections of which a ring is made
NOT_OF_RINGS = {"form.lining", "form.half_sanding", "form.least_wall"}
STAYS = "the glued rings cannot be cut anew: only what leaves them as they are would do"
SAME = 1e-6  # mm


class Made(Record):
    """A vessel's ring, or a torus's blank; mm, None for what was measured and so stays whatever the job asks for."""

    sort: tuple[object, ...]
    outer: float | None
    core: float | None
    place: float | None  # its top over the stack's foot; of wedge rings how far they lie from the axis

    def holds(self, other: Made) -> bool:
        """Whether another is of this wood: no more of it, in the same place."""
        return (
            self.sort == other.sort
            and (self.outer is None or other.outer is None or other.outer <= self.outer + SAME)
            and (self.core is None or other.core is None or other.core >= self.core - SAME)
            and (self.place is None or other.place is None or abs(other.place - self.place) <= SAME)
        )


def some_glued(readings: Readings) -> bool:
    """Whether there is wood already that a job has to go on with."""
    return glued_rings(readings).count > 0 or _all_glued(readings)


def as_glued(findings: Iterable[Finding], readings: Readings) -> tuple[Finding, ...]:
    """Findings that offer nothing which the glue excludes; those of the glued rings themselves know of it."""
    if not some_glued(readings):
        return tuple(findings)
    return tuple(replace(one, remedy=STAYS) if _of_rings(one) else one for one in findings)


def _of_rings(finding: Finding) -> bool:
    table = finding.key.partition(".")[0]
    own = finding.code.startswith("glued-")
    return bool(finding.remedy) and table in OF_RINGS and finding.key not in NOT_OF_RINGS and not own


def _all_glued(readings: Readings) -> bool:
    return rings_glued(readings) or any(id.startswith(TURNED) for id in readings.entries)


def rings_made(job: AnyJob) -> tuple[Made, ...]:
    """Those that a job's readings say are glued, as the job has them; nothing where they say none, or where the job is
    refused without readings too."""
    if not some_glued(job.readings):
        return ()
    try:
        return as_planned(solve(replace(job, readings=Readings()), early=True), job.readings)
    except Refused:
        return ()


def are_others(made: tuple[Made, ...], plan: Plan) -> bool:
    """Whether a plan takes glued rings for other rings than were made."""
    now = as_planned(plan, plan.job.readings)
    return len(now) < len(made) or any(not was.holds(one) for was, one in zip(made, now, strict=False))


def as_planned(plan: Plan, readings: Readings) -> tuple[Made, ...]:
    """What a plan takes the glued rings to be."""
    return by_form(
        plan,
        torus=lambda own: (_blank(own),) if rings_glued(readings) else (),
        vessel=lambda own: tuple(_rows(own, readings)),
    )


def _blank(plan: TorusPlan) -> Made:
    blank, form = plan.blank, plan.job.form
    sort = (blank.wedge_rings, blank.segments, blank.parted, form.species, form.spacer, form.spacer_species)
    return Made(sort, blank.apothem, blank.core_apothem, blank.centre)


def _rows(plan: VesselPlan, readings: Readings) -> Iterator[Made]:
    glued, layers = glued_rings(readings), plan.planned.layers
    for layer in layers if _all_glued(readings) else layers[: glued.count]:
        number, ring = layer.number, layer.ring
        yield Made(
            (layer.kind, layer.upright, layer.plug, layer.species, ring.segments, ring.spacer),
            None if number in glued.across else ring.outer,
            None if number in glued.openings else ring.core,
            None if number in {*glued.tops, *glued.heights} else ring.top - plan.planned.bottom,
        )
