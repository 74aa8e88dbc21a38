"""Whether the blank holds the finished form: ring, thin edge, wall."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, degrees, tan

from geometry.bodies.torus import Blank, centre_play, largest_core, least_apothem, least_wood, wall_left
from geometry.bodies.tube import Tube
from geometry.hardware.hold_down import LEAST_ROOM
from geometry.records import replace
from geometry.statics.hoop import hole_stretched, rim_stretched
from jigs.asked.job import TorusJob
from jigs.asked.woods import BREAKS, DRIEST, WETTEST, movement, tangential_of
from jigs.measured.glued import ACROSS, GluedWedges, glued_wedges, stated_rings
from jigs.stages.blank.size import LEAST_INNER, margins
from jigs.words.findings import Finding

GIVES = {
    "segments": 3.0,
    "rings": 1.5,
}  # mm: strips so thin go with the wood beside them. Common practice, no source
LEAST_STRIP = 0.3  # mm: no thinner one is offered
MOST_TRUED = 2.0  # mm, sanded off an end of a half with glued rings. Common practice, no source
LEAST_LEFT = 0.5  # mm, of an allowance that can be asked for


def blank_findings(job: TorusJob, blank: Blank) -> list[Finding]:
    """The ring, its segments, its thin edge, its wall."""
    sizes = _glued(job, blank) if stated_rings(job.readings) else _ring_size(job, blank)
    found = [*sizes, *_short_segment(job, blank)]
    found += [*_strips(job, blank), *_crossed(job, blank)]
    return [*found, *_thin_edge(job, blank), *_wall(job, blank), *_seasons(job, blank)]


def closes(job: TorusJob, blank: Blank) -> bool:
    """Whether rings can be cut that close the torus with those that are glued already."""
    glued = _glued(job, blank) if stated_rings(job.readings) else []
    return not any(finding.code in ("glued-strips", "glued-rings") for finding in glued)


def least_ring(job: TorusJob, tube: Tube) -> float:
    """Apothem of the least ring that holds this tube and its allowance."""
    form = job.form
    reach = tube.beyond(form.turning_allowance)
    return least_apothem(form.major_radius, reach, form.wedge_rings, form.segments)[0]


def _glued(job: TorusJob, blank: Blank) -> list[Finding]:
    """Rings that are glued already, and what they ask of the others."""
    count, rings, show = stated_rings(job.readings), blank.wedge_rings, job.show
    if blank.ring_spacer:
        message = "no rings are planned round those that are glued already where strips stand between rings"
        remedy = "leave ring_spacer out, or [glued] out of the readings"
        return [job.finding("glued-strips", message, key="form.ring_spacer", remedy=remedy)]
    glued = glued_wedges(job, blank)
    if glued is None:
        message = f"the readings have {count} wedge rings glued, and {rings} close the torus"
        remedy = "count them again, or leave [glued] out of the readings"
        return [job.finding("glued-rings", message, key="form.wedge_rings", remedy=remedy)]
    if untrue := _untrue(job, blank, glued):
        return [untrue]
    form = job.form
    if min(margins(job, blank)) >= -1e-6:
        return []
    left = least_wood(blank, form.major_radius, form.tube)
    ring, middle, wood, allowed = (
        show(mm) for mm in (2 * blank.apothem, blank.centre, max(left, 0.0), form.turning_allowance)
    )
    message = (
        f"the glued rings, {ring} across flats with their middle {middle} from the axis, leave {wood} of wood round "
        f"the tube, and the allowance is {allowed}"
        + ("" if ACROSS in job.readings else ". Their width is the planned one: across-flats was not read")
    )
    some = f"use a turning_allowance of at most {job.at_most(left)}, or " if left > LEAST_LEFT else "make "
    remedy = f"{some}the tube thinner, or the torus of another diameter"
    return [job.finding("glued-short", message, key="form.turning_allowance", remedy=remedy)]


def _untrue(job: TorusJob, blank: Blank, glued: GluedWedges) -> Finding | None:
    """Rings with which truing their half takes more off an end than is sanded, or brings it too near for the form."""
    spare = least_wood(blank, job.form.major_radius, job.form.tube) - job.gauges.sanding_allowance
    trued, show = glued.trued(blank), job.show
    if trued.most <= MOST_TRUED and trued.shift <= max(0.0, spare):
        return None
    takes = f"truing their half to the axis takes {show(trued.most)} off an end"
    lost = f", and {show(trued.shift)} of the wood round the tube with it" if trued.shift > 0 else ""
    wide = glued.together > glued.share
    cure = "saw their ends" if wide else "saw them apart at a joint and put a thicker ring in,"
    return job.finding(
        "glued-half",
        f"the {glued.count} glued rings close {degrees(glued.together):.2f}°: {takes}{lost}",
        key="form.wedge_rings",
        remedy=f"measure again; or {cure} until they close {degrees(glued.share):g}°",
    )


def _ring_size(job: TorusJob, blank: Blank) -> list[Finding]:
    least = least_ring(job, job.form.tube)
    if blank.apothem >= least - 1e-9:
        return []
    return [
        job.finding(
            "tube-outside-ring",
            f"a ring {job.show(2 * blank.apothem)} across flats does not hold the tube and its allowance",
            key="form.ring_across_flats",
            remedy=f"make it at least {job.at_least(2 * least)}, or leave the key out",
        )
    ]


def _short_segment(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    least = max(job.form.least_segment, LEAST_ROOM)
    if blank.outer_edge >= least:
        return
    show = job.show
    fewer = range(blank.segments - 2, 4, -2)
    most = next((n for n in fewer if replace(blank, segments=n).outer_edge >= least), 0)
    yield job.finding(
        "short-segment",
        f"a segment's outer edge is {show(max(0.0, blank.outer_edge))}; the hold-down needs {show(least)}",
        key="form.segments",
        remedy=f"use at most {most} segments" if most >= 6 else "use a thicker tube",
    )


def _strips(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    """Strips that leave nothing of the segments round the core."""
    if not blank.spacer or blank.inner_edge >= LEAST_INNER:
        return
    show = job.show
    most = blank.spacer - (LEAST_INNER - blank.inner_edge) * cos(blank.mitre)
    core = blank.core_apothem + (LEAST_INNER - blank.inner_edge) / (2 * tan(blank.mitre))
    thinner = f"a spacer of at most {job.at_most(most)}, or " if most >= LEAST_STRIP else ""
    yield job.finding(
        "strips-fill-core",
        f"strips {show(blank.spacer)} thick leave {job.at_most(max(0.0, blank.inner_edge))} of a segment's inner edge; "
        f"{show(LEAST_INNER)} is the least",
        key="form.spacer",
        remedy=f"use {thinner}a core opening of at least {job.at_least(2 * core)}",
        wants={"form.spacer": most, "form.core_opening": 2 * core},
    )


def _crossed(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    """Strips whose long grain crosses wood that moves: thin ones give, thick ones shear off."""
    joints = (
        ("segments", "form.spacer", blank.spacer, blank.joint_depth),
        ("rings", "form.ring_spacer", blank.ring_spacer, 2 * blank.half_width),
    )
    show = job.show
    for where, key, thick, across in joints:
        if thick > GIVES[where]:
            moved = movement(across, _moves(job), DRIEST, WETTEST)
            yield job.warning(
                "strips-cross-grain",
                f"strips {show(thick)} thick between {where} are long grain across {show(across)} of wood, which moves "
                f"up to {show(moved)} there from {DRIEST:g} to {WETTEST:g} % of moisture; the strip does not, and so "
                "thick a one does not give",
                key=key,
                remedy=f"use at most {job.at_most(GIVES[where])}, and keep the work where the air changes little",
            )


def _moves(job: TorusJob) -> float:
    """Of the liveliest of the segments' woods: share of a width for each per cent of moisture."""
    plies = [ply.name for ply in job.layup.plies] if job.layup else []
    return max(map(tangential_of, plies or [name for ring in job.form.species for name in ring]))


