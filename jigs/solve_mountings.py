"""Solving the sequence of mountings, and what refuses it, each time with the nearest that works."""

from __future__ import annotations

from collections.abc import Callable
from math import atan, ceil, cos, floor, pi, radians

from geometry.fasteners import bolt_diameter
from geometry.flats import flat_after, half_width_at, sanded_for_flat
from geometry.mountings import Fault, Setting, degrees_of, faults, holding_mountings, most_tool_room
from geometry.roughing import flats_steps
from geometry.torus import Blank
from geometry.turning import TAIL
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan import HoldingPlan
from jigs.plan_mountings import BracePlan, FirstBoard, MountingsPlan

LEAST_PAD = 2.0  # printed, on top of a brace's block
STRAP = 4  # width of a brace in bolt diameters: two on either side of the hole
INSIDE_EDGE = 1.0  # from a brace's end to the board's edge
BLOCK_CLEAR = 1.0  # from a brace's block to the sanded rim
BLOCK_WALL = 3.0  # least, from a brace's bolt hole to the block's inner end
BRACE_GAP = 2.0  # least, between neighbouring braces
SCRIBED_INSIDE = 5.0  # from the scribed circle to the first board's edge
SWING_CLEARANCE = 10.0


def plan_mountings(job: Job, blank: Blank, holding: HoldingPlan) -> MountingsPlan:
    """Solve the mountings. Whether they will do is for `mountings_findings` to say."""
    sanded = min(sanded_for_flat(blank.apothem, blank.segments, _least_flat(job)), _most_sanded(job, blank))
    flat = flat_after(blank.apothem, blank.segments, sanded)
    setting = _setting(job, blank, sanded, flat)
    first_radius = job.form.tube_radius + job.gauges.stages[0]
    return MountingsPlan(
        setting=setting,
        mountings=holding_mountings(setting),
        sanded=sanded,
        waste_flat=flat,
        first=_first_board(job, blank, holding, setting),
        brace=_brace(job, holding, setting),
        flats=flats_steps(first_radius, blank.segments, job.gauges.flats_left),
    )


def _least_flat(job: Job) -> float:
    return job.workshop.holding.least_flat


def _most_sanded(job: Job, blank: Blank) -> float:
    """Down to the sanding allowance over the finished tube."""
    return max(0.0, blank.apothem - job.form.tube_radius - job.gauges.sanding_allowance)


def _setting(job: Job, blank: Blank, sanded: float, flat: float) -> Setting:
    form, wish = job.form, job.workshop.holding
    shift = blank.centre - form.major_radius
    return Setting(
        tube=form.tube_radius,
        rough=form.tube_radius + form.turning_allowance,
        flat_height=blank.apothem - sanded,
        flat_inner=flat / 2 - shift,
        flat_outer=flat / 2 + shift,
        contact=radians(wish.contact),
        lining=form.lining,
        spigot=wish.spigot_height,
        tool_room=wish.tool_room,
        least_overlap=radians(wish.least_overlap),
    )


def _first_board(job: Job, blank: Blank, holding: HoldingPlan, setting: Setting) -> FirstBoard:
    wish = job.workshop.holding
    sanded_tube = job.form.tube_radius + job.gauges.sanding_allowance
    inner = blank.centre - half_width_at(
        blank.apothem, blank.segments, setting.flat_height - wish.spigot_height
    )
    return FirstBoard(
        centre_height=setting.flat_height,
        face_height=holding.board_thickness - wish.spigot_height,
        spigot_height=wish.spigot_height,
        spigot_radius=inner - wish.spigot_clearance,
        scribed=(job.form.major_radius + setting.flat_outer) / cos(blank.half_wedge),
        turned_back=job.form.major_radius + max(sanded_tube * cos(TAIL), setting.flat_outer),
        saw_short=wish.saw_short,
    )


def _brace(job: Job, holding: HoldingPlan, setting: Setting) -> BracePlan:
    height = holding.channel.centre_height + setting.flat_height
    layer = holding.layer_thickness
    layers = max(0, floor((height - LEAST_PAD) / layer))
    return BracePlan(
        height=height,
        bolt=holding.brace_bolt,
        hole=holding.brace_hole,
        bolt_radius=holding.brace_circle / 2,
        tip=job.form.major_radius,
        outer=holding.board_diameter / 2 - INSIDE_EDGE,
        block_inner=_block_inner(job),
        width=STRAP * bolt_diameter(holding.brace_bolt),
        thickness=layer,
        bearing=setting.flat_outer,
        layers=layers,
        pad=height - layers * layer,
    )


def _block_inner(job: Job) -> float:
    return job.form.outer_diameter / 2 + job.gauges.sanding_allowance + BLOCK_CLEAR


