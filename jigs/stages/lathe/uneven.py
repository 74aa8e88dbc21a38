"""How far woods that weigh unlike round the axis draw a blank off it, and how fast it is turned then."""

from __future__ import annotations

from cmath import rect
from collections.abc import Iterable, Iterator, Sequence
from math import tau

from geometry.bodies.torus import Blank
from geometry.lathe.turning import rough_speed_limits, rpm_of_pull
from jigs.asked.job import Job, TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import unbalanced
from jigs.stages.held.strength import SIDE
from jigs.stages.stack.plan import Layer
from jigs.words.findings import Finding, Severity

Pull = tuple[str, complex]  # a wood; its mm³ times where they lie off the axis, mm


def torus_off_axis(job: TorusJob, blank: Blank, species: Sequence[Sequence[str]]) -> float:
    """What the segments of all wedge rings weigh, times how far off the axis that lies in all. Grams times mm."""
    if job.layup or len({name for ring in species for name in ring}) == 1:
        return 0.0
    from geometry.bodies.segment_volumes import blank_shares, segment_middles

    out = (blank_shares(blank) * segment_middles(blank)).tolist()
    turn = tau / blank.wedge_rings
    return unbalanced(
        (name, rect(each, k * turn))
        for k, ring in enumerate(species)
        for name, each in zip(ring, out, strict=True)
    )


def vessel_off_axis(job: VesselJob, layers: Sequence[Layer]) -> float:
    """The same of a vessel's rings."""
    return unbalanced(
        pull
        for one in layers
        if len(set(one.species)) > 1 and not one.plied(job.layup)
        for pull in _of_ring(one)
    )


def _of_ring(layer: Layer) -> Iterable[Pull]:
    """A segment's middle is that of a wedge between its two flats."""
    ring, count = layer.ring, len(layer.species)
    out = 2 / 3 * (ring.outer**3 - ring.core**3) / (ring.outer**2 - ring.core**2)
    each = layer.wood / count * out
    return ((name, rect(each, layer.turned + k * tau / count)) for k, name in enumerate(layer.species))


def blank_speed(moment: float, across: float) -> tuple[int, int]:
    """rpm of a blank; its heavy side pulls no more than what its mountings and joints are proven for."""
    slow, fast = rough_speed_limits(across)
    most = rpm_of_pull(moment, SIDE)
    return (slow, fast) if most >= fast else (min(slow, int(most * 2 / 3)), int(most))


def uneven_findings(job: Job, key: str, speed: tuple[int, int], across: float) -> Iterator[Finding]:
    """What a heavy side comes to, told before anything is glued."""
    fast, usual = speed[1], rough_speed_limits(across)[1]
    if fast < usual:
        message = (
            "by the weight of its woods the blank has, or may have, a heavy side: it is turned at "
            f"{fast} rpm at most, one of one wood at {usual}"
        )
        remedy = "let the woods take turns round the ring, or use woods that weigh alike"
        severity: Severity = "warning" if 2 * fast < usual else "note"
        yield job.finding("heavy-side", message, key=key, remedy=remedy, severity=severity)


def alone_at_most(job: VesselJob, layers: Iterable[Layer]) -> int:
    """rpm at most of any of these rings, spun alone."""
    return min(blank_speed(vessel_off_axis(job, [one]), 2 * one.ring.radius)[1] for one in layers)
