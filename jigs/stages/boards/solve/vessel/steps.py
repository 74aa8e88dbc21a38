"""The steps of a vessel, from boards to the glued stack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.vessel_job import VesselJob
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import SCRAP, Machine, Scrap, Step
from jigs.stages.boards.plan.stock import WoodClass
from jigs.stages.boards.solve.prepared import prepared_steps
from jigs.stages.boards.solve.steps import (
    angle,
    grouped,
    layup_segments,
    layup_steps,
    numbered,
    rings_of,
    slip_steps,
    square_steps,
    step,
    wanted,
)
from jigs.stages.flat_segments.plan import FlatSled, SawPlan, StopSetting
from jigs.stages.layup.plan.layup import LayupPlan
from jigs.stages.stack.plan import Layer, StackPlan
from jigs.words.counting import ring_list
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity, calliper, ruled

LEAST_BANDSAWN = 150.0  # mm across: smaller discs bring the fingers to the blade; common practice, no source


def vessel_steps(
    job: VesselJob,
    stack: StackPlan,
    saws: SawPlan,
    lots: Sequence[Lot],
    classes: Sequence[WoodClass],
    layups: Sequence[LayupPlan],
) -> tuple[Step, ...]:
    """In the order of the work: all strips, all pieces, rings, the stack."""
    return numbered(
        [
            *layup_steps(layups),
            *prepared_steps(job, lots, classes),
            *(
                one
                for sled in saws.sleds
                for setting in sled.settings
                for one in _slid(sled, setting, lots, layups)
            ),
            *square_steps(lots),
            *slip_steps(lots),
            *_tapered(saws, lots),
            *_disc(job, stack, lots),
            *_rings(job, stack, lots),
            *_band(job, stack, lots),
            *_courses(stack, lots),
            *_floated(stack, lots),
            *_stacked(stack, lots),
        ]
    )


def _slid(
    sled: FlatSled, setting: StopSetting, lots: Sequence[Lot], layups: Sequence[LayupPlan]
) -> Iterator[Step]:
    """One setting of the stop: its rings' pieces, of every wood and strip, then those of layups."""
    cut = [lot for lot in lots if lot.way == "slid across" and set(lot.rings) <= set(setting.rings)]
    settings = (
        angle("tilt", "Blade tilt", 0.0),
        angle("fence", "Each fence off square", sled.layout.mitre),
        Quantity("stop", "Stop to the blade's kept side, square to it", setting.stop),
        ruled("blade-height", "Blade above the table", sled.layout.saw_height),
    )
    rings = "-".join(map(str, setting.rings))
    jigs = (f"joint-plate-n{sled.segments}", f"stop-stick-ring-{rings}")
    edge = (calliper("outer-edge", "Outer edge", setting.outer_edge),)
    if cut:
        yield step("slide", "table saw", rings_of(cut), cut, wanted(cut), settings, jigs, edge)
    if setting.blocks:
        count = layup_segments(layups, setting.blocks)
        yield step("slide", "table saw", setting.blocks, (), count, settings, jigs, edge)


