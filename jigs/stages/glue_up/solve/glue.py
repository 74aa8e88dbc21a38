"""Faces to be glued, grams, bands, and what is glued up at a time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, cos, pi
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank
from geometry.grouping import gathered
from geometry.records import replace
from jigs.asked.job import Job, TorusJob
from jigs.measured.glued import rings_left
from jigs.stages.boards.plan import Lot
from jigs.stages.glue_up.layout import ring_perimeter, torus_perimeter
from jigs.stages.glue_up.plan import POSTS, Assembly, Band, GlueFaces, GluePlan, GlueStage
from jigs.stages.glue_up.solve.stages import MM2_PER_M2, joints_in_time, ring_stages, stage, torus_stages

if TYPE_CHECKING:  # a torus is worked out without what only a vessel or a layup has
    from jigs.asked.vessel_job import VesselJob
    from jigs.stages.layup.plan import LayupPlan
    from jigs.stages.stack.plan import Joint, Layer, StackPlan

DRIED: tuple[Assembly, ...] = ("sheets", "stacks", "rails")  # before they are sawn: wet glue grips the blade
SHEETS, STACKS, TAILS, BESIDE, OVER, RAILS = (
    "plies of sheets",
    "strips of stacks",
    "scrap behind stacks",
    "pieces side by side",
    "pieces one on another",
    "blocks on rails, for the saw",
)
WEDGE, BETWEEN_RINGS = "wedge faces", "strips between rings"
MITRES, STRIPS, EDGES, BASE, PLUGS, RINGS = (
    "mitres",
    "strips",
    "stave edges",
    "edges of the base",
    "core plugs",
    "ring on ring",
)


def torus_glue(
    job: TorusJob, blank: Blank, thickness: float, spare_rings: int, layups: Sequence[LayupPlan]
) -> GluePlan:
    """Rings of this thickness as glued.

    Spare rings are glued too, and take part in nothing after that.
    """
    rings = tuple(range(1, blank.wedge_rings + 1))
    left, n = rings_left(job.readings, blank.wedge_rings), blank.segments
    made, to_glue = len(left) + spare_rings, 1 if 2 * len(left) == len(rings) else 2
    strips = blank.spacer > 0
    parted = blank.ring_spacer > 0
    inside = len(rings) - len(left) - 1 if to_glue == 1 else 0  # joints of the half that is there
    name, faces = (BETWEEN_RINGS, 2 * len(rings)) if parted else (WEDGE, len(rings) - inside)
    wedge = _faces(job, name, rings, faces, blank.face_area, sanded=job.form.face_sanding > 0)
    name, faces = (STRIPS, 2 * made * n) if strips else (MITRES, made * n)
    end = blank.joint_depth * thickness
    joints = _faces(job, name, left, faces, end, sanded=job.form.joint_sanding > 0)
    stages = ring_stages("rings", left, n, made, _in_time(job, [joints], left), strips)
    overlap = job.workshop.clamping.band_overlap
    bands = tuple(
        Band(numbers, around, around + overlap)
        for numbers, around in ((rings, ring_perimeter(blank)), ((), torus_perimeter(blank)))
    )
    plies = list(_layup_faces(job, layups))
    closing = torus_stages(rings, _in_time(job, [wedge], rings), parted, to_glue)
    return _plan(job, [*plies, joints, wedge], bands, [*_layup_stages(job, layups, plies), *stages, *closing])


def vessel_glue(
    job: VesselJob, stack: StackPlan, lots: Sequence[Lot], layups: Sequence[LayupPlan]
) -> GluePlan:
    """Rings, staves, a base of several pieces, and what lies on what."""
    bases = [lot for lot in lots if lot.piece in ("base", *POSTS) and lot.count > 1]
    plies = list(_layup_faces(job, layups))
    faces = [
        *(_mitres(job, layer) for layer in stack.to_make if layer.kind == "segments"),
        *_stave_edges(job, stack),
        *(_faces(job, BASE, lot.rings, lot.count - 1, _edge(lot), sanded=True) for lot in bases),
        *(_plug(job, layer) for layer in stack.to_make if layer.plug),
        *(_contact(job, stack, joint) for joint in stack.joints if joint.upper > stack.stated),
    ]
    stages = [
        *_layup_stages(job, layups, plies),
        *(_base_stage(job, lot, faces) for lot in bases),
        *_vessel_stages(job, stack, faces),
    ]
    return _plan(job, [*plies, *faces], _vessel_bands(job, stack), stages)


def _in_time(job: Job, faces: Iterable[GlueFaces], rings: tuple[int, ...], *names: str) -> int:
    """Joints of these rings that close within the open time, by the largest; of any name where none is given."""
    of = [f for f in faces if set(rings) & set(f.rings) and (not names or f.name in names)]
    return joints_in_time(job.workshop.glue, max((f.each for f in of), default=0.0))


def _plan(
    job: Job, faces: Sequence[GlueFaces], bands: Sequence[Band], stages: Sequence[GlueStage]
) -> GluePlan:
    glue = job.workshop.glue
    dry = tuple(assembly for assembly in DRIED if any(stage.assembly == assembly for stage in stages))
    return GluePlan(tuple(faces), tuple(bands), tuple(stages), glue.clamp_time, glue.cure, dry)


def _base_stage(job: Job, lot: Lot, faces: Sequence[GlueFaces]) -> GlueStage:
    in_time = _in_time(job, faces, lot.rings, BASE)
    return stage("bases", lot.rings, POSTS.get(lot.piece, "base"), lot.count, lot.count - 1, 1, in_time)


def _faces(
    job: Job, name: str, rings: tuple[int, ...], count: int, each: float, sanded: bool = False
) -> GlueFaces:
    """Unsanded: glued as they come, or only to be sawn."""
    area = count * each
    grams = area / MM2_PER_M2 * job.workshop.glue.spread
    return GlueFaces(name, rings, count, area, grams, sanded)


def _layup_faces(job: Job, layups: Sequence[LayupPlan]) -> Iterator[GlueFaces]:
    """Plies to sheets, strips to stacks, pieces to the blocks that segments are cut from."""
    for plan in layups:
        way, piece, wish = plan.way, plan.layup, job.layup
        plies = len(piece.plies) - 1
        if wish is not None and plies and way.sheets:
            sheet = wish.sheet_width * wish.sheet_length
            yield _faces(job, SHEETS, plan.rings, way.sheets * plies, sheet)
        if way.strips > 1:
            count = way.stacks * (way.strips - 1)
            yield _faces(job, STACKS, plan.rings, count, way.strip_length * piece.depth)
        yield _faces(job, TAILS, plan.rings, way.stacks, way.strips * piece.sheet * piece.depth)
        yield from _block_faces(job, plan)
        yield _faces(job, RAILS, plan.rings, plan.blocks, plan.rail.face)


def _block_faces(job: Job, plan: LayupPlan) -> Iterator[GlueFaces]:
    """Pieces are first glued side by side, where they are mirrored so, then these one on another."""
    if job.layup is None:
        return
    from jigs.stages.layup.solve.pieces import halves

    (beside, over), piece, sanded = halves(job.layup), plan.layup, job.layup.sanding > 0
    if beside:
        count = plan.blocks * plan.per_segment // 2
        yield _faces(job, BESIDE, plan.rings, count, piece.b * piece.depth, sanded)
    if over:
        across = (2 if beside else 1) * piece.a
        yield _faces(job, OVER, plan.rings, plan.blocks, across * piece.depth, sanded)


def _layup_stages(job: Job, layups: Sequence[LayupPlan], faces: Sequence[GlueFaces]) -> Iterator[GlueStage]:
    """Sheets and stacks of many joints grow in several goes; blocks are stuck to their rails one by one."""
    for plan in layups:
        rings, blocks = plan.rings, plan.blocks
        sheet, strip, tail, beside, over, rail = (
            _in_time(job, faces, rings, name) for name in (SHEETS, STACKS, TAILS, BESIDE, OVER, RAILS)
        )
        if plan.way.sheets:
            yield from _grown("sheets", rings, len(plan.layup.plies) - 1, plan.way.sheets, sheet)
        yield from _grown("stacks", rings, plan.way.strips - 1, plan.way.stacks, strip)
        yield stage("stacks", rings, "scrap behind them", 2, 1, plan.way.stacks, tail)
        trays = plan.trays
        if plan.per_segment == 4:
            yield stage("blocks", rings, "pairs", 2, 1, 2 * blocks, min(beside, trays))
        if plan.per_segment > 1:
            yield stage("blocks", rings, "blocks", 2, 1, blocks, min(beside, over, trays))
        yield stage("rails", rings, "blocks on rails", 1, 1, blocks, rail)


def _grown(
    assembly: Assembly, rings: tuple[int, ...], joints: int, count: int, in_time: int
) -> Iterator[GlueStage]:
    """Layers glued face to face, as many at a time as close together."""
    if joints:
        most = min(max(1, in_time), joints)
        yield stage(assembly, rings, assembly, most + 1, most, count * ceil(joints / most), in_time)


def _mitres(job: VesselJob, layer: Layer) -> GlueFaces:
    """A segment's end is its depth along the joint; strips have two faces each."""
    ring, strips = layer.ring, layer.ring.spacer > 0
    end = ring.depth / cos(ring.mitre) * ring.height
    name, count = (STRIPS, 2 * ring.segments) if strips else (MITRES, ring.segments)
    return _faces(job, name, (layer.number,), count, end, sanded=job.rings.joint_sanding > 0)


