"""Whether a vessel can be built in two halves at its ring."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from jigs.asked.halves import HalvesWish
from jigs.asked.nearest import show_in
from jigs.asked.vessel_job import VesselJob
from jigs.stages.halves.plan import LEAST_SEAT, HalvesPlan, Lot
from jigs.stages.held.strength import ALLOWED
from jigs.words.findings import Finding

MOST_TRIED = 4  # rings
ELSEWHERE = "end the lower half with another ring"


def halves_findings(job: VesselJob, halves: HalvesPlan | None) -> Iterator[Finding]:
    """Everything about it; nothing for a vessel that is built in one."""
    if halves is None:
        return
    show, ring = show_in(job), halves.centring
    if job.staves is not None or any(
        layer.kind == "open" for lot in halves.lots for layer in lot.stack.layers
    ):
        message = "staves and open rings cannot be built in halves: they leave gaps where the halves meet"
        yield job.finding("halves-open", message, key="halves.ring", remedy="leave [halves] out")
    if ring.ledge < LEAST_SEAT - 1e-9:
        wall = show(max(0.0, ring.ledge))
        message = (
            f"beside the glue, the wall at ring {halves.ring} leaves {wall} for the ring that "
            f"centres the halves; {show(LEAST_SEAT)} is the least"
        )
        yield job.finding(
            "halves-wall", message, key="halves.ring", remedy=f"{ELSEWHERE}, or use a thicker wall"
        )
    yield from (found for lot in halves.lots for found in _lot(job, lot))


def _lot(job: VesselJob, lot: Lot) -> Iterator[Finding]:
    show = show_in(job)
    if lot.stress > ALLOWED:
        message = (
            f"the {lot.name} half, hollowed, takes only {ALLOWED / lot.stress:.0%} of the push of a tool that catches "
            f"at its open end; it would break {show(abs(lot.section.height - lot.weakest))} from there"
        )
        yield job.finding("halves-slim", message, key="halves.ring", remedy=ELSEWHERE)
    if lot.gauges.unguided is not None:
        low, high = (show(lot.section.height - z) for z in reversed(lot.gauges.unguided))
        message = f"in the {lot.name} half no gauge reaches the inside from {low} to {high} under the joint"
        yield job.finding("halves-unguided", message, key="halves.ring", remedy=ELSEWHERE, severity="note")


def ring_that_would_do(
    job: VesselJob, halves_at: Callable[[VesselJob], HalvesPlan | None], openings: Mapping[int, float]
) -> int | None:
    """Of some rings, by the opening over each, the widest with which nothing is found; None where none does."""
    for ring in sorted(openings, key=lambda ring: -openings[ring])[:MOST_TRIED]:
        with_halves = replace(job, halves=HalvesWish(ring))
        if not list(halves_findings(with_halves, halves_at(with_halves))):
            return ring
    return None
