"""How far woods that weigh unlike round the axis draw a blank off it, and how fast it is turned then."""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable, Iterable, Iterator, Sequence
from math import tau
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank
from geometry.grouping import gathered
from geometry.lathe.turning import rough_speed_limits, rpm_of_pull, unbalance
from geometry.records import Record
from jigs.asked.job import Job, TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import taken_heavy, unbalanced
from jigs.stages.held.strength import SIDE
from jigs.words.findings import Finding, Severity

if TYPE_CHECKING:  # a torus needs nothing of a vessel's stack
    from jigs.stages.stack.plan import Layer


class Spun(Record):
    """What a blank's woods come to as it spins."""

    off_axis: float  # grams times mm
    across: float  # the widest that spins
    speed: tuple[int, int]  # rpm; a heavy side pulls no more than the mountings and joints are proven for
    weighs: float = 0.0  # N, at most
    hangs: float = 0.0  # N across the axis, at most: that, and its heavy side at the higher speed


Pull = tuple[str, complex]  # a wood; its mm³ times where they lie off the axis, mm


def torus_spun(job: TorusJob, blank: Blank, species: Sequence[Sequence[str]], across: float) -> Spun:
    """Of a torus of these woods, ring by ring. Its mountings are balanced, and are proven for what hangs on them."""
    plies = [(ply.name, ply.thickness) for ply in job.layup.plies] if job.layup else []
    parts = plies or [(name, 1.0) for ring in species for name in ring]
    whole = sum(part for _, part in parts)
    weight = taken_heavy((name, part / whole * blank.volume) for name, part in parts)
    moment = 0.0 if len({name for name, _ in parts}) == 1 or plies else _torus_off_axis(blank, species)
    speed = _speed(moment, across, max(SIDE, weight))
    return Spun(moment, across, speed, weight, weight + unbalance(moment, 1.0, speed[1]))


def _torus_off_axis(blank: Blank, species: Sequence[Sequence[str]]) -> float:
    """What the segments of all wedge rings weigh, times how far off the axis that lies in all. Grams times mm."""
    from geometry.bodies.segment_volumes import blank_shares, segment_middles

    out = (blank_shares(blank) * segment_middles(blank)).tolist()
    turn = tau / blank.wedge_rings
    return unbalanced(
        (name, rect(each, k * turn))
        for k, ring in enumerate(species)
        for name, each in zip(ring, out, strict=True)
    )


def vessel_spun(job: VesselJob, layers: Sequence[Layer]) -> Spun:
    """Of a vessel's rings, glued to one another, or of one alone.

    Rings whose heavy sides face each other draw nothing off the axis, but rock the blank about its lowest joint: by no
    more than a push of SIDE at its top.
    """
    foot, top = layers[0].ring.bottom, layers[-1].ring.top
    uneven = _uneven(job, layers)
    moment = unbalanced(pull for _, _, pulls in uneven for pull in pulls)
    across = 2 * max(one.ring.radius for one in layers)
    return Spun(moment, across, _speed(max(moment, _rocks(uneven, foot) / (top - foot)), across, SIDE))


def tipping(job: VesselJob, layers: Sequence[Layer]) -> Callable[[float], float]:
    """N mm with which heavy sides above a height bend it, at the highest speed."""
    uneven = _uneven(job, layers)
    fast = vessel_spun(job, layers).speed[1] if uneven else 0
    return lambda about: unbalance(_rocks(uneven, about), 1.0, fast)


def tipping_by_rim(job: VesselJob, layers: Sequence[Layer], rim: float) -> float:
    """N mm with which all heavy sides bend it about its rim, by which it is held, at the highest speed."""
    uneven = [(rim - top, rim - bottom, pulls) for bottom, top, pulls in _uneven(job, layers)]
    return unbalance(_rocks(uneven, 0.0), 1.0, vessel_spun(job, layers).speed[1]) if uneven else 0.0


def _uneven(job: VesselJob, layers: Iterable[Layer]) -> list[tuple[float, float, list[Pull]]]:
    """Of rings of several woods: bottom, top, and what each wood is in all."""
    return [
        (
            one.ring.bottom,
            one.ring.top,
            [(wood, sum(pulls)) for wood, pulls in gathered(_of_ring(one)).items()],
        )
        for one in layers
        if len(set(one.species)) > 1 and not one.plied(job.layup)
    ]


def _rocks(uneven: Iterable[tuple[float, float, list[Pull]]], about: float) -> float:
    """Grams times mm² off the axis and above a height: of each ring what is over it."""
    return unbalanced(
        (wood, pull * (top - low) / (top - bottom) * ((low + top) / 2 - about))
        for bottom, top, pulls in uneven
        if (low := max(about, bottom)) < top
        for wood, pull in pulls
    )


def _of_ring(layer: Layer) -> Iterable[Pull]:
    """A segment's middle is that of a wedge between its two flats."""
    ring, count = layer.ring, len(layer.species)
    out = 2 / 3 * (ring.outer**3 - ring.core**3) / (ring.outer**2 - ring.core**2)
    each = layer.wood / count * out
    return ((name, rect(each, layer.turned + k * tau / count)) for k, name in enumerate(layer.species))


def _speed(moment: float, across: float, pull: float) -> tuple[int, int]:
    """rpm at which a heavy side pulls with `pull` N at most."""
    slow, fast = rough_speed_limits(across)
    most = rpm_of_pull(moment, pull)
    return (slow, fast) if most >= fast else (min(slow, int(most * 2 / 3)), int(most))


def uneven_findings(job: Job, key: str, spun: Spun) -> Iterator[Finding]:
    """What a heavy side comes to, told before anything is glued."""
    fast, usual = spun.speed[1], rough_speed_limits(spun.across)[1]
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
    return min(vessel_spun(job, [one]).speed[1] for one in layers)
