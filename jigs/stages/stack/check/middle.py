"""Rings that close over the middle: by a hair of allowance, across a neck, or in points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from geometry.bodies.section import Section
from jigs.asked.nearest import at_least, at_most, show_in
from jigs.asked.vessel_job import VesselJob
from jigs.stages.stack.layers import layer_of, least_plug
from jigs.stages.stack.plan import Layer, StackPlan
from jigs.words.findings import Finding, Refused

HAIR = 0.05  # mm clear of the joint
SLIVER = 0.5  # of a ring's height: a floor that reaches less far into it was hardly meant to


def middle_findings(job: VesselJob, section: Section, stack: StackPlan) -> list[Finding]:
    """Warnings and notes; none of them stops a job."""
    return [*_sliver_discs(job, section, stack), *_points(job, section, stack)]


def _sliver_discs(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Rings that close over the middle only because the allowance just reaches past a joint or across a neck."""
    show, floor, allowance = show_in(job), section.inner.bottom, stack.allowance
    for lower, layer in pairwise(stack.layers):
        if layer.upright or not _closed(layer):
            continue
        what = f"ring {layer.number} is " + (
            "a solid disc" if layer.kind == "disc" else "of segments that meet in the middle"
        )
        over, across = floor + allowance - layer.ring.bottom, show(2 * layer.ring.outer)
        if over < -HAIR:
            yield job.finding(
                "closed-neck",
                f"{what}, {across} across: the neck at height {show(layer.ring.bottom)} is no wider than the allowance",
                key="rings.turning_allowance",
                remedy="widen the neck, or bore the ring before it is glued on",
                severity="note",
            )
        elif over < SLIVER * layer.ring.height:
            higher = at_least(job, lower.ring.height + over + HAIR)
            yield job.finding(
                "closed-by-allowance",
                f"{what}, {across} across, though the floor ({show(floor)}) and its allowance ({show(allowance)}) "
                f"reach only {show(over)} into it",
                key="rings.heights",
                remedy=f"make ring {lower.number} at least {higher} high" + _thinner(job, section, over),
                severity="warning",
            )


def _thinner(job: VesselJob, section: Section, over: float) -> str:
    """The floor that keeps to the ring below, where it is thick enough."""
    left = section.floor_thickness - over - HAIR
    if job.inside or left < job.wall.least:
        return ""
    return f", or the floor at most {at_most(job, left)}"


def _closed(layer: Layer) -> bool:
    return layer.kind == "disc" or (layer.kind == "segments" and (not layer.ring.core or layer.plug > 0))


def _points(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Segments that run to the axis, and a plug that would spare that; it was tried."""
    rings = [layer for layer in stack.layers if layer.kind == "segments" and not layer.ring.core]
    if job.rings.core_plug and not any(layer.plug for layer in stack.layers):
        yield job.finding(
            "no-core",
            "no ring of segments meets in the middle, so core_plug has no effect",
            key="rings.core_plug",
            remedy='leave it out, or use base = "segmented"',
            severity="note",
        )
    if not rings:
        return
    count = max(layer.ring.segments for layer in rings)
    plug = at_least(job, least_plug(count))
    tried = replace(job, rings=replace(job.rings, core_plug=least_plug(count) + 0.5))
    numbers = ", ".join(str(layer.number) for layer in rings)
    yield job.finding(
        "points",
        f"the segments of ring{'s' if len(rings) > 1 else ''} {numbers} end in points 0 wide that have to meet in the "
        "middle",
        key="rings.core_plug",
        remedy=f"use a core_plug of at least {plug}"
        if _layers(tried, section, rings)
        else "use fewer segments there",
        severity="warning",
    )


def segmented_base(job: VesselJob, section: Section, stack: StackPlan) -> str | None:
    """How rings that are discs are made of segments instead, as it was tried; None where that does not work."""
    discs = [layer for layer in stack.layers if layer.kind == "disc" and not layer.upright]
    tried = replace(job, rings=replace(job.rings, base="segmented", core_plug=None))
    made = _layers(tried, section, discs)
    if not made or not all(layer.plug for layer in made):
        return None
    plugs = " or ".join(dict.fromkeys(show_in(job)(layer.plug) for layer in made))
    without = "" if job.rings.core_plug is None else ", core_plug left out"
    return f'use base = "segmented"{without}: its core plug is {plugs} across'


def _layers(job: VesselJob, section: Section, rings: Sequence[Layer]) -> list[Layer]:
    """These rings as another job has them; none where one of them cannot be made."""
    try:
        return [layer_of(job, section, layer.number, layer.ring.bottom, layer.ring.height) for layer in rings]
    except Refused:
        return []
