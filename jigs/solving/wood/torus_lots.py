"""The pieces of a torus, by either route: mitred segments, or staves for tubes that are sliced into rings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, cos, inf, tan

from geometry.sawing import WedgeRingCut
from geometry.segment_carrier import strip_held
from geometry.torus import Blank
from jigs.job import TorusJob
from jigs.job_wood import Route
from jigs.plan.cutting import CuttingPlan
from jigs.plan.wood.lots import Lot
from jigs.solving.cutting import kerf_of
from jigs.solving.wood.at_hand import longest_strip
from jigs.solving.wood.spares import spare_pieces

Rings = tuple[tuple[str, ...], ...]
Spares = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Tubes:
    """Tubes of staves that are sliced into rings."""

    count: int
    rings: int  # that each gives at most
    length: float


def torus_lots(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    species: Rings,
    spares: Spares,
    layup: bool,
) -> tuple[Lot, ...]:
    """What is sawn from boards by the job's own route; nothing where segments come from a layup."""
    route: Route = "segments" if job.mitred else "staves"
    return () if layup else route_lots(job, blank, ring_cut, cutting, species, spares, route)


def route_lots(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    species: Rings,
    spares: Spares,
    route: Route,
) -> tuple[Lot, ...]:
    """What is sawn from boards by one of the two routes.

    `species` are (N, n) names of woods; `spares` says for each whole ring to spare which it can stand in for.
    """
    if route == "segments":
        return tuple(_segments(job, cutting, species, spares))
    return tuple(_staves(job, blank, ring_cut, cutting, species, spares))


def _segments(job: TorusJob, cutting: CuttingPlan, species: Rings, spares: Spares) -> Iterator[Lot]:
    layout = cutting.carrier
    cut = layout.cut
    for number, name in enumerate(_woods(species), 1):
        count = sum(ring.count(name) for ring in species)
        whole = sum(species[rings[0] - 1].count(name) for rings in spares)
        yield Lot(
            number=number,
            name=f"segments of {name}",
            piece="segment",
            rings=_with(species, name),
            species=name,
            count=count,
            spares=spare_pieces(job, count) + whole,
            thickness=cut.depth,
            width=cut.length,
            longer=cut.outer_edge,
            shorter=cut.inner_edge,
            mitre=cut.tilt,
            kerf=cut.kerf,
            held=layout.held,
            way="turned over",
            stop=layout.stop,
        )


def _staves(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    species: Rings,
    spares: Spares,
) -> Iterator[Lot]:
    """Rings whose woods are alike round the ring come from the same tubes, spare rings from the first of theirs."""
    number, kerf = 0, kerf_of(job, cutting.rings_on)
    for ring in dict.fromkeys(species):
        alike = tuple(k for k, other in enumerate(species, 1) if other == ring)
        wanted = len(alike) + sum(rings[0] in alike for rings in spares)
        tubes = tubes_for(job, blank, wanted, ring_cut.ring_thickness, kerf, ring)
        for name in dict.fromkeys(ring):
            number += 1
            yield _stave_lot(job, blank, number, name, alike, tubes, ring.count(name))


def tubes_for(
    job: TorusJob, blank: Blank, wanted: int, thickness: float, kerf: float, woods: Sequence[str]
) -> Tubes:
    """The tubes whose staves take the least length of the boards' strips, as few as can be.

    A tube for m rings: m thicknesses, a cut at each end and between them, and what is held in the last cut.
    Where no strip gives any, the shortest tubes, for which the shortest boards would do.
    """
    depth, saw = blank.apothem - blank.core_apothem, job.workshop.saw.kerf
    held = strip_held(job.workshop.sled.clear_of_blade)
    counts = dict.fromkeys(ceil(wanted / rings) for rings in range(wanted, 0, -1))
    ways = [_tubes(count, ceil(wanted / count), thickness, kerf, held) for count in counts]
    least = ways[-1].length + 2 * saw + _stave_held(job, ways[-1].length)
    strip = min(longest_strip(job, name, depth, least) for name in woods)

    def taken(tubes: Tubes) -> float:
        each = int((strip - saw - _stave_held(job, tubes.length)) // (tubes.length + saw))
        return tubes.count * strip / each if each > 0 else inf

    best = min(ways, key=taken)
    return best if taken(best) < inf else ways[-1]


def _tubes(count: int, rings: int, thickness: float, kerf: float, held: float) -> Tubes:
    return Tubes(count, rings, rings * thickness + (rings + 1) * kerf + held)


def _stave_held(job: TorusJob, length: float) -> float:
    """Of a strip while a stave is cut off; a long one is itself held."""
    long = length >= job.workshop.stock.least_offcut
    return 0.0 if long else strip_held(job.workshop.sled.clear_of_blade)


def _stave_lot(
    job: TorusJob, blank: Blank, number: int, name: str, rings: tuple[int, ...], tubes: Tubes, each: int
) -> Lot:
    """One wood's staves, `each` of them in a tube; spare rings are in the tubes."""
    thickness, count = blank.apothem - blank.core_apothem, tubes.count * each
    return Lot(
        number=number,
        name=f"staves of {name}",
        piece="stave",
        rings=rings,
        species=name,
        count=count,
        spares=spare_pieces(job, count),
        thickness=thickness,
        width=blank.flat_width + 2 * job.form.joint_sanding / cos(blank.mitre),
        longer=tubes.length,
        shorter=tubes.length,
        mitre=0.0,
        kerf=job.workshop.saw.kerf,
        held=_stave_held(job, tubes.length),
        way="bevelled",
        stop=None,
        bevel=blank.mitre,
        off=thickness**2 * tan(blank.mitre) * tubes.length,
    )


def _woods(species: Sequence[Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for ring in species for name in ring))


def _with(species: Rings, name: str) -> tuple[int, ...]:
    return tuple(k for k, ring in enumerate(species, 1) if name in ring)
