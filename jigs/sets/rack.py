"""Every jig of a plan as the turner wants it made, in pieces where beds ask for it; whether it can be made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from itertools import dropwhile
from typing import TYPE_CHECKING

from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.asked.readings.machine import machine_fit
from jigs.forms.form import of_plan, parts_of
from jigs.forms.solve import solve
from jigs.parts.beds import overflow
from jigs.parts.coding import carries_code, settled
from jigs.parts.facts import facts_of
from jigs.parts.families import family_of
from jigs.parts.part import Part
from jigs.parts.places import LEAST_TEXT, SAW_CAUTION, NoRoom
from jigs.parts.processes import as_chosen, play_of
from jigs.parts.proof import bed_findings, faults
from jigs.plans.plan import Plan, by_form
from jigs.stages.shop.assumed import assumed_findings, told_on_jigs
from jigs.words.findings import Finding, Refused
from jigs.work.lean import left_out
from jigs.work.model import Rack

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob


def rack(plan: Plan, lean: bool = False) -> tuple[list[Part], list[Finding]]:
    """Every part, and what is worth knowing about them; if `lean`, about those that a lean rack has.

    Raises Refused where a printed part has no bed and cannot be joined from pieces, and where a hole leaves its plate.
    """
    try:
        parts = parts_of(plan)
    except NoRoom as error:
        raise Refused(
            [plan.job.finding("no-room", str(error), key=error.key, remedy=error.remedy)]
        ) from error
    title = plan.job.title.upper()
    chosen = [as_chosen(part, plan.job.workshop, plan.job.unit) for part in parts]
    chosen = told_on_jigs(chosen, plan.job)
    pieces = (settled(piece, title) for part in chosen for piece in _in_pieces(part, plan))
    parts = [replace(piece, facts=facts_of(piece, plan.job)) for piece in pieces]
    made = _of_lean(parts) if lean else parts
    found = [
        *_hole_findings(plan.job, _of_lean(chosen) if lean else chosen),
        *assumed_findings(plan.job, made),
        *bed_findings(plan.job, made),
        *_lettering_findings(plan.job, made),
        *by_form(plan, torus=lambda _: (), vessel=lambda vessel: _pot_findings(vessel.job)),
    ]
    refused = [finding for finding in found if finding.severity == "refused"]
    if refused:
        raise Refused(refused)
    return parts, found


def done_with(plan: Plan, parts: Sequence[Part]) -> Set[str]:
    """Names of the jigs that no step uses again, by the readings: a printed coupon once it is read, whatever its shape
    is now, for its readings name the sizes; others once halves are joined, and the first side sanded."""
    from jigs.measured.first_side import side_found
    from jigs.measured.since import halves_joined

    readings = plan.job.readings
    read = {
        part.name for part in parts if part.jig.first and part.process == "print" and machine_fit(readings)
    }
    if not by_form(plan, torus=lambda _: halves_joined(readings), vessel=lambda _: False):
        return read
    reached = "first_mounting" if side_found(readings) is None else "reversed_mounting"
    jigs, stages = Rack(parts), dropwhile(lambda stage: stage.id != reached, of_plan(plan).stages)
    used = {use.part for stage in stages for one in stage.operations(plan, jigs) for use in one.jigs}
    return read | {part.name for part in parts if part.name not in used and not part.jig.first}


def _of_lean(parts: list[Part]) -> list[Part]:
    unwanted = left_out(parts)
    return [part for part in parts if part not in unwanted]


def _pot_findings(lid: VesselJob) -> Iterator[Finding]:
    """A lid whose pot's own job is refused fits nothing, unless that pot is turned already."""
    if lid.pot is None:
        return
    try:
        solve(lid.pot.job)
    except Refused as refused:
        message = f"the pot's own job, {lid.pot.job.name}, is refused: {refused.findings[0].message}"
        remedy = "check that job and put it right first, unless the pot is turned already"
        yield lid.warning("pot-refused", message, key="lid.pot", remedy=remedy)


def _hole_findings(job: Job, parts: Sequence[Part]) -> Iterator[Finding]:
    """A plate that the job's sizes leave no room for its holes is refused."""
    for part in parts:
        for fault in faults(part):
            message = f"{part.name} cannot be made: {fault}"
            yield job.finding("hole", message, key="boards.sheet", remedy="use thinner sheet for it")


def _lettering_findings(job: Job, parts: Sequence[Part]) -> list[Finding]:
    """Of the plates that have no room for all of their lettering, and of those without room for their code."""
    short = [p for p in parts if set(p.beside) - set(SAW_CAUTION) and carries_code(p, p.marks)]
    bare = [part for part in parts if part.beside and not carries_code(part, part.marks)]
    said = f"too small for all of their lettering: {_listed(short)}"
    tagged = f"too small for a letter of {job.show(LEAST_TEXT)}: {_listed(bare)}"
    pen = "their drawings have the words beside the plate; write what you need with a pen"
    return [
        *([job.note("lettered-beside", said, remedy=pen)] if short else []),
        *([job.warning("tag", tagged, remedy="tie a tag with its code to each")] if bare else []),
    ]


def _listed(parts: Sequence[Part]) -> str:
    return ", ".join(f"{part.code} {part.name}" for part in parts)


def _in_pieces(part: Part, plan: Plan) -> list[Part]:
    """The pieces that lie on its bed; what carries work past a blade, spins with it or is measured is never joined."""
    shop = plan.job.workshop
    joined = part.process == "print" or (part.process == "cut" and family_of(part.family).joined)
    if part.jig.first or not joined:
        return [part]
    bed = shop.printer.bed if part.process == "print" else shop.cutter.bed
    if not overflow(part.outline, bed):
        return [part]
    from jigs.parts.splitting import CannotSplit, split_to_bed

    try:
        return split_to_bed(part, bed, play_of(part.process, shop))
    except CannotSplit:
        return [part]


class Proof(Record):
    """A job that can be made."""

    plan: Plan
    parts: list[Part]
    notes: list[Finding]  # of the jigs; the plan has its own
    without: tuple[Part, ...] = ()  # of them, those that a lean rack leaves out

    @property
    def made(self) -> list[Part]:
        """Those that are made."""
        return [part for part in self.parts if part not in self.without]


def prove(job: Job, lean: bool = False) -> Proof:
    """Solve a job and draw all its jigs. Raises Refused with every finding that stops it.

    If `lean`, as for a turner who owns sleds: what is left out stops nothing.
    """
    return draw(solve(job), lean)


def draw(plan: Plan, lean: bool = False) -> Proof:
    """Draw all jigs of a plan. Raises Refused where one of them that is made cannot be."""
    parts, notes = rack(plan, lean)
    return Proof(plan, parts, notes, left_out(parts) if lean else ())
