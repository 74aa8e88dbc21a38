"""Whether every mounting holds and is reached: flat, arcs, first board, braces."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, floor, pi

from geometry.blanks.flats import flat_after, sanded_for_flat
from geometry.bodies.torus import Blank
from geometry.hardware.fittings import bolt_diameter, called
from geometry.lathe.mountings import Fault, degrees_of, faults
from geometry.lathe.turning import SWING_CLEARANCE
from geometry.statics.holding import LOW_FRICTION
from geometry.statics.lathe_holding import TOOL_FORCE
from jigs.asked.job import TorusJob
from jigs.stages.held.strength import turned_pull
from jigs.stages.mountings.plan import BESIDE_CAP, HoldingPlan, MountingsPlan, most_sanded
from jigs.words.findings import Finding
from jigs.words.lengths import force_text, force_texts

BLOCK_WALL = 3.0  # least, from a brace's bolt hole to the block's inner end
BRACE_GAP = 2.0  # least, between neighbouring braces
LEAST_BEARING = 4.0  # of a brace's finger on the waste flat's outer half
SCRIBED_INSIDE = 5.0  # from the scribed circle to the first board's edge
CAP_WALL = 4.0  # least, of the cap round the centre bolt


def mountings_findings(
    job: TorusJob, blank: Blank, holding: HoldingPlan, plan: MountingsPlan
) -> list[Finding]:
    """The flat, the holding plan's arcs, the first board, the braces."""
    return [
        *_flat(job, blank),
        *_arcs(job, plan),
        *_board(job, holding, plan),
        *_brace_room(job, holding, plan),
        *_brace_count(job, holding, plan),
        *_brace_bearing(job, blank, plan),
        *_cap_room(job, holding, plan),
    ]


