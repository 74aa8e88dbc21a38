"""From the job to the plan. Refuses, with every reason at once and the nearest value that works."""

from __future__ import annotations

from math import ceil, floor, pi, radians, sin

from geometry.clamping import ClampBlocks
from geometry.fasteners import bolt_diameter, clearance_hole
from geometry.sawing import wedge_ring_cut
from geometry.sled import SledBody
from geometry.torus import (
    Blank,
    apothem_needed,
    bevel_needed,
    centre_play,
    least_apothem,
    rings_in_check,
    torus_surface,
    torus_volume,
    wall_left,
)
from geometry.truing_carrier import TruingLayout
from geometry.turning import (
    Channel,
    Retainer,
    bearing_forces,
    flat_after_sanding,
    rim_speed_limits,
    sticks,
)
from jigs import checks
from jigs.checks_cutting import cutting_findings, glue_up_findings
from jigs.findings import Finding, Refused
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan import CheckPlan, GaugePlan, HoldingPlan, Plan, Stage
from jigs.processes import plate_thickness
from jigs.solve_cutting import (
    cutting_plan,
    kerf_of,
    saw_for_rings,
    segment_of,
    wedge_ring_sled,
)
from jigs.solve_mountings import mountings_findings, plan_mountings
from jigs.solve_sizes import sizes_findings, solve_sizes

SMALL_WORK = 200.0  # mm across: smaller bolts and fewer braces below
SWING_CLEARANCE = 10.0
GAUGE_WEB = 24.0
NUT_AND_WASHER = 15.0


def solve(job: Job) -> Plan:
    """Solve the whole job.

    Raises Refused with every finding that stops it. Findings that do not stop it are the plan's notes.
    """
    _refuse(checks.form_findings(job))
    blank = _blank(job)
    saw = saw_for_rings(job, blank)
    clean_up = _clean_up(job, kerf_of(job, saw))
    ring_cut = wedge_ring_cut(blank, clean_up, job.form.face_sanding)
    sled = wedge_ring_sled(job, blank, ring_cut, saw)
    segment = segment_of(job, blank, ring_cut.ring_thickness)
    cutting = cutting_plan(job, blank, segment)
    truing = _truing(job, blank, sled)
    clamping = ClampBlocks(blank, job.workshop.clamping.height, job.workshop.clamping.set_back)
    holding = _holding(job, blank)
    mountings = plan_mountings(job, blank, holding)
    gauges = _gauges(job, holding)
    findings = [
        *checks.blank_findings(job, blank),
        *checks.saw_findings(job, blank, sled),
        *cutting_findings(job, blank, sled, cutting),
        *glue_up_findings(job, blank, ring_cut, clamping),
        *checks.lathe_findings(job, blank, holding),
        *mountings_findings(job, blank, holding, mountings),
        *checks.gauge_findings(job, gauges),
        *sizes_findings(job, blank, gauges.stages),
    ]
    _refuse(findings)
    form = job.form
    return Plan(
        job=job,
        blank=blank,
        margins=_margins(job, blank),
        wall=wall_left(
            form.major_radius,
            form.tube_radius,
            form.wedge_rings,
            form.segments,
            blank.centre,
            blank.core_apothem,
        ),
        segment=segment,
        clean_up=clean_up,
        ring_cut=ring_cut,
        sled=sled,
        cutting=cutting,
        truing=truing,
        clamping=clamping,
        check=_check(blank),
        gauges=gauges,
        sizes=solve_sizes(job, blank, gauges.stages),
        holding=holding,
        mountings=mountings,
        torus_volume=torus_volume(form.major_radius, form.tube_radius),
        torus_surface=torus_surface(form.major_radius, form.tube_radius),
        rim_speed=rim_speed_limits(2 * blank.swing_radius),
        notes=tuple(f for f in findings if f.severity != "refused"),
    )


def _refuse(findings: list[Finding]) -> None:
    if any(f.severity == "refused" for f in findings):
        raise Refused(f for f in findings if f.severity == "refused")


def _blank(job: Job) -> Blank:
    form = job.form
    shape = (form.major_radius, form.tube_radius + form.turning_allowance, form.wedge_rings, form.segments)
    apothem, centre = least_apothem(*shape)
    if form.ring_across_flats is not None:
        apothem = form.ring_across_flats / 2
        centre = sum(centre_play(*shape, apothem)) / 2
    return Blank(form.wedge_rings, form.segments, apothem, form.core_opening / 2, centre)


