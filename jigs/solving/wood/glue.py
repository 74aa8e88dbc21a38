"""Faces to be glued, grams, bands, and what is glued up at a time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil, cos, pi, tan
from typing import TYPE_CHECKING

from geometry.clamping import ring_perimeter, torus_perimeter
from geometry.glue_area import contact_area
from geometry.torus import Blank
from jigs.job import Job, TorusJob
from jigs.plan.layup.layup import LayupPlan
from jigs.plan.wood.glue import Band, GlueFaces, GluePlan, GlueStage
from jigs.plan.wood.lots import Lot
from jigs.solving.layup.pieces import halves
from jigs.solving.wood.glue_stages import joints_in_time, ring_stages, stage, torus_stages

if TYPE_CHECKING:  # a torus is worked out without what only a vessel has
    from geometry.ring_stack import Ring
    from geometry.staves import StaveBand
    from jigs.plan.vessel.stack import Joint, Layer, StackPlan
    from jigs.vessel_job import VesselJob

MM2_PER_M2 = 1e6


def torus_glue(
    job: TorusJob,
    blank: Blank,
    thickness: float,
    tubes: Sequence[tuple[int, float]],
    layups: Sequence[LayupPlan],
) -> GluePlan:
    """Rings of this thickness as glued; on the staves' route instead tubes, so many of each length.

    Spare rings are glued too, and take part in nothing after that.
    """
    rings, in_time = tuple(range(1, blank.wedge_rings + 1)), joints_in_time(job.workshop.glue)
    made, n = blank.wedge_rings + job.workshop.spares.rings, blank.segments
    end = (blank.apothem - blank.core_apothem) / cos(blank.mitre)
    section = n * tan(blank.mitre) * (blank.apothem**2 - blank.core_apothem**2)
    wedge = _faces(job, "wedge faces", rings, len(rings), section / cos(blank.half_wedge))
    if tubes:
        count = sum(number for number, _ in tubes)
        length = sum(number * each for number, each in tubes) / count
        joints = _faces(job, "stave edges", rings, count * n, end * length)
        stages = ring_stages("tubes", rings, n, count, in_time)
    else:
        joints = _faces(job, "mitres", rings, made * n, end * thickness)
        stages = ring_stages("rings", rings, n, made, in_time)
    overlap = job.workshop.clamping.band_overlap
    bands = tuple(
        Band(numbers, around, around + overlap)
        for numbers, around in ((rings, ring_perimeter(blank)), ((), torus_perimeter(blank)))
    )
    return _plan(
        job,
        [*_layup_faces(job, layups), joints, wedge],
        bands,
        [*_layup_stages(layups, in_time), *stages, *torus_stages(rings, in_time)],
    )


def vessel_glue(
    job: VesselJob, stack: StackPlan, lots: Sequence[Lot], layups: Sequence[LayupPlan]
) -> GluePlan:
    """Rings, staves, a base of several pieces, and what lies on what."""
    bases = [lot for lot in lots if lot.name == "base" and lot.count > 1]
    in_time = joints_in_time(job.workshop.glue)
    rings = [layer for layer in stack.layers if layer.kind == "segments"]
    return _plan(
        job,
        [
            *_layup_faces(job, layups),
            *(_mitres(job, layer) for layer in rings),
            *_stave_edges(job, stack),
            *(
                _faces(job, "edges of the base", lot.rings, lot.count - 1, lot.thickness * lot.longer)
                for lot in bases
            ),
            *(_contact(job, stack, joint) for joint in stack.joints),
        ],
        _vessel_bands(job, stack),
        [
            *_layup_stages(layups, in_time),
            *(stage("bases", lot.rings, "base", lot.count, lot.count - 1, 1, in_time) for lot in bases),
            *_vessel_stages(stack, in_time),
        ],
    )


def _plan(
    job: Job, faces: Sequence[GlueFaces], bands: Sequence[Band], stages: Sequence[GlueStage]
) -> GluePlan:
    glue = job.workshop.glue
    return GluePlan(
        tuple(faces), tuple(bands), joints_in_time(glue), tuple(stages), glue.clamp_time, glue.cure
    )


def _faces(job: Job, name: str, rings: tuple[int, ...], count: int, each: float) -> GlueFaces:
    area = count * each
    return GlueFaces(name, rings, count, area, area / MM2_PER_M2 * job.workshop.glue.spread)


def _layup_faces(job: Job, layups: Sequence[LayupPlan]) -> Iterator[GlueFaces]:
    """Plies to sheets, strips to stacks, pieces to the blocks that segments are cut from."""
    for plan in layups:
        way, piece, wish = plan.way, plan.layup, job.layup
        plies = len(piece.plies) - 1
        if wish is not None and plies and way.sheets:
            sheet = wish.sheet_width * wish.sheet_length
            yield _faces(job, "plies of sheets", plan.rings, way.sheets * plies, sheet)
        if way.strips > 1:
            count = way.stacks * (way.strips - 1)
            yield _faces(job, "strips of stacks", plan.rings, count, way.strip_length * piece.depth)
        yield from _block_faces(job, plan)


def _block_faces(job: Job, plan: LayupPlan) -> Iterator[GlueFaces]:
    """Pieces are first glued side by side, where they are mirrored so, then these one on another."""
    if job.layup is None:
        return
    beside, over = halves(job.layup)
    blocks, piece = plan.segments + plan.spare_segments, plan.layup
    if beside:
        count = blocks * plan.per_segment // 2
        yield _faces(job, "pieces side by side", plan.rings, count, piece.b * piece.depth)
    if over:
        across = (2 if beside else 1) * piece.a
        yield _faces(job, "pieces one on another", plan.rings, blocks, across * piece.depth)


def _layup_stages(layups: Sequence[LayupPlan], in_time: int) -> Iterator[GlueStage]:
    """Stacks of many strips grow in several goes."""
    for plan in layups:
        way, plies, most = plan.way, len(plan.layup.plies), max(1, in_time)
        if plies > 1 and way.sheets:
            yield stage("sheets", plan.rings, "sheets", plies, plies - 1, way.sheets, in_time)
        if way.strips > 1:
            goes, joints = ceil((way.strips - 1) / most), min(most, way.strips - 1)
            yield stage("stacks", plan.rings, "stacks", joints + 1, joints, way.stacks * goes, in_time)
        blocks = plan.segments + plan.spare_segments
        if plan.per_segment == 4:
            yield stage("blocks", plan.rings, "pairs", 2, 1, 2 * blocks, in_time)
        if plan.per_segment > 1:
            yield stage("blocks", plan.rings, "blocks", 2, 1, blocks, in_time)


def _mitres(job: VesselJob, layer: Layer) -> GlueFaces:
    """A segment's end is its depth along the joint; strips have two faces each."""
    ring, strips = layer.ring, layer.ring.spacer > 0
    end = ring.depth / cos(ring.mitre) * ring.height
    name, count = ("strips", 2 * ring.segments) if strips else ("mitres", ring.segments)
    return _faces(job, name, (layer.number,), count, end)


