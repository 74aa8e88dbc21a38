"""The wood of a vessel: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import CutLine
from jigs.stages.boards.plan.whole import WoodPlan
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.solve.bought import widened
from jigs.stages.boards.solve.kept_long import kept_long
from jigs.stages.boards.solve.steps import cut_lines
from jigs.stages.boards.solve.vessel.lots import vessel_lots
from jigs.stages.boards.solve.vessel.steps import vessel_scraps, vessel_steps
from jigs.stages.finish.solve import vessel_finish
from jigs.stages.flat_segments.plan import SawPlan
from jigs.stages.glue_up.solve.glue import vessel_glue
from jigs.stages.grain.solve import vessel_grain
from jigs.stages.layup.plan.layup import LayupPlan
from jigs.stages.stack.plan import StackPlan


def vessel_wood(
    job: VesselJob, section: Section, stack: StackPlan, saws: SawPlan, layups: Sequence[LayupPlan]
) -> WoodPlan:
    """Rings of layups have no lots of segments."""
    lots = vessel_lots(job, stack, saws)
    job = widened(job, lots)
    classes, shortages = wood_classes(job, lots)
    steps = vessel_steps(job, stack, saws, lots, classes, layups)
    gauge = abs(saws.staves.gauge_angle) if saws.staves else 0.0
    lines = cut_lines(job, lots, classes, steps, job.rings.joint_sanding, gauge)
    return WoodPlan(
        lots=lots,
        lines=tuple(_trimmed(stack, line, lots) for line in lines),
        classes=classes,
        shortages=shortages,
        kept_long=kept_long(job, lots, classes),
        scraps=vessel_scraps(job, stack, saws),
        steps=steps,
        grain=vessel_grain(job, stack, layups),
        glue=vessel_glue(job, stack, lots, layups),
        finish=vessel_finish(job, section, stack, layups),
    )


def _trimmed(stack: StackPlan, line: CutLine, lots: Sequence[Lot]) -> CutLine:
    """Staves lose their slanted ends; nothing is sanded off their edges."""
    lot = next(lot for lot in lots if lot.number == line.lot)
    if lot.way != "bevelled" or stack.staves_cut is None:
        return line
    length = stack.staves_cut.slant_length
    return replace(line, sanded=0.0, width=lot.width, longer=length, shorter=length)
