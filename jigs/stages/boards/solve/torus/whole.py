"""The wood of a torus: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.measured.glued import stated_rings
from jigs.stages.boards.plan.whole import SCRAP, Scrap, WoodPlan
from jigs.stages.boards.solve.boards import wood_classes
from jigs.stages.boards.solve.bought import widened
from jigs.stages.boards.solve.cut_list import cut_lines
from jigs.stages.boards.solve.kept_long import kept_long
from jigs.stages.boards.solve.torus.lots import torus_lots
from jigs.stages.finish.solve import torus_finish
from jigs.stages.gauging.solve.torus import check_corner
from jigs.stages.glue_up.solve.glue import torus_glue
from jigs.stages.grain.solve import torus_grain
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.segments.plan import CuttingPlan
from jigs.words.lengths import Unit


def torus_wood(
    job: TorusJob,
    blank: Blank,
    cutting: CuttingPlan,
    species: tuple[tuple[str, ...], ...],
    spares: tuple[tuple[int, ...], ...],
    layups: Sequence[LayupPlan],
) -> WoodPlan:
    """`spares` says for each whole ring to spare which rings it can stand in for."""
    lots = () if layups else torus_lots(job, blank, cutting, species, spares, stated_rings(job.readings))
    job = widened(job, lots)
    classes, shortages = wood_classes(job, lots)
    return WoodPlan(
        lots=lots,
        lines=cut_lines(job, lots, classes, job.form.joint_sanding, 0.0),
        classes=classes,
        shortages=shortages,
        kept_long=kept_long(job, lots, classes),
        scraps=torus_scraps(blank, cutting, job.unit),
        grain=torus_grain(blank, layups),
        glue=torus_glue(job, blank, cutting.carrier.cut.length, len(spares), layups),
        finish=torus_finish(job, blank, species, layups),
    )


def torus_scraps(blank: Blank, cutting: CuttingPlan, unit: Unit) -> tuple[Scrap, ...]:
    """One ring, then wedge rings that make a right angle."""
    check, n, rings = check_corner(blank).rings, blank.segments, tuple(range(1, blank.wedge_rings + 1))
    depth, held, cut = blank.apothem - blank.core_apothem, cutting.carrier.held, cutting.carrier.cut
    width = cut.length
    one, all_of = (max(SCRAP[unit], cut.strip_length(count) + held) for count in (n, check * n))
    return (
        Scrap("ring", rings, 1, n, depth, width, 1, one, ("joint-plate",)),
        Scrap("quarter", rings, check, n, depth, width, 1, all_of, ("check-corner",)),
    )