def _tapered(saws: SawPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    staves, cut = [lot for lot in lots if lot.way == "bevelled"], saws.staves
    if cut is not None and staves:
        settings = (
            angle("tilt", "Blade tilt", cut.blade_tilt),
            angle("taper", "Taper of each edge, in the stops", abs(cut.gauge_angle)),
            ruled("blade-height", "Blade above the table, along the tilt", cut.saw_height),
        )
        jigs = ("stave-tilt-plate", "stave-stop-1", "stave-stop-2")
        yield step("taper", "table saw", rings_of(staves), staves, wanted(staves), settings, jigs)


def _disc(job: VesselJob, stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    """The base: glued edge to edge where one board is too narrow, then made round."""
    for layer in stack.to_make:
        if layer.upright:
            own = [lot for lot in lots if lot.piece == "upright" and layer.number in lot.rings]
            across = (ruled("across", "Across", 2 * layer.ring.outer),)
            height = (calliper("height", "Height", layer.ring.height),)
            yield step("upright", "lathe", (layer.number,), own, 1, across, checks=height)
        elif layer.kind == "disc":
            base = [lot for lot in lots if lot.piece == "base" and layer.number in lot.rings]
            across = (ruled("across", "Across", 2 * layer.ring.outer),)
            yield step("disc", _round_on(job, layer), (layer.number,), base, 1, across)


def _round_on(job: VesselJob, layer: Layer) -> Machine:
    """The bandsaw, where there is one that takes the disc and the disc is large enough to hold; else the lathe."""
    height, thick = job.workshop.bandsaw.height, layer.ring.height + job.rings.flattening
    large = 2 * layer.ring.outer >= LEAST_BANDSAWN
    return "bandsaw" if large and height is not None and thick <= height else "lathe"


def _rings(job: VesselJob, stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    """Closed rings by their count of segments; strips stand between the segments."""
    closed = [layer for layer in stack.to_make if layer.kind == "segments"]
    for same in grouped(closed, lambda layer: layer.ring.segments).values():
        rings = tuple(layer.number for layer in same)
        glued = [lot for lot in _of_segments(lots) if set(lot.rings) & set(rings)]
        even = same[0].ring.segments % 2 == 0
        jigs = ("ring-truing-board", "half-ring-check") if even else ()
        settings = (calliper("sanding", "Sand off each end of a segment", job.rings.joint_sanding),)
        yield step("rings", "bench", rings, glued, len(rings), settings, jigs)
    yield from _plugged(closed, lots)
    if closed:
        numbers = tuple(layer.number for layer in closed)
        lots_of = [lot for lot in _of_segments(lots) if set(lot.rings) & set(numbers)]
        heights = grouped(closed, lambda layer: round(layer.ring.height, 2))
        told = [_height(same) for same in heights.values()]
        off = calliper("flattening", "Take off both faces together", job.rings.flattening)
        yield step("flatten", "bench", numbers, lots_of, len(closed), (off, *told))


def _plugged(closed: Sequence[Layer], lots: Sequence[Lot]) -> Iterator[Step]:
    plugged = [layer for layer in closed if layer.plug]
    if plugged:
        rings = tuple(layer.number for layer in plugged)
        own = [lot for lot in lots if lot.piece == "plug"]
        yield step("plug", "lathe", rings, own, len(plugged), _across(plugged))


def _across(plugged: Sequence[Layer]) -> tuple[Quantity, ...]:
    """The plugs' diameters, by ring where they differ."""
    sizes = grouped(plugged, lambda layer: layer.plug)
    if len(sizes) == 1:
        return (ruled("across", "Across", plugged[0].plug),)
    return tuple(
        ruled(f"across.{same[0].number}", f"Across, {_list(same)}", plug) for plug, same in sizes.items()
    )


def _height(same: Sequence[Layer]) -> Quantity:
    """Of rings that are as high as one another."""
    return calliper(f"height.{same[0].number}", f"Height of {_list(same)}", same[0].ring.height)


def _list(layers: Sequence[Layer]) -> str:
    return ring_list([layer.number for layer in layers])


def _of_segments(lots: Sequence[Lot]) -> list[Lot]:
    """Segments, and the strips between them."""
    return [lot for lot in lots if lot.piece in ("segment", "spacer")]


def _band(job: VesselJob, stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    staves = [lot for lot in lots if lot.way == "bevelled"]
    if stack.staves and staves:
        off = (calliper("flattening", "Take off both ends together", job.rings.flattening),)
        height = (calliper("height", "Height, both ends level", stack.staves.height),)
        yield step("band", "bench", rings_of(staves), staves, 1, off, checks=height)


def _courses(stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    """Open rings, whose segments do not touch: glued as the stack grows, each on the ring below."""
    open_ = [layer for layer in stack.to_make if layer.kind == "open"]
    if open_:
        rings = tuple(layer.number for layer in open_)
        own = [lot for lot in _of_segments(lots) if set(lot.rings) & set(rings)]
        heights = [
            calliper(f"height.{layer.number}", f"Height of ring {layer.number}", layer.ring.height)
            for layer in open_
        ]
        count = sum(layer.ring.segments for layer in open_)
        yield step("courses", "bench", rings, own, count, checks=heights)


def _floated(stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    """Ring 2 bored, the groove in ring 1 on its waste block, the disc to fit it, then ring 2 over both."""
    if stack.floating is None:
        return
    base, piece = stack.floating.base, "upright" if stack.floating.upright else "base"
    own = [lot for lot in lots if lot.piece == piece and 1 in lot.rings]
    groove = (
        ruled("opening", "Openings, across", 2 * base.opening),
        calliper("groove", "Groove, across", 2 * base.groove),
        calliper("groove-depth", "Groove, down from the upper face of ring 1", base.depth),
    )
    yield step("groove", "lathe", (1, 2), (), 2, groove, ("groove-gauge",))
    disc = (
        calliper("disc", "Thickness", base.thickness),
        calliper("tongue", "Tongue, across", 2 * base.tongue),
        calliper("tongue-thickness", "Tongue, thickness", base.tongue_thickness),
        calliper("field", "Field over the tongue, across", 2 * base.field),
    )
    yield step("float", "lathe", (1,), own, 1, disc, ("tongue-gauge",))
    room = (calliper("room", "Room round the tongue, to either side", base.room),)
    yield step("drop", "bench", (1, 2), own, 1, checks=room)


def _stacked(stack: StackPlan, lots: Sequence[Lot]) -> Iterator[Step]:
    rings = tuple(layer.number for layer in stack.layers)
    height = (ruled("height", "Height of the stack", stack.top - stack.bottom),)
    yield step("stack", "bench", rings, lots, 1, height)


def vessel_scraps(job: VesselJob, stack: StackPlan, saws: SawPlan) -> tuple[Scrap, ...]:
    """For each count of segments the smallest ring, and a full set of staves."""
    found = [_scrap_ring(sled, stack.layers, job.unit) for sled in saws.sleds]
    band, cut = stack.staves_cut, saws.staves
    if band is not None and cut is not None:
        width, board = cut.board
        numbers = tuple(layer.number for layer in stack.layers if layer.kind == "staves")
        length = max(SCRAP[job.unit], band.count * (board + job.workshop.saw.kerf))
        jigs = ("stave-tilt-plate",)
        found.append(Scrap("staves", numbers, 1, band.count, band.thickness, width, 1, length, jigs))
    return tuple(found)


def _scrap_ring(sled: FlatSled, layers: Sequence[Layer], unit: Unit) -> Scrap:
    rings = tuple(sorted(ring for setting in sled.settings for ring in setting.rings))
    cuts = [layer.cut for layer in layers if layer.number in rings and layer.cut]
    cut = min(cuts, key=lambda cut: cut.outer_edge)
    length = max(SCRAP[unit], cut.strip_length(sled.segments) + sled.layout.held)
    return Scrap(
        "ring", rings, 1, sled.segments, cut.length, cut.depth, 1, length, (f"joint-plate-n{sled.segments}",)
    )
