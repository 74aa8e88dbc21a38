"""The stack round rings that are glued already: these stand as measured, those above are planned anew."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos

from geometry.bodies.section import Section
from geometry.measuring.vessel import best_raise, wood_left
from geometry.records import Record, replace
from jigs.asked.vessel_job import VesselJob, by_ring
from jigs.measured.glued import Glued, glued_rings
from jigs.stages.stack.layers import FACED, layer_of, resized, turned
from jigs.stages.stack.plan import Layer, StackPlan
from jigs.stages.stack.solve.heights import solve_heights
from jigs.stages.stack.solve.whole import plan_of
from jigs.words.findings import Finding, RefusedSoon

MOST_RAISED = 5.0  # mm that a vessel is moved up in its stack
MOST_THINNED = 1 / 3  # of a ring's height, that may be taken off it so that the joints above lie as planned
FAR_OFF = 2  # rings; more is a slip of the pen
STILL_GOOD = 1 / 2  # of the allowance, with which a ring that may be cut already stays as it was planned


class _Standing(Record):
    """The rings that stand, from the foot up, in the frame of the stack's foot as planned."""

    layers: tuple[Layer, ...]
    tops: tuple[float, ...]

    @property
    def top(self) -> float:
        return self.tops[-1]


def as_glued(job: VesselJob, section: Section, planned: StackPlan) -> StackPlan:
    """The stack as it stands and goes on; the planned one where nothing was read that a rule can tell from it.

    The vessel is moved up or down in it where only that leaves wood. Raises Refused where nothing does.
    Rings with a floating base or staves among them stay as planned.
    """
    glued = glued_rings(job.readings)
    _refuse_slips(job, planned, glued)
    if glued.stated:
        _refuse_stated(job, planned, glued)
    elif planned.staves or planned.floating or not _moved(planned, glued):
        return planned
    standing = _standing(job, planned, glued)
    whole = not glued.stated and glued.count >= len(planned.layers)
    raised = _raise(job, section, standing, whole)
    fixed = _lowered(standing, raised)
    above = _above(job, section, planned, fixed)
    stack = plan_of(job, section, tuple(turned(job, (*fixed, *above))), None, planned.choice)
    return replace(stack, glued=len(fixed), stated=min(glued.stated, len(fixed)), raised=raised)


def _refuse_slips(job: VesselJob, planned: StackPlan, glued: Glued) -> None:
    """Raises Refused for a top that is read two rings too high or too low: a slip of the pen."""
    found = [
        job.finding(
            "glued-top-far",
            f"the readings have the top of ring {layer.number} at {job.show(read.value)}, and it is "
            f"planned at {job.show(top)}: that is over two rings off",
            key="rings.heights",
            remedy="measure it again, or take it out of the readings",
        )
        for layer in ([] if glued.stated else planned.layers)
        if (read := glued.tops.get(layer.number)) is not None
        and abs(read.value - (top := layer.ring.top - planned.bottom))
        > max(FAR_OFF * layer.ring.height, MOST_RAISED)
    ]
    if found:
        raise RefusedSoon(found)


def _refuse_stated(job: VesselJob, planned: StackPlan, glued: Glued) -> None:
    """Raises Refused for glued rings that nothing can be planned round."""
    if planned.staves or planned.floating or job.halves.ring:
        what = "staves" if planned.staves else "a floating base" if planned.floating else "halves"
        message = (
            f"the readings have glued rings, and the job has {what}: the rest cannot be planned round them"
        )
        remedy = "leave [glued] out of the readings and go on as planned"
        raise RefusedSoon([job.finding("glued-rings", message, key="rings.heights", remedy=remedy)])
    if glued.stated > len(planned.layers):
        message = f"the readings have {glued.stated} rings glued, and the job has only {len(planned.layers)}"
        raise RefusedSoon(
            [job.finding("glued-rings", message, key="rings.heights", remedy="count them again")]
        )


def _moved(planned: StackPlan, glued: Glued) -> bool:
    tops = {layer.number: layer.ring.top - planned.bottom for layer in planned.layers}
    return any(
        number in tops and abs(read.value - tops[number]) > read.accuracy
        for number, read in glued.tops.items()
    )


def _standing(job: VesselJob, planned: StackPlan, glued: Glued) -> _Standing:
    """Tops that were not read are off by as much as the last one under them that was, or as their rings are."""
    layers = tuple(_as_measured(job, layer, glued) for layer in planned.layers[: glued.count])
    tops, shift = [], 0.0
    for layer in layers:
        shift += glued.heights.get(layer.number, layer.ring.height) - layer.ring.height
        read = glued.tops.get(layer.number)
        shift = shift if read is None else read.value - (layer.ring.top - planned.bottom)
        tops.append(layer.ring.top + shift)
    return _Standing(layers, tuple(tops))


