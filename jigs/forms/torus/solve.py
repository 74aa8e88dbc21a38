"""From a torus job to its plan. Refuses, with every reason at once and the nearest value that works."""

from __future__ import annotations

from typing import TYPE_CHECKING

from geometry.blanks.truing import half_ends
from geometry.bodies.torus import Blank, torus_surface, torus_volume
from jigs.asked.job import TorusJob
from jigs.measured.glued import glued_note, rings_left
from jigs.plans.torus import TorusPlan
from jigs.stages.blank.check import blank_findings, closes
from jigs.stages.blank.size import clean_up, margins, solve_blank, wall
from jigs.stages.blank.solve import solve_errors
from jigs.stages.boards.check import wood_findings
from jigs.stages.boards.solve.torus import torus_wood
from jigs.stages.finished_form.check.form import form_findings, title_findings
from jigs.stages.gauging.check.torus import gauge_findings, sizes_findings
from jigs.stages.gauging.solve.torus import check_corner, solve_gauges
from jigs.stages.glue_up.check import glue_up_findings
from jigs.stages.glue_up.layout import ClampBlocks
from jigs.stages.glue_up.solve.truing import truing_layout
from jigs.stages.held.check.rings_held import peg_findings, ring_findings, rod_findings
from jigs.stages.held.check.stiff import layup_sheets, stiff_findings, torus_sheets
from jigs.stages.held.statics.stiffness import strained
from jigs.stages.lathe.check import lathe_findings
from jigs.stages.lathe.uneven import Spun, torus_spun, uneven_findings
from jigs.stages.layup.check.whole import findings as layup_findings
from jigs.stages.mountings.check import held_findings, mountings_findings
from jigs.stages.mountings.plan import HoldingPlan, MountingsPlan
from jigs.stages.mountings.solve.holding import solve_holding
from jigs.stages.mountings.solve.mountings import plan_mountings, with_statics
from jigs.stages.segments.check import blade_findings, saw_findings
from jigs.stages.segments.layout import CarrierLayout
from jigs.stages.segments.saws import kerf_of
from jigs.stages.segments.solve import cutting_plan, segment_of
from jigs.stages.sizes.solve.torus import solve_sizes
from jigs.stages.slips.solve import slip_box
from jigs.stages.wedge_rings.check import sled_findings, spiral_findings
from jigs.stages.wedge_rings.layout.sled import SledBody
from jigs.stages.wedge_rings.sled import solve_rings_held, solve_sled
from jigs.stages.wedge_rings.woods import ring_woods, spare_rings
from jigs.words.findings import refuse

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.plan import LayupJigs, LayupPlan


