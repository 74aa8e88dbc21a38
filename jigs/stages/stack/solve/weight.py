"""What the finished vessel weighs, wood by wood, and where its weight lies."""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan, nan, pi

from geometry.bodies.section import Section
from geometry.records import dataclass
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import SPECIES, density_of, weight
from jigs.stages.stack.plan import FloatingDisc, Layer


@dataclass(frozen=True)
class Weighed:
    """Grams in all, of the species whose density is known; by species the finished mm3 and grams."""

    grams: float
    by_species: tuple[tuple[str, float, float], ...]
    centre_height: float


def weigh(
    job: VesselJob, section: Section, layers: Sequence[Layer], disc: FloatingDisc | None = None
) -> Weighed:
    """Each ring's finished wood, shared among its segments, strips by the room they take; a floating disc its own."""
    finished = [
        section.volume_between(layer.ring.bottom, layer.ring.top) - (_of_disc(layer, disc) if disc else 0.0)
        for layer in layers
    ]
    volumes: dict[str, float] = {}
    masses: list[float] = []
    for layer, volume in zip(layers, finished, strict=True):
        shares = _shares(job, section, layer)
        for name, share in shares.items():
            volumes[name] = volumes.get(name, 0.0) + share * volume
        masses.append(sum(share * volume * density_of(name) for name, share in shares.items()))
    if disc:
        volumes[disc.species] = volumes.get(disc.species, 0.0) + disc.base.volume
    rows = tuple((name, volume, _grams(name, volume)) for name, volume in volumes.items())
    return Weighed(
        sum(grams for _, _, grams in rows if not isnan(grams)),
        rows,
        _centre(section, layers, finished, masses),
    )


def _of_disc(layer: Layer, disc: FloatingDisc) -> float:
    """What of a ring's heights in the finished section is the disc's and the room's round it."""
    base, ring = disc.base, layer.ring
    groove = max(0.0, min(ring.top, base.joint) - max(ring.bottom, base.ledge)) * base.groove**2
    above = max(0.0, min(ring.top, base.floor) - max(ring.bottom, base.joint)) * base.opening**2
    return pi * (groove + above)


def _grams(species: str, volume: float) -> float:
    return weight(species, volume) if species in SPECIES else nan


def _shares(job: VesselJob, section: Section, layer: Layer) -> dict[str, float]:
    """Which part of a ring's finished wood is of which species; what gaps take is nobody's."""
    between = _between(section, layer)
    shares: dict[str, float] = {}
    for name, part in _parts(job, layer):
        shares[name] = shares.get(name, 0.0) + (1.0 - between) * part
    if between and layer.kind == "segments":
        strip = job.rings.spacer_species or layer.species[0]
        shares[strip] = shares.get(strip, 0.0) + between
    return shares


def _parts(job: VesselJob, layer: Layer) -> list[tuple[str, float]]:
    """Of the segments' wood: each ply's of a layup, else that of each segment."""
    if job.layup is None or not layer.plied(job.layup):
        return [(name, 1 / len(layer.species)) for name in layer.species]
    sheet = sum(ply.thickness for ply in job.layup.plies)
    return [(ply.name, ply.thickness / sheet) for ply in job.layup.plies]


def _between(section: Section, layer: Layer) -> float:
    """The part of the ring that strips or gaps take: n parallel slabs of a width, across the wall."""
    of = layer.ring
    if not of.spacer:
        return 0.0
    middle = min(max((of.bottom + of.top) / 2, 0.0), section.height)
    return min(1.0, of.segments * of.spacer / (pi * sum(section.wall_at(middle))))


def _centre(
    section: Section, layers: Sequence[Layer], volumes: Sequence[float], masses: Sequence[float]
) -> float:
    """Of gravity: each ring at its middle, all shifted so that wood of one density is exact."""
    middles = [(max(0.0, a.ring.bottom) + min(section.height, a.ring.top)) / 2 for a in layers]
    even = sum(v * z for v, z in zip(volumes, middles, strict=True)) / sum(volumes)
    return (
        section.centre_height - even + sum(m * z for m, z in zip(masses, middles, strict=True)) / sum(masses)
    )
