"""What is sanded and finished, and what the work weighs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, nan, pi, tan
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank, torus_surface, torus_volume
from geometry.lathe.abrasives import removed
from geometry.records import replace
from jigs.asked.job import Job, TorusJob
from jigs.asked.woods import SPECIES, weight
from jigs.stages.finish.plan import FinishPlan, Grit, Surface, Weight

if TYPE_CHECKING:  # a torus is worked out without what only a vessel or a layup has
    from geometry.bodies.section import Section
    from jigs.asked.vessel_job import VesselJob
    from jigs.stages.layup.plan import LayupPlan
    from jigs.stages.stack.plan import Layer, StackPlan

COATS = 3  # of an oil, each wiped off: common practice, no source
COAT_HOURS = 24.0  # common practice, no source
PLIES = "plies"  # stands for the woods of a layup until they are shared out

Volumes = dict[str, float]


def torus_finish(
    job: TorusJob, blank: Blank, species: Sequence[Sequence[str]], layups: Sequence[LayupPlan]
) -> FinishPlan:
    """Of several woods piece by piece: those at the rim are larger than those at the hole."""
    major, tube = job.form.major_radius, job.form.tube
    form, strips = job.form, [job.form.strip_woods(tuple(ring)) for ring in species]
    leaves = [form.ring_strip_wood(tuple(ring)) for ring in species] if form.ring_spacer else []
    names = {PLIES} if layups else {name for ring in (*species, *strips, leaves) for name in ring}
    if len(names) == 1:
        (name,) = names
        before, after = {name: blank.volume}, {name: torus_volume(major, tube) - blank.core_volume}
    else:
        from geometry.bodies.segment_volumes import (
            blank_shares,
            blank_strip_shares,
            torus_shares,
            torus_strip_shares,
        )

        before = _summed(species, blank_shares(blank).tolist())
        after = _summed(species, torus_shares(major, tube, blank).tolist())
        if form.spacer:
            before = _added(before, _summed(strips, blank_strip_shares(blank).tolist()))
            after = _added(after, _summed(strips, torus_strip_shares(major, tube, blank).tolist()))
        if leaves:
            core = blank.core_apothem**2 * blank.segments * tan(blank.mitre) / cos(blank.half_wedge)
            before = _parted(before, leaves, form.ring_spacer * blank.face_area)
            after = _parted(after, leaves, form.ring_spacer * (pi * (tube.wide * tube.high) - core))
    return _finish(job, (Surface("torus", torus_surface(major, tube)),), before, after)


def _summed(names: Sequence[Sequence[str]], shares: Sequence[float]) -> Volumes:
    found: Volumes = {}
    for ring in names:
        for name, share in zip(ring, shares, strict=True):
            found[name] = found.get(name, 0.0) + share
    return found


def _parted(volumes: Volumes, leaves: Sequence[str], each: float) -> Volumes:
    """Strips between rings, `each` so large, in place of so much of all other wood, core left open."""
    share = 1.0 - len(leaves) * each / sum(volumes.values())
    kept = {name: share * volume for name, volume in volumes.items()}
    return _added(kept, {name: leaves.count(name) * each for name in leaves})


def _added(a: Volumes, b: Volumes) -> Volumes:
    return {name: a.get(name, 0.0) + b.get(name, 0.0) for name in (*a, *b)}


def vessel_finish(
    job: VesselJob, section: Section, stack: StackPlan, layups: Sequence[LayupPlan]
) -> FinishPlan:
    """Ring by ring; what gaps take is no wood."""
    plied = {ring for layup in layups for ring in layup.rings}
    layers = [_of_plies(layer) if layer.number in plied else layer for layer in stack.layers]
    before: Volumes = {}
    for layer in layers:
        for name, volume in _blank_of(job, layer).items():
            before[name] = before.get(name, 0.0) + volume
    from geometry.bodies.surface_area import vessel_surface
    from jigs.stages.stack.solve.whole import weigh

    weights = weigh(job, section, layers).by_species if plied else stack.weights
    after = {name: volume for name, volume, _ in weights}
    area = vessel_surface(section)
    surfaces = (
        Surface("outside", area.outside),
        Surface("inside", area.inside),
        Surface("rim", area.rim),
        Surface("foot", area.foot),
    )
    return _finish(job, surfaces, before, after)


def _of_plies(layer: Layer) -> Layer:
    return replace(layer, species=(PLIES,) * len(layer.species))


def _blank_of(job: VesselJob, layer: Layer) -> Volumes:
    """A ring's wood as glued, by species; strips are what is left of its whole."""
    found: Volumes = {}
    between = layer.kind == "segments" and layer.ring.spacer
    strips = max(0.0, layer.wood - layer.ring.wood_volume) if between else 0.0
    for name in layer.species:
        found[name] = found.get(name, 0.0) + (layer.wood - strips) / len(layer.species)
    if strips:
        name = job.rings.spacer_species or layer.species[0]
        found[name] = found.get(name, 0.0) + strips
    return found


def _finish(job: Job, surfaces: tuple[Surface, ...], before: Volumes, after: Volumes) -> FinishPlan:
    before, after = _shared_out(job, before), _shared_out(job, after)
    weights = tuple(
        Weight(name, before[name], after.get(name, 0.0), _grams(name, before), _grams(name, after))
        for name in before
    )
    allowance = job.gauges.sanding_allowance
    grits = tuple(
        Grit(grit, mm, mm / allowance if allowance else 0.0) for grit, mm in removed(allowance).items()
    )
    return FinishPlan(allowance, surfaces, weights, grits, COATS, COAT_HOURS)


def _grams(name: str, volumes: Mapping[str, float]) -> float:
    return weight(name, volumes.get(name, 0.0)) if name in SPECIES else nan


def _shared_out(job: Job, volumes: Volumes) -> Volumes:
    """Plies in place of PLIES, each with its share of the sheet's thickness."""
    if PLIES not in volumes or job.layup is None:
        return volumes
    found = {name: volume for name, volume in volumes.items() if name != PLIES}
    sheet = sum(ply.thickness for ply in job.layup.plies)
    for ply in job.layup.plies:
        share = volumes[PLIES] * ply.thickness / sheet
        found[ply.name] = found.get(ply.name, 0.0) + share
    return found