def _edge(lot: Lot) -> float:
    """What two pieces of a base meet on, edge to edge, or of a post, face to face."""
    return lot.longer * (lot.width if lot.piece in POSTS else lot.thickness)


def _plug(job: VesselJob, layer: Layer) -> GlueFaces:
    """The round of a core plug."""
    return _faces(job, PLUGS, (layer.number,), 1, pi * layer.plug * layer.ring.height, sanded=True)


def _stave_edges(job: VesselJob, stack: StackPlan) -> Iterator[GlueFaces]:
    """Joints stand upright, through the axis: as wide level, all along, as the staves are thick there."""
    band = stack.staves
    numbers = tuple(layer.number for layer in stack.to_make if layer.kind == "staves")
    if band and numbers:
        yield _faces(job, EDGES, numbers, band.count, band.level_thickness / cos(band.mitre) * band.height)


def _contact(job: VesselJob, stack: StackPlan, joint: Joint) -> GlueFaces:
    """Of a ring on a ring; gaps take the share that they take of the finished joint."""
    from geometry.blanks.glue_width import contact_area

    lower, upper = (layer for layer in stack.layers if layer.number in (joint.lower, joint.upper))
    a, b = (stack.ring_at(layer, joint.height) for layer in (lower, upper))
    finished = pi * (joint.outer**2 - joint.inner**2)
    share = joint.glue_area / finished if finished > 0 else 1.0
    area = share * contact_area(a, b, upper.turned - lower.turned)
    return _faces(job, RINGS, (joint.lower, joint.upper), 1, area, sanded=True)


