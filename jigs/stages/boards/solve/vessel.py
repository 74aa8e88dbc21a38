"""The wood of a vessel: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.bodies.section import Section
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.stages.boards.plan import RIPPED, CutLine, Lot, Scrap, WoodPlan
from jigs.stages.boards.solve.boards import widened, wood_classes
from jigs.stages.boards.solve.cut_list import cut_lines, kept_long
from jigs.stages.boards.solve.lots import scrap_strips
from jigs.stages.boards.solve.vessel_lots import vessel_lots
from jigs.stages.finish.solve import vessel_finish
from jigs.stages.flat_segments.plan import FlatSled, SawPlan
from jigs.stages.glue_up.solve.glue import vessel_glue
from jigs.stages.grain.solve import vessel_grain
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.stack.plan import Layer, StackPlan


def vessel_wood(
    job: VesselJob, section: Section, stack: StackPlan, saws: SawPlan, layups: Sequence[LayupPlan]
) -> WoodPlan:
    """Rings of layups have no lots of segments."""
    lots = vessel_lots(job, stack, saws)
    job = widened(job, lots)
    classes, shortages = wood_classes(job, lots)
    gauge = abs(saws.staves.gauge_angle) if saws.staves else 0.0
    lines = cut_lines(job, lots, classes, lambda lot: _end_sanding(job, stack, lot), gauge)
    return WoodPlan(
        lots=lots,
        lines=tuple(_trimmed(stack, line, lots) for line in lines),
        classes=classes,
        shortages=shortages,
        kept_long=kept_long(job, lots, classes),
        scraps=vessel_scraps(job, stack, saws, lots),
        grain=vessel_grain(stack, layups),
        glue=vessel_glue(job, stack, lots, layups),
        finish=vessel_finish(job, section, stack, layups),
    )


def _end_sanding(job: VesselJob, stack: StackPlan, lot: Lot) -> float:
    """A lot's rings are alike."""
    between = (layer.ring.spacer for layer in stack.layers if layer.number in lot.rings)
    return job.rings.end_sanding(max(between, default=0.0))


def _trimmed(stack: StackPlan, line: CutLine, lots: Sequence[Lot]) -> CutLine:
    """Staves have their bevels; nothing is sanded off their edges, and their ends are levelled once they are glued."""
    lot = next(lot for lot in lots if lot.number == line.lot)
    if lot.way != "bevelled" or stack.staves_cut is None:
        return line
    return replace(line, sanded=0.0, width=stack.staves_cut.stock_width)


def vessel_scraps(job: VesselJob, stack: StackPlan, saws: SawPlan, lots: Sequence[Lot]) -> tuple[Scrap, ...]:
    """For each count of segments the smallest ring, and a full set of staves."""
    found = [_scrap_ring(job, sled, stack.layers) for sled in saws.sleds]
    if lot := next((lot for lot in lots if lot.way == "bevelled"), None):
        numbers = tuple(layer.number for layer in stack.layers if layer.kind == "staves")
        count = sum(layer.ring.segments for layer in stack.layers if layer.kind == "staves")
        strips = scrap_strips(job, count, lot.strip_length)
        jigs = ("stave-tilt-plate",)
        found.append(Scrap("staves", numbers, 1, count, lot.thickness, lot.width, *strips, jigs))
    return tuple(found)


def _scrap_ring(job: VesselJob, sled: FlatSled, layers: Sequence[Layer]) -> Scrap:
    others = sorted({ring for setting in sled.settings for ring in setting.rings} - {sled.smallest})
    cut = next(layer.cut for layer in layers if layer.number == sled.smallest and layer.cut)
    strips = scrap_strips(job, sled.segments, lambda pieces: cut.strip_length(pieces) + sled.layout.held)
    rings, jigs = (sled.smallest, *others), (f"joint-plate-n{sled.segments}",)
    thick = max(cut.length, RIPPED)  # scrap is ripped along a fence
    return Scrap("ring", rings, 1, sled.segments, thick, cut.depth, *strips, jigs)
