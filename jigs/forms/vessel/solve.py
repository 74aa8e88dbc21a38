"""From a vessel job to its plan."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from geometry.bodies.section import Section
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.forms.vessel.shaped import formed
from jigs.measured.glued import glued_note
from jigs.measured.outside import as_turned
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.check import wood_findings
from jigs.stages.boards.solve.vessel import vessel_wood
from jigs.stages.finished_form.check.form import title_findings
from jigs.stages.flat_rings.solve import ring_boards
from jigs.stages.flat_segments.check import saw_findings
from jigs.stages.flat_segments.solve import saw_plan
from jigs.stages.gauging.check.vessel import gauge_findings
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.stages.gauging.solve.vessel import gauge_plan
from jigs.stages.halves.check import halves_findings, rings_that_would_do
from jigs.stages.halves.plan import HalvesPlan
from jigs.stages.halves.solve import halves_plan, joints_of, judged_at, through_mouth
from jigs.stages.held.check.stiff import layup_sheets, stiff_findings, vessel_sheets
from jigs.stages.holding_by_mouth.check import reversing_findings
from jigs.stages.holding_by_mouth.solve.whole import reversing_plan
from jigs.stages.knob.check import knob_findings
from jigs.stages.knob.solve import knob_plan
from jigs.stages.lathe.uneven import uneven_findings, vessel_spun
from jigs.stages.layup.check.whole import findings as layup_findings
from jigs.stages.lid.check import lid_findings
from jigs.stages.lid.solve import lid_plan
from jigs.stages.sizes.solve.vessel import lid_sizes, sizes_findings, sizes_plan
from jigs.stages.slips.solve import slip_box
from jigs.stages.solids.check.base import base_findings
from jigs.stages.solids.check.stem import stem_findings
from jigs.stages.stack.check import middle_findings, stack_findings
from jigs.stages.stack.plan import StackPlan
from jigs.stages.stack.solve.glued import as_glued
from jigs.stages.stack.solve.whole import solve_stack
from jigs.stages.waste_block.check import waste_findings
from jigs.stages.waste_block.solve import waste_block
from jigs.words.findings import refuse

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.plan import LayupJigs, LayupPlan


def solve_vessel(job: VesselJob, early: bool = False) -> VesselPlan:
    """Solve the whole job. Raises Refused with every finding that stops it; others are the plan's notes.

    If `early`, a stack that cannot be sawn or glued refuses it before gauges, holding and wood are worked out.
    """
    section, wall, floating = formed(job)
    planned = solve_stack(job, section)
    stack = as_glued(job, section, planned)
    cut = stack.as_cut(planned)
    if early:
        refuse(stack_findings(job, section, stack), soon=True)
    saws = saw_plan(job, cut.layers, stack.staves_cut, stack.stated)
    if early:
        refuse(saw_findings(job, saws, cut.layers))
    gauges = gauge_plan(job, section, stack)
    asked_sizes = sizes = sizes_plan(job, section, stack, gauges)
    turned, cup = as_turned(job, sizes.finished), section
    if turned is not job:
        cup, wall, _ = formed(turned)
        gauges = gauge_plan(turned, cup, stack)
        sizes = sizes_plan(turned, cup, stack, gauges, at=asked_sizes)
    lid = lid_plan(job, section, stack)
    sizes = replace(sizes, lid=lid_sizes(job, lid, sizes.plate, gauges.faceplate))
    knob = knob_plan(job, section)
    halves = halves_plan(turned, cup, stack, gauges)
    rings_on = ring_boards(job, cut)
    waste = waste_block(job, cup, cut)
    reversing = reversing_plan(turned, cup, stack)
    layups, layup_tools = _layups(job, cut, saws.strips_held)
    if early:
        refuse([*stem_findings(job, section, stack), *reversing_findings(turned, cup, reversing),
                *layup_findings(job, layups, layup_tools)])  # fmt: skip
    wood = vessel_wood(job, section, cut, saws, layups)
    offered = None if early else _halves_offered(turned, cup, stack, gauges, halves)
    findings = [
        *title_findings(job),
        *glued_note(job, 1, stack.stated),
        *floating,
        *stack_findings(job, section, stack),
        *middle_findings(job, section, stack),
        *stem_findings(job, section, stack),
        *base_findings(job, section, stack, wall),
        *waste_findings(job, waste),
        *saw_findings(job, saws, cut.layers),
        *gauge_findings(turned, cup, gauges, offered),
        *sizes_findings(turned, sizes),
        *reversing_findings(turned, cup, reversing),
        *lid_findings(job, lid),
        *knob_findings(job, knob),
        *halves_findings(job, stack, halves, offered),
        *layup_findings(job, layups, layup_tools),
        *wood_findings(job, wood),
        *stiff_findings(job, [*vessel_sheets(saws), *layup_sheets(layup_tools)]),
    ]
    refuse(findings)
    spun = vessel_spun(job, stack.layers)
    findings += uneven_findings(job, "rings.species", spun)
    return VesselPlan(
        job=turned,
        asked=job,
        section=cup,
        within=turned.outside.within,
        wall=wall,
        stack=stack,
        planned=planned,
        asked_sizes=asked_sizes,
        saws=saws,
        gauges=through_mouth(gauges, halves),
        sizes=sizes,
        lid=lid,
        knob=knob,
        halves=halves,
        ring_boards=rings_on,
        waste=waste,
        reversing=reversing,
        layups=layups,
        layup_jigs=layup_tools,
        wood=wood,
        slip_box=slip_box(job, wood.lots),
        off_axis=spun.off_axis,
        rim_speed=spun.speed,
        notes=(*job.questions, *findings),
    )


def _halves_offered(
    job: VesselJob, section: Section, stack: StackPlan, gauges: VesselGauges, halves: HalvesPlan | None
) -> tuple[int, ...] | None:
    """The rings to join it at, where its gauges leave some of the inside, through the mouth or in its parts."""
    unguided = [tier.gauges.unguided for tier in halves.tiers] if halves else [gauges.unguided]
    if not any(unguided):
        return None
    openings = {ring: section.inner.radius_at(z) for ring, z in joints_of(section, stack).items()}
    return rings_that_would_do(
        job, stack, lambda rings: judged_at(job, section, stack, gauges, rings), openings
    )


def _layups(
    job: VesselJob, cut: StackPlan, held: Mapping[int, float]
) -> tuple[tuple[LayupPlan, ...], tuple[LayupJigs, ...]]:
    """The layups and their jigs; without one nothing that works them out is loaded."""
    if job.layup is None:
        return (), ()
    from jigs.stages.layup.solve.jigs import layup_jigs
    from jigs.stages.layup.solve.whole import vessel_layups

    layups = vessel_layups(job, cut, held)
    return layups, layup_jigs(job, layups)