def _margins(job: Job, blank: Blank) -> tuple[float, ...]:
    form = job.form
    reach = form.tube_radius + form.turning_allowance
    needed = apothem_needed(form.major_radius, reach, form.wedge_rings, form.segments, blank.centre)
    return tuple(float(margin) for margin in blank.apothem - needed)


def _clean_up(job: Job, kerf: float) -> float:
    if job.form.clean_up is not None:
        return job.form.clean_up
    return max(kerf + 1, 3.0)


def _truing(job: Job, blank: Blank, sled: SledBody) -> TruingLayout:
    shop = job.workshop
    quarter = rings_in_check(blank.wedge_rings)
    return TruingLayout(
        blank=blank,
        quarter=quarter if quarter >= 2 else 0,
        spare=job.form.half_sanding,
        abrasive=shop.truing.abrasive,
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        cheek_length=sled.cheek_length,
    )


def _check(blank: Blank) -> CheckPlan:
    rings = rings_in_check(blank.wedge_rings)
    return CheckPlan(rings, rings * 2 * pi / blank.wedge_rings, blank.swing_radius)


def _stage(job: Job, index: int) -> Stage:
    wish = job.gauges
    offset, last = wish.stages[index], index == len(wish.stages) - 1
    name = "finished" if last else f"stage-{index + 1}"
    label = "FINISHED" if last else f"+{show_length(offset, job.unit)}".upper()
    return Stage(name, label, offset, job.form.tube_radius + offset + wish.fit)


def _gauges(job: Job, holding: HoldingPlan) -> GaugePlan:
    form, wish = job.form, job.gauges
    stages = tuple(_stage(job, index) for index in range(len(wish.stages)))
    rough = form.tube_radius + form.turning_allowance
    longest = 2 * stages[0].edge_radius + 2 * GAUGE_WEB
    plate = wish.plate_thickness or plate_thickness("print", job.workshop, longest)
    if job.workshop.made.gauges == "cut":
        plate = job.workshop.boards.sheet
    opening = form.major_radius - rough
    tail = stages[0].edge_radius * checks.TAIL_WIDENING
    channel_radius = holding.channel.radius - wish.fit
    channel = holding.channel
    flank = (form.major_radius + channel.width / 2) / sin(channel.half_angle)
    return GaugePlan(
        stages=stages,
        plate=plate,
        fit=wish.fit,
        web=GAUGE_WEB,
        hole_web=min(GAUGE_WEB, 2 * opening - checks.HOLE_PLAY - tail),
        rim_height=rough + 3,
        hole_land=bevel_needed(plate, opening),
        channel_land=bevel_needed(plate, flank),
        channel_radius=channel_radius,
        retainer_radius=holding.retainer.radius - wish.fit,
    )


def _holding(job: Job, blank: Blank) -> HoldingPlan:
    form, shop = job.form, job.workshop
    wish, contact = shop.holding, radians(shop.holding.contact)
    tube = (form.major_radius, form.tube_radius, form.lining, contact)
    channel = Channel(*tube, relief=(wish.relief_width, wish.relief_depth))
    retainer = Retainer(*tube, wish.neck_clearance, wish.board_clearance)
    small = form.outer_diameter < SMALL_WORK
    bolt = shop.bolts.centre or ("M8" if small else "M10")
    layer = shop.boards.thickness
    board_layers = max(2, ceil((channel.depth + channel.relief_depth + wish.solid_under) / layer))
    board = min(form.outer_diameter + wish.beyond_rim, shop.lathe.swing_over_bed - SWING_CLEARANCE)
    normal, spread = bearing_forces(radians(30), form.friction)
    brace_bolt = "M8"
    reach = board_layers * layer + channel.centre_height + retainer.band_high + NUT_AND_WASHER
    return HoldingPlan(
        channel=channel,
        retainer=retainer,
        bolt=bolt,
        bolt_hole=clearance_hole(bolt),
        bolt_length=5 * ceil(reach / 5),
        washer=min(wish.washer, 2 * floor(retainer.top_radius - 3)),
        board_diameter=board,
        board_thickness=board_layers * layer,
        board_layers=board_layers,
        layer_thickness=layer,
        retainer_layers=ceil((retainer.height + 2) / layer),
        retainer_blank=2 * retainer.top_radius + 10,
        braces=shop.bolts.braces or (4 if small else 6),
        brace_bolt=brace_bolt,
        brace_hole=clearance_hole(brace_bolt),
        brace_circle=board - 4 * bolt_diameter(brace_bolt),
        normal_force=normal,
        spread=spread,
        sticks=sticks(radians(30), form.friction),
        first_flat=flat_after_sanding(blank.apothem, blank.mitre, 0.0),
    )