def _vessel_bands(job: VesselJob, stack: StackPlan) -> tuple[Band, ...]:
    """Round the corners of every closed ring, and of the staves at their widest."""
    overlap = job.workshop.clamping.band_overlap
    closed = [layer for layer in stack.to_make if layer.kind in ("segments", "staves")]
    around = [(layer.number, 2 * pi * layer.ring.radius) for layer in closed]
    return tuple(Band((number,), length, length + overlap) for number, length in around)


def _vessel_stages(job: VesselJob, stack: StackPlan, faces: Sequence[GlueFaces]) -> Iterator[GlueStage]:
    """Rings of one count together; open rings segment by segment; then one ring on another."""
    groups = gathered(
        ((layer.ring.segments, layer.ring.spacer > 0), layer.number)
        for layer in stack.to_make
        if layer.kind == "segments"
    )
    for (segments, strips), numbers in groups.items():
        in_time = _in_time(job, faces, tuple(numbers), MITRES, STRIPS)
        yield from ring_stages("rings", tuple(numbers), segments, len(numbers), in_time, strips)
    for layer in stack.to_make:
        if layer.kind == "staves":
            own = (layer.number,)
            in_time = _in_time(job, faces, own, EDGES)
            yield from ring_stages("bands", own, layer.ring.segments, 1, in_time)
    yield from _laid(job, stack, faces)


def _laid(job: VesselJob, stack: StackPlan, faces: Sequence[GlueFaces]) -> Iterator[GlueStage]:
    """Segments of open rings are small; closed rings are centred and pressed one by one."""
    added = stack.layers[max(1, stack.stated) :]
    open_ = [layer for layer in added if layer.kind == "open"]
    in_time = joints_in_time(job.workshop.glue, 0.0)
    for layer in open_:
        yield stage(
            "courses", (layer.number,), "segments on the ring below", 1, 1, layer.ring.segments, in_time
        )
    closed = tuple(layer.number for layer in added if layer.kind != "open")
    if closed:
        in_time = _in_time(job, faces, closed, RINGS)
        yield replace(stage("stack", closed, "rings on rings", 1, 1, len(closed), in_time), at_once=1)
