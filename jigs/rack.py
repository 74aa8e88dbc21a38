"""All the jigs of a plan, proved to lie on their machines."""

from __future__ import annotations

from jigs.beds import bed_findings
from jigs.families import parts_of
from jigs.families.places import NoRoom
from jigs.findings import Finding, Refused
from jigs.part import Part
from jigs.plan import Plan


def rack(plan: Plan) -> tuple[list[Part], list[Finding]]:
    """Every part, and what is worth knowing about them. Raises Refused where a printed part has no bed."""
    try:
        parts = parts_of(plan)
    except NoRoom as error:
        raise Refused(
            [plan.job.finding("no-room", str(error), key="title", remedy="shorten the title")]
        ) from error
    found = bed_findings(plan.job, parts)
    refused = [finding for finding in found if finding.severity == "refused"]
    if refused:
        raise Refused(refused)
    return parts, found