def solve_torus(job: TorusJob, early: bool = False) -> TorusPlan:
    """Solve the whole job.

    Raises Refused with every finding that stops it. Findings that do not stop it are the plan's notes. If `early`,
    a blank that cannot be sawn or held refuses it before cutting and wood are worked out.
    """
    refuse([*form_findings(job), *blade_findings(job)], soon=True)
    blank = solve_blank(job)
    if blank.core_apothem >= blank.apothem or not closes(
        job, blank
    ):  # no wood is left to saw, or at no angle
        refuse(blank_findings(job, blank), soon=True)
    sled = solve_sled(job, blank)
    ring_cut = sled.cut
    segment = segment_of(job, blank, ring_cut.ring_thickness)
    turned, glued = _as_read(job, blank)
    holding = solve_holding(turned, job.form.outer_diameter)
    mountings = plan_mountings(turned, glued, holding)
    if early:
        _refuse_early(job, blank, sled, holding, mountings)
    cutting = cutting_plan(job, blank, segment)
    truing = truing_layout(job, blank, sled)
    clamping = ClampBlocks(
        blank.alone, job.workshop.clamping.height, job.workshop.clamping.set_back, blank.parted
    )
    if early:
        refuse([*saw_findings(job, blank, sled, cutting), *glue_up_findings(job, blank, ring_cut, clamping)])
    layups, layup_tools = _layups(job, blank, cutting.carrier)
    species = ring_woods(job.form)
    left = rings_left(job.readings, blank.wedge_rings)
    spares = spare_rings(job, species[: len(left)])
    if early:
        refuse([*layup_findings(job, layups, layup_tools)])
    wood = torus_wood(job, blank, cutting, species, spares, layups)
    gauges = solve_gauges(turned, holding)
    findings = [
        *title_findings(job),
        *glued_note(job, len(left) + 1, blank.wedge_rings),
        *blank_findings(job, blank),
        *sled_findings(job, blank, sled),
        *spiral_findings(job),
        *rod_findings(job, sled),
        *peg_findings(job, sled),
        *saw_findings(job, blank, sled, cutting),
        *glue_up_findings(job, blank, ring_cut, clamping),
        *lathe_findings(turned, glued, holding),
        *mountings_findings(turned, glued, holding, mountings),
        *gauge_findings(turned, gauges),
        *sizes_findings(turned, glued, gauges.stages),
        *layup_findings(job, layups, layup_tools),
        *wood_findings(job, wood),
        *stiff_findings(job, [*torus_sheets(sled, cutting), *layup_sheets(layup_tools)]),
    ]
    refuse(findings)
    check = check_corner(blank)
    rings_held, spun = solve_rings_held(job, sled), _spun(job, glued, holding)
    mountings = with_statics(job, glued, holding, mountings, spun.weighs, spun.hangs)
    refuse([*ring_findings(job, rings_held), *held_findings(turned, mountings)])
    form = turned.form
    findings += uneven_findings(job, "form.species", spun)
    return TorusPlan(
        job=turned,
        asked=job,
        blank=blank,
        margins=margins(turned, glued),
        wall=wall(turned, glued),
        segment=segment,
        clean_up=clean_up(job, kerf_of(job, cutting.rings_on)),
        ring_cut=ring_cut,
        sled=sled,
        rings_held=rings_held,
        sled_strained=strained(sled),
        cutting=cutting,
        truing=truing,
        left=left,
        half_ends={ring: face for ring, face in half_ends(blank.wedge_rings).items() if ring in left},
        spare_rings=spares,
        clamping=clamping,
        check=check,
        errors=solve_errors(job, blank, ring_cut, check),
        gauges=gauges,
        sizes=solve_sizes(
            turned, glued, gauges.stages, mountings.setting.flat_height - mountings.setting.spigot
        ),
        holding=holding,
        mountings=mountings,
        layups=layups,
        layup_jigs=layup_tools,
        wood=wood,
        slip_box=slip_box(job, wood.lots),
        species=species,
        torus_volume=torus_volume(form.major_radius, form.tube),
        torus_surface=torus_surface(form.major_radius, form.tube),
        off_axis=spun.off_axis,
        rim_speed=spun.speed,
        notes=(*job.questions, *(f for f in findings if f.severity != "refused")),
    )


def _as_read(job: TorusJob, blank: Blank) -> tuple[TorusJob, Blank]:
    """As its first side was turned, and as its rings were sanded."""
    if not job.readings.entries:
        return job, blank
    from jigs.measured.first_side import as_turned
    from jigs.measured.ring_sizes import as_glued

    return as_turned(job), as_glued(job, blank)


def _refuse_early(
    job: TorusJob, blank: Blank, sled: SledBody, holding: HoldingPlan, mountings: MountingsPlan
) -> None:
    """Refuse a blank that cannot be sawn or turned; then one that is not held. Raises Refused."""
    refuse([*blank_findings(job, blank), *sled_findings(job, blank, sled), *lathe_findings(job, blank, holding),
            *mountings_findings(job, blank, holding, mountings), *rod_findings(job, sled, bare=True),
            *peg_findings(job, sled, bare=True)], soon=True)  # fmt: skip
    spun = _spun(job, blank, holding)
    held = with_statics(job, blank, holding, mountings, spun.weighs, spun.hangs)
    refuse([*ring_findings(job, solve_rings_held(job, sled), bare=True), *held_findings(job, held)])


def _spun(job: TorusJob, blank: Blank, holding: HoldingPlan) -> Spun:
    return torus_spun(job, blank, ring_woods(job.form), max(2 * blank.swing_radius, holding.board_disc))


def _layups(
    job: TorusJob, blank: Blank, carrier: CarrierLayout
) -> tuple[tuple[LayupPlan, ...], tuple[LayupJigs, ...]]:
    """The layups and their jigs; without one nothing that works them out is loaded."""
    if job.layup is None:
        return (), ()
    from jigs.stages.layup.solve.jigs import layup_jigs
    from jigs.stages.layup.solve.whole import torus_layups

    layups = torus_layups(job, blank, carrier)
    return layups, layup_jigs(job, layups)