def _as_measured(job: VesselJob, layer: Layer, glued: Glued) -> Layer:
    """A ring with its own outside and opening, where they were measured."""
    across, opening = glued.across.get(layer.number), glued.openings.get(layer.number)
    if across is None and opening is None:
        return layer
    outer, core = layer.ring.outer, layer.ring.core
    if across is not None:
        outer = _apothem(across, layer)
    if opening is not None and layer.cut is not None and not layer.plug:
        core = _apothem(opening, layer)
    return resized(job, layer, outer, core)


def _apothem(across: float, layer: Layer) -> float:
    """Of a polygon measured over flats, or from a flat to the corner over it; a disc's radius."""
    return across / (1 + 1 / cos(layer.ring.mitre)) if layer.ring.segments % 2 else across / 2


def _raise(job: VesselJob, section: Section, standing: _Standing, whole: bool) -> float:
    """By how much the vessel lies higher in its stack than planned: 0 where that holds it. Raises Refused.

    Under the foot and, if the stack is `whole`, over the rim it needs wood to face.
    """
    least, allowance = job.gauges.sanding_allowance, job.rings.turning_allowance
    most_down = allowance - least
    most_up = MOST_RAISED
    if whole:
        most_up = min(most_up, standing.top - section.height - min(allowance, FACED))
    rings, tops = [layer.filled for layer in standing.layers], standing.tops
    by, spare = best_raise(section, rings, tops, (-most_down, most_up), enough=least) if most_up >= -most_down else (
        0.0, -1.0)  # fmt: skip
    if spare < 0.0:
        raise RefusedSoon([_short(job, section, standing, whole)])
    return by


def _short(job: VesselJob, section: Section, standing: _Standing, whole: bool) -> Finding:
    """Which ring lacks wood, where the vessel lies as planned."""
    bottoms = (standing.layers[0].ring.bottom, *standing.tops[:-1])
    rows = [
        (wood_left(section, layer.filled, low, high, job.gauges.sanding_allowance), layer.number, low, high)
        for layer, low, high in zip(standing.layers, bottoms, standing.tops, strict=True)
    ]
    spare, number, low, high = min(rows)
    if spare >= 0 and whole:
        rim, top = (job.show(z) for z in (section.height, standing.top))
        message = f"the glued stack ends at {top}, and the rim, at {rim}, is still to be faced"
        remedy = "glue a ring on top, or make the profile lower"
        return job.finding("glued-short", message, key="rings.heights", remedy=remedy)
    message = (
        f"ring {number}, glued from {job.show(low)} to {job.show(high)}, lacks "
        f"{job.show(-spare)} of wood; higher or lower in the stack the vessel lacks some too"
    )
    remedy = "take the rings off down to the one that errs, or change the profile or the wall between these heights"
    return job.finding("glued-short", message, key="rings.heights", remedy=remedy)


def _lowered(standing: _Standing, raised: float) -> tuple[Layer, ...]:
    """The rings that stand, in the vessel's frame."""
    bottoms = (standing.layers[0].ring.bottom, *standing.tops[:-1])
    return tuple(
        replace(layer, ring=replace(layer.ring, bottom=low - raised, height=high - low))
        for layer, low, high in zip(standing.layers, bottoms, standing.tops, strict=True)
    )


def _above(job: VesselJob, section: Section, planned: StackPlan, fixed: Sequence[Layer]) -> list[Layer]:
    """The rings that are still to be glued on."""
    bottom, count = fixed[-1].ring.top, len(fixed)
    if bottom >= section.height - 1e-9:
        return []
    spans, _ = solve_heights(_thinned(job, planned, fixed), section, bottom, count)
    found: list[Layer] = []
    for number, height in enumerate(spans[0], count + 1):
        if bottom < section.height - 1e-9:
            layer = layer_of(job, section, number, bottom, height)
            found.append(_as_cut(job, section, planned, layer))
        bottom += height
    return found


def _thinned(job: VesselJob, planned: StackPlan, fixed: Sequence[Layer]) -> VesselJob:
    """The job, the next ring lower by what the stack is too high, so that the joints above it lie as planned."""
    heights, count = job.rings.heights, len(fixed)
    if not isinstance(heights, tuple) or count >= len(planned.layers):
        return job
    over = fixed[-1].ring.top - planned.layers[count - 1].ring.top
    own = by_ring(heights, count + 1)
    if not 0 < over <= MOST_THINNED * own:
        return job
    rest = [by_ring(heights, number) for number in range(1, max(len(heights), count + 2) + 1)]
    rest[count] = own - over
    return replace(job, rings=replace(job.rings, heights=tuple(rest)))


def _as_cut(job: VesselJob, section: Section, planned: StackPlan, layer: Layer) -> Layer:
    """As it was planned before, where that holds the vessel here too: it may be cut already."""
    before = next((one for one in planned.layers if one.number == layer.number), None)
    if before is None or before.kind != layer.kind or before.ring.segments != layer.ring.segments:
        return layer
    kept = resized(job, layer, before.ring.outer, before.ring.core)
    good = STILL_GOOD * job.rings.turning_allowance
    spare = wood_left(section, kept.filled, layer.ring.bottom, layer.ring.top, good)
    return kept if spare >= 0.0 else layer
