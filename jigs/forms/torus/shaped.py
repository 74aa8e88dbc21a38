"""From a torus job to its form, blank and layups."""

from __future__ import annotations

from jigs.asked.job import TorusJob
from jigs.plans.shape import TorusShape
from jigs.stages.blank.check import blank_findings
from jigs.stages.blank.size import margins, solve_blank, wall
from jigs.stages.finished_form.check.form import form_findings
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.segments.check import blade_findings
from jigs.stages.segments.solve import carrier_of, segment_of
from jigs.stages.wedge_rings.sled import solve_sled
from jigs.stages.wedge_rings.woods import ring_woods
from jigs.words.findings import refuse


def torus_shape(job: TorusJob) -> TorusShape:
    """Raises Refused where the sizes give no torus, or no wood round its core."""
    refuse([*form_findings(job), *blade_findings(job)], soon=True)
    blank = solve_blank(job)
    if blank.core_apothem >= blank.apothem:
        refuse(blank_findings(job, blank), soon=True)
    sled = solve_sled(job, blank)
    segment = segment_of(job, blank, sled.cut.ring_thickness)
    layups: tuple[LayupPlan, ...] = ()
    if job.layup is not None:
        from jigs.stages.layup.solve.whole import torus_layups

        layups = torus_layups(job, blank, carrier_of(job, blank, segment))
    return TorusShape(job, blank, margins(job, blank), wall(job, blank), sled, ring_woods(job.form), layups)
