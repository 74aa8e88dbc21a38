"""The place of a vessel that a push at its rim breaks first, and whether it has a stem."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from math import hypot, pi

import numpy as np

from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray
from geometry.statics.hoop import bending, least_diameter
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import taken_heavy
from jigs.stages.held.strength import SIDE
from jigs.stages.lathe.uneven import tipping
from jigs.stages.stack.plan import Layer, Slim

PLACES = 60  # that are looked at in each piece
AROUND = 3.0  # mm of wood left round an opening: in the joint to the waste block, and in a neck for the saw
STEM = 0.7  # of the largest diameter over it, up to which a narrow place is one


def slimmest(job: VesselJob, section: Section, layers: Sequence[Layer]) -> Slim | None:
    """The place that is loaded most for what it stands; None where there is none."""
    bends = bent_at(job, section, layers)
    stands = {one.number: (one.stands(job), one.stands_along(job)) for one in layers}
    found = [
        *(place for one in layers if one.kind == "disc" for place in _places(section, one, bends, stands)),
        *_walls(layers, bends, _slices(section), stands),
    ]
    return max(found, key=lambda place: place.stress / place.allowed, default=None)


def bent_as_glued(job: VesselJob, rim: float, layers: Sequence[Layer]) -> Callable[[float], float]:
    """N mm about a height, the axis level: by a push at the rim, by rings as glued above it and their heavy sides."""
    tips = tipping(job, layers)
    return lambda z: SIDE * (rim - z) + tips(z) + _hangs(layers, z)


def _hangs(layers: Sequence[Layer], about: float) -> float:
    return sum(
        layer.weighs * (layer.ring.top - low) / layer.ring.height * ((low + layer.ring.top) / 2 - about)
        for layer in layers
        if (low := max(about, layer.ring.bottom)) < layer.ring.top
    )  # fmt: skip


Stands = Mapping[int, tuple[float, float]]  # of a ring's number: across its grain, and along it
Slices = tuple[FloatArray, FloatArray, FloatArray]


@lru_cache(maxsize=8)
def _slices(section: Section) -> Slices:
    """Middles of thin slices of the turned vessel, and their radii, inner and outer."""
    step = section.height / (2 * PLACES)
    heights = np.linspace(step / 2, section.height - step / 2, 2 * PLACES)
    inner, outer = np.transpose([section.wall_at(z) for z in heights.tolist()])
    return heights, inner, outer


def bent_at(job: VesselJob, section: Section, layers: Sequence[Layer]) -> Callable[[float], float]:
    """As `bent_as_glued` with the turned weight instead."""
    tips, (heights, inner, outer) = tipping(job, layers), _slices(section)
    heavy = np.zeros(len(heights))
    for layer in layers:
        within = (heights >= layer.ring.bottom) & (heights < layer.ring.top)
        heavy[within] = taken_heavy((name, 1 / len(layer.species)) for name in layer.species)
    weights = pi * section.height / len(heights) * np.maximum(0.0, outer**2 - inner**2) * heavy
    return lambda z: SIDE * (section.height - z) + tips(z) + float(weights @ np.maximum(0.0, heights - z))


def _walls(
    layers: Sequence[Layer], bends: Callable[[float], float], slices: Slices, stands: Stands
) -> Iterator[Slim]:
    """Of rings, whose grain runs round the axis, and of staves."""
    for z, inner, outer in np.transpose(slices).tolist():
        layer = next((one for one in layers if z < one.ring.top), layers[-1])
        if layer.kind == "disc" or inner >= outer:
            continue
        # Open rings meet where neither has a gap.
        gaps = 2 * layer.ring.segments * layer.ring.spacer if layer.kind == "open" else 0.0
        moment = bends(z) / max(0.1, 1 - gaps / (pi * (inner + outer)))
        stress, allowed = bending(1.0, moment, outer, inner), stands[layer.number][layer.kind == "staves"]
        yield Slim(
            layer.number, z, 2 * outer, stress, allowed, _least_across(moment, outer, inner, allowed),
            wall=outer - inner if inner else None,
        )  # fmt: skip


def _least_across(moment: float, outer: float, inner: float, allowed: float) -> float:
    """Of a wall as thick that stands it."""
    if not inner:
        return least_diameter(1.0, moment, allowed)
    wide = outer
    while bending(1.0, moment, wide, wide - outer + inner) > allowed:
        wide += 0.25
    return 2 * wide


def _places(
    section: Section, layer: Layer, bends: Callable[[float], float], stands: Stands
) -> Iterator[Slim]:
    low, high = max(0.0, layer.ring.bottom), min(section.height, layer.ring.top)
    if low >= high:
        return
    for z in np.linspace(low, high, PLACES).tolist():
        inner, outer = section.wall_at(z)
        moment = bends(z)
        if inner >= outer or moment <= 0.0:
            continue
        # A joint at either end of an upright piece is end grain, which holds no better than wood across the grain.
        joint = (
            layer.number - 1 if z == low > 0.0 else layer.number + 1 if z == high < section.height else None
        )
        own, along = stands[layer.number]
        beside = stands.get(joint, (own, along))[0] if joint else own
        allowed = own if not layer.upright else along if joint is None else min(own, beside)
        yield Slim(
            layer.number,
            z,
            2 * outer,
            bending(1.0, moment, outer, inner),
            allowed,
            _least_across(moment, outer, inner, allowed),
            joint if layer.upright else None,
        )


def waste_across(
    job: VesselJob, section: Section, lowest: Layer, layers: Sequence[Layer], opening: float = 0.0
) -> tuple[float, float]:
    """The least diameter of the waste block, whose joint stands a push anywhere outside, and the lowest ring's own.

    Where the ring is smaller than that, it is as wide as the ring: `slimmest` tells of what is too slim. Round an
    `opening` (its radius) in the ring the joint is a ring too, and never slimmer than the neck that is sawn there.
    """
    most, moment = 2 * lowest.ring.outer, at_joint(job, section, layers)
    stands = lowest.stands(job)
    least = least_diameter(1.0, moment, stands)
    if opening:
        widths = np.arange(max(least, 2 * (opening + AROUND)), most, 0.5).tolist()
        least = next((w for w in widths if bending(1.0, moment, w / 2, opening) <= stands), most)
    return min(most, least), most


def at_joint(job: VesselJob, section: Section, layers: Sequence[Layer]) -> float:
    """N mm about the joint to the waste block, the tailstock away: by a push, by the weight of rings as glued, and by
    their heavy sides.

    The push comes from the side or along the axis, whichever has the longer arm: beside the rim of a plate it is its
    radius.
    """
    foot = layers[0].ring.bottom
    heights = np.linspace(0.0, section.height, PLACES).tolist()
    arm = max(hypot(z - foot, section.outer.radius_at(z)) for z in heights)
    return SIDE * arm + _hangs(layers, foot) + tipping(job, layers)(foot)


def too_slim_across(job: VesselJob, section: Section, layers: Sequence[Layer]) -> tuple[float, float] | None:
    """The heights between which wood across the grain, or a joint, does not stand that, under the floor.

    None where there are none, or where wood along the grain does not stand it either.
    """
    heights = np.linspace(0.0, section.inner.bottom, 10 * PLACES)
    walls = [section.wall_at(z) for z in heights.tolist()]
    bends = bent_at(job, section, layers)
    stress = np.array(
        [bending(1.0, bends(z), b, a) for z, (a, b) in zip(heights.tolist(), walls, strict=True)]
    )
    under = [one for one in layers if one.ring.bottom < section.inner.bottom]
    weak = heights[stress > min(one.stands(job) for one in under)]
    if not len(weak) or stress.max() > min(one.stands_along(job) for one in under):
        return None
    step = float(heights[1])
    return float(weak[0]) - step, float(weak[-1]) + step


def has_stem(section: Section) -> bool:
    """Whether the outside, under the floor, has a narrow place with a wider foot and a wider cup.

    As long as it is narrow, at least: so that what hollows the cup would work on it as on a spring.
    """
    floor = section.inner.bottom
    narrow = section.outer.radii(0.0, floor)[0]
    cup = section.outer.radii(floor, section.height)[1]
    return narrow < STEM * cup and floor > 2 * narrow
