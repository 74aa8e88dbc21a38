"""The wood of a torus: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.blanks.sawing import WedgeRingCut
from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.measured.glued import stated_rings
from jigs.stages.boards.plan.whole import WoodPlan
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.solve.bought import widened
from jigs.stages.boards.solve.kept_long import kept_long
from jigs.stages.boards.solve.steps import cut_lines
from jigs.stages.boards.solve.torus.lots import torus_lots
from jigs.stages.boards.solve.torus.steps import torus_scraps, torus_steps
from jigs.stages.finish.solve import torus_finish
from jigs.stages.glue_up.solve.glue import torus_glue
from jigs.stages.grain.solve import torus_grain
from jigs.stages.layup.plan.layup import LayupPlan
from jigs.stages.segments.plan import CuttingPlan


def torus_wood(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    species: tuple[tuple[str, ...], ...],
    spares: tuple[tuple[int, ...], ...],
    layups: Sequence[LayupPlan],
) -> WoodPlan:
    """`spares` says for each whole ring to spare which rings it can stand in for."""
    lots = () if layups else torus_lots(job, blank, cutting, species, spares, stated_rings(job.readings))
    job = widened(job, lots)
    classes, shortages = wood_classes(job, lots)
    steps = torus_steps(job, blank, ring_cut, cutting, spares, lots, classes, layups)
    return WoodPlan(
        lots=lots,
        lines=cut_lines(job, lots, classes, steps, job.form.joint_sanding, 0.0),
        classes=classes,
        shortages=shortages,
        kept_long=kept_long(job, lots, classes),
        scraps=torus_scraps(blank, cutting, job.unit),
        steps=steps,
        grain=torus_grain(blank, layups),
        glue=torus_glue(job, blank, cutting.carrier.cut.length, len(spares), layups),
        finish=torus_finish(job, blank, species, layups),
    )
