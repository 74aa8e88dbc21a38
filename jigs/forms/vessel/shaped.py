"""From a vessel job to its form, stack and layups: all that comes before gauges, holding and wood."""

from __future__ import annotations

from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob
from jigs.plans.shape import VesselShape
from jigs.stages.finished_form.check.section import shape_findings, wall_findings
from jigs.stages.finished_form.solve import solve_section, thinnest
from jigs.stages.flat_segments.solve import sled_layouts
from jigs.stages.floating_base.check import floating_findings
from jigs.stages.floating_base.groove import floating_base
from jigs.stages.knob.solve import knob_plan
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.lid.check import through_findings
from jigs.stages.stack.check import staves_findings
from jigs.stages.stack.solve.glued import as_glued
from jigs.stages.stack.solve.whole import solve_stack
from jigs.words.findings import Finding, refuse


def formed(job: VesselJob, coarse: bool = False) -> tuple[Section, tuple[float, float], list[Finding]]:
    """The section, its thinnest wall with the height of that, and the findings of a floating base.

    `coarse` looks for the thinnest wall at fewer places.

    Raises RefusedSoon where the shape alone cannot be.
    """
    refuse([*through_findings(job), *shape_findings(job), *staves_findings(job)], soon=True)
    section = solve_section(job)
    wall = thinnest(section, coarse)
    refuse([*wall_findings(job, section, wall)], soon=True)
    floating = [*floating_findings(job, section, floating_base(job, section))]
    refuse(floating, soon=True)
    return section, wall, floating


def vessel_shape(job: VesselJob, coarse: bool = False) -> VesselShape:
    """Raises Refused where the shape alone cannot be."""
    section, wall, _ = formed(job, coarse)
    planned = solve_stack(job, section)
    stack = as_glued(job, section, planned)
    cut = stack.as_cut(planned)
    sleds = sled_layouts(job, cut.layers)
    layups: tuple[LayupPlan, ...] = ()
    if job.layup is not None:
        from jigs.stages.layup.solve.whole import vessel_layups

        layups = vessel_layups(job, cut, {count: sled.held for count, sled in sleds.items()})
    return VesselShape(job, section, wall, stack, cut.layers, sleds, layups, knob_plan(job, section))