def mountings_findings(job: Job, blank: Blank, holding: HoldingPlan, plan: MountingsPlan) -> list[Finding]:
    """The flat, the holding plan's arcs, the first board, the braces."""
    return [
        *_flat(job, blank),
        *_arcs(job, plan),
        *_board(job, holding, plan),
        *_brace_room(job, holding, plan),
        *_brace_count(job, holding, plan),
    ]


def _show(job: Job) -> Callable[[float], str]:
    return lambda mm: show_length(mm, job.unit)


def _flat(job: Job, blank: Blank) -> list[Finding]:
    least, most = _least_flat(job), _most_sanded(job, blank)
    wanted = sanded_for_flat(blank.apothem, blank.segments, least)
    if wanted <= most + 1e-9:
        return []
    show = _show(job)
    widest = floor(10 * flat_after(blank.apothem, blank.segments, most)) / 10
    return [
        job.finding(
            "flat-too-narrow",
            f"the flat glued to the first board is {show(blank.flat_width)} wide; sanded down to the finished "
            f"form's own allowance it is {show(widest)}, and glue wants {show(least)}",
            key="holding.least_flat",
            remedy=f"a least flat of at most {show(widest)}, a larger turning allowance, or a thicker tube",
        )
    ]


def _arcs(job: Job, plan: MountingsPlan) -> list[Finding]:
    found = faults(plan.mountings, plan.setting.least_overlap)
    if not found:
        return []
    show, room = _show(job), plan.setting.tool_room
    most = floor(10 * most_tool_room(plan.setting)) / 10
    least = job.form.tube_radius * 2 * room / most if most > 0 else 0.0
    remedy = (
        f"a tool room of at most {show(most)}, or a tube of about {show(ceil(least))}"
        if most >= 0.5
        else "use a thicker tube"
    )
    return [
        job.finding(
            "arc-not-reached",
            "; ".join(dict.fromkeys(_fault_text(fault, plan) for fault in found))
            + f" (tool room {show(room)})",
            key="holding.tool_room",
            remedy=remedy,
        )
    ]


def _fault_text(fault: Fault, plan: MountingsPlan) -> str:
    start, end = degrees_of(fault.arc)
    arc = f"from {start:.0f}° to {end:.0f}° round the tube"
    match fault.kind:
        case "gap" if fault.overlap < 0:
            return f"{arc} nothing is turned, neither in {fault.first} nor in {fault.second}"
        case "gap":
            least = plan.setting.least_overlap * 180 / pi
            return f"{fault.first} and {fault.second} overlap only {arc}, less than {least:g}°"
        case "covered":
            return f"in {fault.first} the {fault.second} covers what is to be turned, {arc}"
        case "not-finished":
            return f"in {fault.first} the {fault.second} bears on what is not finished yet, {arc}"
        case "turned-away":
            return f"in {fault.first} the {fault.second} bears on what has been turned away, {arc}"


def _board(job: Job, holding: HoldingPlan, plan: MountingsPlan) -> list[Finding]:
    needed = plan.first.scribed + SCRIBED_INSIDE
    if holding.board_diameter / 2 >= needed:
        return []
    show = _show(job)
    return [
        job.finding(
            "board-too-small",
            f"a board of {show(holding.board_diameter)} is too small for the flat that it is glued to, "
            f"{show(2 * plan.first.scribed)} across its corners",
            key="lathe.swing_over_bed",
            remedy=f"a swing of {show(ceil(2 * needed + SWING_CLEARANCE))}, and holding.beyond_rim to suit",
        )
    ]


def _brace_room(job: Job, holding: HoldingPlan, plan: MountingsPlan) -> list[Finding]:
    brace = plan.brace
    least = brace.block_inner + BLOCK_WALL + brace.hole / 2
    if brace.bolt_radius >= least - 1e-9:
        return []
    show = _show(job)
    board = ceil(holding.board_diameter + 2 * (least - brace.bolt_radius))
    return [
        job.finding(
            "no-room-for-blocks",
            f"between the rim and the edge of a board of {show(holding.board_diameter)} the braces' "
            f"{brace.bolt} bolts and blocks have no room",
            key="lathe.swing_over_bed",
            remedy=f"a board of {show(board)}: a swing of {show(board + SWING_CLEARANCE)}, and "
            f"holding.beyond_rim of at least {show(ceil(board - job.form.outer_diameter))}",
        )
    ]


def _brace_count(job: Job, holding: HoldingPlan, plan: MountingsPlan) -> list[Finding]:
    brace = plan.brace
    most = floor(pi / atan((brace.width + BRACE_GAP) / 2 / brace.tip))
    if holding.braces <= most:
        return []
    return [
        job.finding(
            "too-many-braces",
            f"{holding.braces} braces {_show(job)(brace.width)} wide run into each other at their fingers",
            key="bolts.braces",
            remedy=f"use at most {most}" if most >= 3 else "make the torus larger",
        )
    ]
