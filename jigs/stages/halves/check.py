"""Whether a vessel can be built in parts, joined at its rings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from jigs.asked.defaults import LEAST_NECK
from jigs.asked.vessel_job import BETWEEN, VesselJob
from jigs.stages.halves.plan import LEAST_SEAT, HalvesPlan, Judged, TierJoint
from jigs.stages.lathe.uneven import tipping
from jigs.stages.stack.plan import StackPlan
from jigs.words.findings import Finding

MOST_TRIED = 4  # of each sort of rings
ELSEWHERE = "join it at another ring"
BY_HAND = "measure its width there with inside callipers, as the steps list it"


def halves_findings(
    job: VesselJob, stack: StackPlan, halves: HalvesPlan | None, offered: tuple[int, ...] | None = None
) -> Iterator[Finding]:
    """Everything about it; nothing for a vessel that is built in one. With the rings `offered` nothing is found."""
    if halves:
        heavy = any(tipping(job, tier.stack.layers)(tier.stack.bottom) > 1.0 for tier in halves.tiers)
        sides = ", of the weight and of heavy sides" if heavy else " and of the weight"
        parts = [tier.judged for tier in halves.tiers]
        yield from _findings(job, stack, halves.joints, parts, offered, sides)


def _findings(
    job: VesselJob,
    stack: StackPlan,
    joints: Sequence[TierJoint],
    parts: Iterable[Judged],
    offered: Sequence[int] | None = None,
    sides: str = "",
) -> Iterator[Finding]:
    if any(layer.kind == "open" for layer in stack.layers):
        message = "open rings cannot be built in parts: their gaps are no face for a joint, and no part hangs by them"
        yield job.finding("halves-open", message, key="halves.ring", remedy="leave [halves] out")
    ends = [layer.number for layer in stack.layers if layer.kind == "staves"]
    for joint in joints:
        if {joint.ring, joint.ring + 1} & set(ends):
            message = (
                f"over ring {joint.ring} the staves end: beside the centring ring, too little of their end grain is "
                "glued"
            )
            yield job.finding("halves-staves", message, key="halves.ring", remedy=ELSEWHERE)
        yield from _joint(job, joint, joint is joints[0], sides)
    for part in parts:
        yield from _part(job, part, offered, sides)


def _takes(share: float) -> str:
    """Rounded down, for it is too little."""
    return f"{int(100 / share)} %"


def _joint(job: VesselJob, joint: TierJoint, first: bool, sides: str) -> Iterator[Finding]:
    """Its ring's seat; the push of a tool at its open face, and of one at the rim once it is closed."""
    show, ring = job.show, joint.centring
    if ring.ledge < LEAST_SEAT - 1e-9:
        wall = show(max(0.0, ring.ledge))
        message = (
            f"beside the glue, the wall at ring {joint.ring} leaves {wall} for the ring that "
            f"centres the joint; {show(LEAST_SEAT)} is the least"
        )
        yield job.finding(
            "halves-wall", message, key="halves.ring", remedy=f"{ELSEWHERE}, or use a thicker wall"
        )
    if not first and joint.opened.share > 1.0:
        message = (
            f"what stands under the joint over ring {joint.ring}, hollowed, takes only "
            f"{_takes(joint.opened.share)} of the push of a tool that catches as the joint is faced{sides}; it "
            f"would break {show(joint.opened.under)} from there"
        )
        yield job.finding("halves-slim", message, key="halves.ring", remedy=ELSEWHERE)
    if joint.closed > 1.0:
        message = (
            f"the glue round the centring ring over ring {joint.ring} takes only {_takes(joint.closed)} of the "
            f"push of a tool that catches at the rim{sides}"
        )
        yield job.finding("halves-slim", message, key="halves.ring", remedy=ELSEWHERE)


def _part(job: VesselJob, part: Judged, offered: Sequence[int] | None, sides: str) -> Iterator[Finding]:
    show = job.show
    if part.load.share > 1.0:
        message = (
            f"the {part.name} part, hollowed, takes only {_takes(part.load.share)} of the push of a tool that "
            f"catches at its open end{sides}; it would break {show(part.load.under)} from there"
        )
        yield job.finding("halves-slim", message, key="halves.ring", remedy=ELSEWHERE)
    if part.neck is not None and 2 * part.neck[0] < LEAST_NECK[job.unit] - 1e-6:
        radius, height = part.neck
        needs, across = show(LEAST_NECK[job.unit]), show(2 * radius)
        message = (
            f"{show(part.height - height)} under its joint the {part.name} part is {across} across inside, and wider "
            f"beyond; a tool that hollows there needs {needs}"
        )
        yield job.finding(
            "halves-neck", message, key="wall", remedy="use a thinner wall, or a wider profile there"
        )
        return
    if part.unguided is not None:
        low, high = (show(part.height - z) for z in reversed(part.unguided))
        message = f"in the {part.name} part no gauge reaches the inside from {low} to {high} under the joint"
        remedy = (
            f"join it where gauges reach everywhere: {_ring_of(offered)} in [halves]" if offered else BY_HAND
        )
        yield job.note("halves-unguided", message, key="halves.ring", remedy=remedy)


def _ring_of(rings: Sequence[int]) -> str:
    """As the job file has it."""
    return f"ring = {rings[0] if len(rings) == 1 else list(rings)}"


def rings_that_would_do(
    job: VesselJob,
    stack: StackPlan,
    joined_at: Callable[[tuple[int, ...]], tuple[Sequence[TierJoint], Iterable[Judged]]],
    openings: Mapping[int, float],
) -> tuple[int, ...] | None:
    """Rings to join it at with which nothing is found, by the opening over each; None where none do.

    The widest alone, else every place that is wider than those beside it. No part is looked at after one that fails.
    """
    widest = sorted(openings, key=lambda ring: -openings[ring])[:MOST_TRIED]
    for rings in (*((ring,) for ring in widest), tuple(_wide(openings))):
        fits = 0 < len(rings) <= len(BETWEEN) + 1
        if fits and next(_findings(job, stack, *joined_at(rings)), None) is None:
            return rings
    return None


def _wide(openings: Mapping[int, float]) -> Iterable[int]:
    """The rings whose openings are wider than the next one's and no narrower than the last one's."""
    for ring, opening in openings.items():
        if ring + 1 in openings and openings.get(ring - 1, 0.0) <= opening > openings[ring + 1]:
            yield ring