def _flat(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    least, most = job.workshop.holding.least_flat, most_sanded(job, blank)
    wanted = sanded_for_flat(blank.apothem, blank.segments, least)
    if wanted <= most + 1e-9:
        return
    show = job.show
    widest = job.at_most(flat_after(blank.apothem, blank.segments, most))
    yield job.finding(
        "flat-too-narrow",
        f"the flat glued to the first board is {show(blank.flat_width)} wide; sanded down to the finished "
        f"form's own allowance it is {widest}, and glue wants {show(least)}",
        key="holding.least_flat",
        remedy=f"a least flat of at most {widest}, a larger turning allowance, or a thicker tube",
    )


def _arcs(job: TorusJob, plan: MountingsPlan) -> Iterator[Finding]:
    found = faults(plan.mountings, plan.setting.least_overlap)
    if not found:
        return
    room = job.show(plan.setting.tool_room)
    yield job.finding(
        "arc-not-reached",
        "; ".join(dict.fromkeys(_fault_text(fault, plan) for fault in found)) + f" (tool room {room})",
        key="holding.tool_room",
        remedy="less tool room, a larger turning allowance or a thicker tube",
    )


def _fault_text(fault: Fault, plan: MountingsPlan) -> str:
    start, end = degrees_of(fault.arc)
    arc = f"from {start:.0f}° to {end - 360 if end > 360 else end:.0f}° round the tube"
    match fault.kind:
        case "gap" if fault.overlap < 0:
            return (
                f"{arc} nothing is turned, neither in mounting {fault.first} nor in mounting {fault.second}"
            )
        case "gap":
            least = plan.setting.least_overlap * 180 / pi
            overlap = floor(fault.overlap * 1800 / pi) / 10  # never shown as the least itself
            both = f"mountings {fault.first} and {fault.second}"
            return f"{both} overlap by {overlap:.1f}° only, {arc}, less than {least:g}°"
        case "covered":
            return f"in mounting {fault.first} the {fault.second} covers what you turn there, {arc}"
        case "not-finished":
            return f"in mounting {fault.first} the {fault.second} touches what is not finished yet, {arc}"
        case "turned-away":
            return f"in mounting {fault.first} the {fault.second} touches what has been turned away, {arc}"


def _board(job: TorusJob, holding: HoldingPlan, plan: MountingsPlan) -> Iterator[Finding]:
    needed = plan.first.scribed + SCRIBED_INSIDE
    if holding.board_diameter / 2 >= needed:
        return
    show, (key, remedy) = job.show, _larger(job, 2 * needed)
    yield job.finding(
        "board-too-small",
        f"a board of {show(holding.board_diameter)} is too small for the flat that it is glued to, "
        f"{show(2 * plan.first.scribed)} across its corners",
        key=key,
        remedy=remedy,
    )


def _larger(job: TorusJob, board: float) -> tuple[str, str]:
    """The key that keeps a board from being so large, and what would let it."""
    beyond, swing = max(0.0, board - job.form.outer_diameter), board + SWING_CLEARANCE
    wish, own = job.workshop.holding.beyond_rim, job.workshop.lathe.swing_over_bed
    asked = [f"a holding.beyond_rim of at least {job.at_least(beyond)}"] if wish < beyond else []
    swung = [f"a swing of {job.at_least(swing)}"] if own < swing else []
    return "holding.beyond_rim" if asked else "lathe.swing_over_bed", ", and ".join([*asked, *swung])


def _brace_room(job: TorusJob, holding: HoldingPlan, plan: MountingsPlan) -> Iterator[Finding]:
    brace = plan.brace
    least = brace.block_inner + BLOCK_WALL + brace.hole / 2
    if brace.bolt_radius >= least - 1e-9:
        return
    key, remedy = _larger(job, holding.board_diameter + 2 * (least - brace.bolt_radius))
    yield job.finding(
        "no-room-for-blocks",
        f"between the rim and the edge of a board of {job.show(holding.board_diameter)} the braces' "
        f"{called(brace.bolt)} bolts and blocks have no room",
        key=key,
        remedy=remedy,
    )


def _brace_count(job: TorusJob, holding: HoldingPlan, plan: MountingsPlan) -> Iterator[Finding]:
    brace = plan.brace
    most = floor(pi / atan((brace.width + BRACE_GAP) / 2 / brace.tip))
    if holding.braces <= most:
        return
    yield job.finding(
        "too-many-braces",
        f"{holding.braces} braces {job.show(brace.width)} wide run into each other at their fingers",
        key="bolts.braces",
        remedy=f"use at most {most} braces" if most >= 3 else "make the torus larger",
    )


def _brace_bearing(job: TorusJob, blank: Blank, plan: MountingsPlan) -> Iterator[Finding]:
    """Few wedge rings bring the flat's middle well inside the tube's."""
    short = LEAST_BEARING - plan.brace.bearing
    if short <= 1e-9:
        return
    show, wanted = job.show, plan.waste_flat + 2 * short
    wider = wanted <= flat_after(blank.apothem, blank.segments, most_sanded(job, blank))
    yield job.finding(
        "braces-bear-little",
        f"a brace's finger, its end over the middle of the tube, touches only "
        f"{show(max(0.0, plan.brace.bearing))} of the waste flat, {show(LEAST_BEARING)} holds",
        key="holding.least_flat" if wider else "form.wedge_rings",
        remedy=f"use a least flat of at least {job.at_least(wanted)}" if wider else "use more wedge rings",
    )


def _cap_room(job: TorusJob, holding: HoldingPlan, plan: MountingsPlan) -> Iterator[Finding]:
    """The hole is turned in mounting C with the capped centre bolt in it."""
    short = bolt_diameter(holding.bolt) + 2 * CAP_WALL - plan.cap
    if short <= 1e-9:
        return
    show = job.show
    yield job.finding(
        "no-room-beside-bolt",
        f"in mounting C the hole is turned round the centre bolt ({called(holding.bolt)}) and the cap on its "
        f"end; that leaves the tool less than {show(BESIDE_CAP)}",
        key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
        remedy=f"use a hole of at least {job.at_least(job.form.hole_diameter + short)}",
    )


def held_findings(job: TorusJob, plan: MountingsPlan) -> list[Finding]:
    """Each mounting against the tool, its bolts drawn as hard as a hand does, and the wood against the bolts."""
    return _held_findings(job, plan) or _spared_findings(job, plan)


def _spared_findings(job: TorusJob, plan: MountingsPlan) -> list[Finding]:
    """A thread may turn lightly or hard: what surely holds against the tool must surely spare the wood."""
    return [
        job.finding(
            "bolt-opens-joints" if drawn.mounting != "C" else "brace-bends",
            f"in mounting {drawn.mounting} a bolt has to pull with {force_text(drawn.pull, job.unit)}, and a nut "
            f"turned so far pulls up to {pulls}; "
            + ("the joints of the torus take " if drawn.mounting != "C" else "a brace's strap takes ")
            + stands,
            key="form.core_opening" if drawn.mounting != "C" else "boards.thickness",
            remedy="use a smaller core, or a thicker tube"
            if drawn.mounting != "C"
            else "use thicker boards, or more braces",
        )
        for drawn in plan.drawn
        if not drawn.safe
        for stands, pulls in [force_texts(drawn.most_pull, turned_pull(drawn.pull), job.unit)]
    ]


def _held_findings(job: TorusJob, plan: MountingsPlan) -> list[Finding]:
    return [
        job.finding(
            "mounting-not-held",
            f"in mounting {held.mounting} a tool's push of {force_text(TOOL_FORCE, job.unit)} and the work's weight "
            f"take more than the {force_text(held.most, job.unit)} with which a hand draws a bolt",
            key="form.hole_diameter" if job.form.friction >= LOW_FRICTION else "form.friction",
            remedy="make its tube thinner",
        )
        for held in plan.held
        if not held.held
    ]
