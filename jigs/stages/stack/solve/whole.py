"""The rings, from the foot up: sizes, cuts, joints; and what the finished vessel weighs, wood by wood."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import atan2, isnan, nan, pi, tan

from geometry.blanks.glue_width import finished_width, glued_share, turned_width
from geometry.blanks.ring_stack import Ring
from geometry.blanks.ring_turns import stands_over, width_turned, wrapped
from geometry.blanks.staves import StaveBand, fit_staves
from geometry.bodies.floating_base import FloatingBase
from geometry.bodies.section import Section
from geometry.records import Record, replace
from jigs.asked.vessel_job import VesselJob, round_ring
from jigs.asked.woods import SPECIES, density_of, weight
from jigs.stages.floating_base.groove import disc_species, floating_base
from jigs.stages.solids.slim import has_stem, slimmest, waste_across
from jigs.stages.stack.layers import FACED, layer_of, turned, with_shared_sizes
from jigs.stages.stack.plan import FloatingDisc, HeightsChoice, Joint, Layer, StackPlan, ring_at
from jigs.stages.stack.solve.heights import solve_heights
from jigs.words.findings import Finding, RefusedSoon


class Weighed(Record):
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
    rows = tuple(
        (name, volume, weight(name, volume) if name in SPECIES else nan) for name, volume in volumes.items()
    )
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


LOW_STAVES = 0.1  # mm over the height at which the hollow begins


def solve_stack(job: VesselJob, section: Section) -> StackPlan:
    """The whole stack. Raises Refused where rings cannot hold the vessel."""
    spans, choice = solve_heights(job, section)
    below = _layers(job, section, spans[0], -job.rings.turning_allowance, 1)
    staves = _staves(job, section)
    band = [_stave_layer(job, staves, len(below) + 1)] if staves else []
    above: list[Layer] = []
    if staves and len(spans) > 1:
        above = _layers(job, section, spans[1], staves.high, len(below) + 2)
    layers = tuple(turned(job, with_shared_sizes(job, [*below, *band, *above])))
    return plan_of(job, section, layers, staves, choice)


def plan_of(
    job: VesselJob, section: Section, layers: tuple[Layer, ...], staves: StaveBand | None,
    choice: HeightsChoice | None,
) -> StackPlan:  # fmt: skip
    """What these rings, from the foot up, come to."""
    joints = tuple(_joint(section, a, b, staves) for a, b in itertools.pairwise(layers))
    floats = floating_base(job, section)
    if floats:
        joints = (_round_groove(floats, joints[0], layers), *joints[1:])
    disc = FloatingDisc(floats, disc_species(job), job.floating.grain == "upright") if floats else None
    weighed: Weighed = weigh(job, section, layers, disc)
    gaps = next((max(0.0, layer.ring.bottom) for layer in layers if layer.kind == "open"), None)
    return StackPlan(
        layers=layers,
        joints=joints,
        staves=staves,
        staves_cut=staves.grown(job.rings.flattening) if staves else None,
        choice=choice,
        allowance=job.rings.turning_allowance,
        bottom=layers[0].ring.bottom,
        top=layers[-1].ring.top,
        largest_radius=max(layer.ring.radius for layer in layers),
        wood=sum(layer.wood for layer in layers),
        weight=weighed.grams,
        weights=weighed.by_species,
        centre_height=weighed.centre_height,
        tips_at=atan2(section.foot_radius, weighed.centre_height),
        capacity=section.capacity if gaps is None else section.holds_below(gaps),
        open_from=gaps,
        floating=disc,
        slimmest=slimmest(job, section, layers),
        waste_across=waste_across(
            job, section, layers[0], layers, floats.opening if floats else section.inner.start[0]
        ),
        stemmed=has_stem(section),
    )


def _layers(
    job: VesselJob, section: Section, heights: Sequence[float], bottom: float, first: int
) -> list[Layer]:
    """Rings one on another; one that would hold nothing of the finished vessel is left out."""
    found: list[Layer] = []
    for number, height in enumerate(heights, first):
        if bottom < section.height - 1e-9:
            found.append(layer_of(job, section, number, bottom, height))
        bottom += height
    return found


def _staves(job: VesselJob, section: Section) -> StaveBand | None:
    wish = job.staves
    if wish is None:
        return None
    high = (
        wish.high if wish.high < section.height else section.height + min(job.rings.turning_allowance, FACED)
    )

    def needs(low: float, high: float) -> tuple[float, float]:
        found = section.needs(low, high, job.rings.turning_allowance)
        return found if found is not None else (nan, nan)

    try:
        return fit_staves(needs, wish.low, high, wish.count)
    except ValueError as error:
        raise RefusedSoon([_no_hollow(job, section)]) from error


def _no_hollow(job: VesselJob, section: Section) -> Finding:
    """Staves stand round a hollow that turning has not filled."""
    hollow, wish = section.inner.bottom + job.rings.turning_allowance, job.staves
    if wish and wish.low < hollow + LOW_STAVES < wish.high:
        message = f"up to {job.show(hollow)} there is no hollow for the staves to stand round"
        remedy = f"begin them at {job.at_least(hollow + LOW_STAVES)} or higher, or leave them out"
    else:
        message = "the staves' heights hold no hollow all the way up, for turning to widen"
        remedy = "leave them out, or take a thinner wall or allowance"
    return job.finding("no-staves", message, key="staves.low", remedy=remedy)


def _stave_layer(job: VesselJob, band: StaveBand, number: int) -> Layer:
    """The band as one layer, as wide as its widest place and as open as its narrowest."""
    ends = (band.low, band.high)
    made = Ring(
        number,
        band.low,
        band.height,
        band.count,
        max(band.outer_at(z) for z in ends),
        min(band.inner_at(z) for z in ends),
    )
    names = job.staves.species if job.staves else ()
    return Layer(made, "staves", round_ring(names, band.count), 0.0, None, band.volume)


def _joint(section: Section, lower: Layer, upper: Layer, staves: StaveBand | None) -> Joint:
    z = upper.ring.bottom
    within = max(0.0, min(z, section.height))
    inner, outer = section.wall_at(within)
    a, b = (ring_at(layer, z, staves) for layer in (lower, upper))
    turn = wrapped(upper.turned - lower.turned)
    cornered = a.segments > 0 < b.segments
    over, past = stands_over(a.segments, turn) if cornered else (0, 0.0)
    under, back = stands_over(b.segments, -turn) if cornered else (0, 0.0)
    return Joint(
        height=z,
        lower=lower.number,
        upper=upper.number,
        outer=outer,
        inner=inner,
        finished=finished_width(section, within),
        rough=_rough(a, b, turn),
        glue_area=pi * (outer**2 - inner**2) * _glued(section, lower, upper, turn, inner + outer),
        turn=turn,
        over=over,
        past=a.outer * tan(past),
        under=under,
        under_past=-b.outer * tan(back),  # what was right is left, upside down
    )


def _rough(lower: Ring, upper: Ring, turn: float) -> float:
    """Rings of unlike numbers of segments meet somewhere in every way, so for these it is the least at any turn."""
    alike = lower.segments == upper.segments > 0
    return width_turned(lower, upper, turn) if alike else turned_width(lower, upper)


def _round_groove(floats: FloatingBase, joint: Joint, layers: Sequence[Layer]) -> Joint:
    """The lowest joint, glued outside the groove only, which is turned before."""
    lower = replace(layers[0].ring, core=floats.groove)
    return replace(
        joint,
        inner=floats.groove,
        finished=joint.outer - floats.groove,
        rough=_rough(lower, layers[1].ring, joint.turn),
        glue_area=pi * (joint.outer**2 - floats.groove**2),
    )


def _glued(section: Section, lower: Layer, upper: Layer, turn: float, sum_of_radii: float) -> float:
    """The part of a joint's face that is glued: gaps of either ring take their share."""
    if lower.kind == upper.kind == "open" and lower.ring.segments == upper.ring.segments:
        try:
            return glued_share(section, lower.ring, upper.ring, turn)
        except ValueError:  # the gaps are wider than a face
            return 0.0
    gaps = [layer.ring for layer in (lower, upper) if layer.kind == "open"]
    return max(0.0, 1.0 - sum(of.segments * of.spacer / (pi * sum_of_radii) for of in gaps))
