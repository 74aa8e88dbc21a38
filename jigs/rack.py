"""All the jigs of a plan as the turner wants them made, in pieces where their beds ask for it."""

from __future__ import annotations

from jigs.beds import bed_findings
from jigs.families import parts_of
from jigs.families.places import NoRoom
from jigs.findings import Finding, Refused
from jigs.part import Part
from jigs.plan import Plan
from jigs.processes import as_chosen, play_of
from jigs.splitting import CannotSplit, split_to_bed

HAND_HELD = {"gauges", "standing", "sizes", "wedges", "coupon"}  # families whose cut parts may be joined too


def rack(plan: Plan) -> tuple[list[Part], list[Finding]]:
    """Every part, and what is worth knowing about them.

    Raises Refused where a printed part has no bed and cannot be joined from pieces.
    """
    try:
        parts = parts_of(plan)
    except NoRoom as error:
        raise Refused(
            [plan.job.finding("no-room", str(error), key=error.key, remedy=error.remedy)]
        ) from error
    parts = [piece for part in parts for piece in _in_pieces(as_chosen(part, plan.job.workshop), plan)]
    found = bed_findings(plan.job, parts)
    refused = [finding for finding in found if finding.severity == "refused"]
    if refused:
        raise Refused(refused)
    return parts, found


def _in_pieces(part: Part, plan: Plan) -> list[Part]:
    """The pieces that lie on the part's bed; what carries work past a blade, or spins with it, is not joined."""
    shop = plan.job.workshop
    if part.process != "print" and not (part.process == "cut" and part.family in HAND_HELD):
        return [part]
    bed = shop.printer.bed if part.process == "print" else shop.cutter.bed
    try:
        return split_to_bed(part, bed, play_of(part.process, shop))
    except CannotSplit:
        return [part]