def _stave_edges(job: VesselJob, stack: StackPlan) -> Iterator[GlueFaces]:
    """Joints stand upright, through the axis: as wide level, all along, as the staves are thick there."""
    band = stack.staves
    if band:
        numbers = tuple(layer.number for layer in stack.layers if layer.kind == "staves")
        yield _faces(
            job, "stave edges", numbers, band.count, band.level_thickness / cos(band.mitre) * band.height
        )


def _contact(job: VesselJob, stack: StackPlan, joint: Joint) -> GlueFaces:
    """Of a ring on a ring; gaps take the share that they take of the finished joint."""
    lower, upper = (layer for layer in stack.layers if layer.number in (joint.lower, joint.upper))
    a, b = (_at(layer, joint.height, stack.staves) for layer in (lower, upper))
    finished = pi * (joint.outer**2 - joint.inner**2)
    share = joint.glue_area / finished if finished > 0 else 1.0
    area = share * contact_area(a, b, upper.turned - lower.turned)
    return _faces(job, "ring on ring", (joint.lower, joint.upper), 1, area)


def _at(layer: Layer, height: float, band: StaveBand | None) -> Ring:
    if layer.kind != "staves" or band is None:
        return layer.ring
    return replace(layer.ring, outer=band.outer_at(height), core=band.inner_at(height))


def _vessel_bands(job: VesselJob, stack: StackPlan) -> tuple[Band, ...]:
    """Round the corners of every closed ring, and of the staves at their widest."""
    overlap = job.workshop.clamping.band_overlap
    closed = [layer for layer in stack.layers if layer.kind in ("segments", "staves")]
    around = [(layer.number, 2 * pi * layer.ring.radius) for layer in closed]
    return tuple(Band((number,), length, length + overlap) for number, length in around)


def _vessel_stages(stack: StackPlan, in_time: int) -> Iterator[GlueStage]:
    """Rings of one count together; open rings segment by segment; then one ring on another."""
    groups: dict[tuple[int, bool], list[int]] = {}
    for layer in stack.layers:
        if layer.kind == "segments":
            groups.setdefault((layer.ring.segments, layer.ring.spacer > 0), []).append(layer.number)
    for (segments, strips), numbers in groups.items():
        yield from ring_stages("rings", tuple(numbers), segments, len(numbers), in_time, strips)
    for layer in stack.layers:
        if layer.kind == "staves":
            yield from ring_stages("bands", (layer.number,), layer.ring.segments, 1, in_time)
    yield from _laid(stack, in_time)


def _laid(stack: StackPlan, in_time: int) -> Iterator[GlueStage]:
    open_ = [layer for layer in stack.layers[1:] if layer.kind == "open"]
    for layer in open_:
        yield stage(
            "courses", (layer.number,), "segments on the ring below", 1, 1, layer.ring.segments, in_time
        )
    closed = tuple(layer.number for layer in stack.layers[1:] if layer.kind != "open")
    if closed:  # each is centred and pressed by itself
        yield replace(stage("stack", closed, "rings on rings", 1, 1, len(closed), in_time), at_once=1)