def _thin_edge(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    if blank.thin_edge >= job.form.least_thin_edge:
        return
    thick_enough = (
        n for n in range(blank.wedge_rings - 2, 4, -2) if _thin_edge_of(job, n) >= job.form.least_thin_edge
    )
    most = next(thick_enough, 0)
    remedy = (
        f"use at most {most} wedge rings, or a larger hole"
        if most >= 6
        else "make the hole larger or the tube thinner"
    )
    yield job.finding(
        "thin-edge",
        f"the wedge rings' thin edge is {job.show(max(0.0, blank.thin_edge))}; the jaws need "
        f"{job.show(job.form.least_thin_edge)}",
        key="form.wedge_rings",
        remedy=remedy,
    )


def _thin_edge_of(job: TorusJob, wedge_rings: int) -> float:
    """The thin edge that this many wedge rings would have."""
    apothem, centre = ring_round(job, job.form.major_radius, wedge_rings)
    strips = job.form.ring_spacer
    return Blank(wedge_rings, job.form.segments, apothem, 0.0, centre, ring_spacer=strips).thin_edge


def ring_round(job: TorusJob, major: float, wedge_rings: int) -> tuple[float, float]:
    """Apothem and centre of the ring, the turner's own where that holds the torus, on another major radius."""
    form = job.form
    shape = (major, form.rough, wedge_rings, form.segments)
    apothem, centre = least_apothem(*shape)
    own = (form.ring_across_flats or 0.0) / 2
    return (own, sum(centre_play(*shape, own)) / 2) if own > apothem else (apothem, centre)


def _wall(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    form = job.form
    shape = (form.major_radius, form.tube, form.wedge_rings, form.segments, blank.centre)
    wall = wall_left(*shape, blank.core_apothem)
    if wall >= form.least_wall - 1e-9:
        return
    show = job.show
    most = 2 * largest_core(*shape, form.least_wall)
    remedy = f"use a core opening of at most {job.at_most(most)}" if most >= 1 else "use a thicker tube"
    yield job.finding(
        "thin-wall",
        f"a core {show(form.core_opening)} across leaves a wall of {show(max(0.0, wall))}, under the least wall of "
        f"{show(form.least_wall)}",
        key="form.core_opening",
        remedy=remedy,
    )


def _seasons(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    """A torus so fat that its hole cannot follow wood that swells, or its rim wood that shrinks.

    A layup's grain runs partly along the tube.
    """
    form, glued = job.form, (DRIEST + WETTEST) / 2
    core = blank.core_apothem / cos(blank.mitre)
    if job.layup is not None or core >= form.tube.wide:  # no wall is refused elsewhere
        return
    moves = _moves(job)
    damp = glued + BREAKS / (moves * hole_stretched(form.major_radius, form.tube))
    dry = glued - BREAKS / (moves * rim_stretched(form.major_radius, form.tube, core))
    stands = "a thinner tube, a larger hole or a wood that moves less stands more"
    if damp < WETTEST:
        yield job.warning(
            "hole-opens-in-damp",
            f"if its wood has {glued:g} % moisture when you glue it up, a torus this fat may split at its hole from "
            f"{damp:.1f} % on: it swells round the rim, and the hole cannot follow",
            key="form.tube_diameter",
            remedy=f"glue it up in air no drier than where it will hang, and keep it from damp; {stands}",
        )
    if dry > DRIEST:
        yield job.warning(
            "rim-opens-in-dry",
            f"if its wood has {glued:g} % moisture when you glue it up, a torus this fat may split at its rim from "
            f"{dry:.1f} % down: its rim shrinks most, and the wood about the hole holds it open",
            key="form.tube_diameter",
            remedy=f"glue it up in air no damper than where it will hang, and keep it from dry air; {stands}",
        )
