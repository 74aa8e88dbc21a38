"""Whether it all stands a push at the rim, and which solid pieces should have their grain along the axis."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.bodies.section import Section
from geometry.records import replace
from geometry.statics.hoop import bending, least_diameter
from jigs.asked.undershot import undershot
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import SAFETY, SIDE
from jigs.stages.lathe.uneven import tipping
from jigs.stages.solids.slim import at_joint, bent_at, slimmest, too_slim_across
from jigs.stages.stack.plan import Slim, StackPlan
from jigs.words.findings import Finding
from jigs.words.lengths import force_text, stress_texts

AT_END = 0.05  # mm


def stem_findings(job: VesselJob, section: Section, stack: StackPlan) -> list[Finding]:
    """A place too slim for a push at the rim; rings that are to be upright and are none."""
    return [
        *_slim(job, section, stack),
        *_slim_foot(job, section, stack),
        *_slim_block(job, section, stack),
        *_no_such_ring(job, stack),
    ]


def _slim_foot(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Without a floor the lowest ring is glued to the waste block by what stands round the hollow alone."""
    if not section.through:
        return
    lowest, opening = stack.layers[0].ring, section.inner.start[0]
    tips = tipping(job, stack.layers)(lowest.bottom) > 1.0
    stress = bending(1.0, bent_at(job, section, stack.layers)(lowest.bottom), lowest.outer, opening)
    if stress > (stands := stack.layers[0].stands(job)):
        has, most = stress_texts(stress, stands, job.unit)
        yield job.finding(
            "slim-foot",
            f"hollowed right through, ring 1 bends its joint to the waste block with {has} at a push of "
            f"{force_text(SIDE, job.unit)} at the rim{', the weight and heavy sides' if tips else ' and the weight'}; "
            f"{most} is the most for it",
            key="wall.through",
            remedy="make the wall thicker, the vessel lower or its foot wider",
        )


def _slim_block(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """The waste block is no wider than the lowest ring, and its joint may need more."""
    lowest, opening = stack.layers[0].ring, stack.floating.base.opening if stack.floating else 0.0
    moment, stands = at_joint(job, section, stack.layers), stack.layers[0].stands(job)
    stress, breaks = bending(1.0, moment, lowest.outer, opening), SAFETY * stands
    if section.through or stress <= stands:
        return
    force, (has, most) = force_text(SIDE, job.unit), stress_texts(stress, stands, job.unit)
    sides = ", heavy sides" if tipping(job, stack.layers)(lowest.bottom) > 1.0 else ""
    # A little more, for what the wider foot weighs.
    wider = 1.02 * least_diameter(1.0, moment, stands) - 2 * job.rings.turning_allowance
    steady = "let a steady rest carry the rim whenever the tailstock is away, or " if stress <= breaks else ""
    yield job.finding(
        "slim-block",
        f"the waste block is as wide as ring 1, {job.show(2 * lowest.outer)}: the weight{sides} and a push of "
        f"{force} at the rim bend its joint with {has}; {most} is the most for it",
        key="profile",
        remedy=f"{steady}make the foot at least {job.at_least(wider)} across",
        severity="refused" if stress > breaks else "warning",
    )


def _slim(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Refused where clear wood, or the joint, would break, a warning before that."""
    slim = stack.slimmest
    if slim is None or slim.stress <= slim.allowed:
        return
    breaks = slim.stress / slim.allowed > SAFETY
    ways = _thicker(job, slim, slim.wall, breaks) if slim.wall else _upright(job, section, stack)
    yield job.finding(
        "slim-wall" if slim.wall else "slim-stem",
        _weak(job, slim, stack)
        + (f", and {'it' if slim.joint else 'clear wood'} would break there" if breaks else "")
        + undershot(job, slim.height),
        key="wall" if slim.wall else "rings.upright",
        remedy=", or ".join(
            [*ways, f"make it at least {job.at_least(slim.least)} {'across' if slim.wall else 'thick'} there"]
        ),
        severity="refused" if breaks else "warning",
    )


def _thicker(job: VesselJob, slim: Slim, wall: float, breaks: bool) -> list[str]:
    """A wall that stands it, in as wide a waist; none where not even solid wood does."""
    steady = [] if breaks else ["let a steady rest carry the rim whenever the tailstock is away"]
    outer = slim.diameter / 2
    more = 1.15 * slim.stress / slim.allowed  # for what a thicker wall above it weighs
    hollow = outer**4 - (outer**4 - (outer - wall) ** 4) * more
    if hollow <= 0.0:
        return steady
    return [*steady, f"make the wall at least {job.at_least(outer - hollow**0.25)} thick there"]


def _upright(job: VesselJob, section: Section, stack: StackPlan) -> list[str]:
    rings = _upright_rings(job, section, stack)
    return _one_ring(job, section, stack) if rings is None else [f"use upright = {list(rings)} in [rings]"]


def _weak(job: VesselJob, slim: Slim, stack: StackPlan) -> str:
    """Where it is weak, wood or a joint, how hard it is bent, and what that place should bear."""
    show, push = job.show, force_text(SIDE, job.unit)
    stress, most = stress_texts(slim.stress, slim.allowed, job.unit)
    heavy = tipping(job, stack.layers)(slim.height) > 1.0
    loads = ", the weight above and heavy sides" if heavy else " and the weight above"
    bends = f"a push of {push} at the rim{loads} bend it with {stress}"
    if slim.joint is None:
        wall = f"across and its wall {show(slim.wall)} " if slim.wall else ""
        return (
            f"ring {slim.ring} is {show(slim.diameter)} {wall}thick, {_place(job, slim)}: {bends}; {most} is the most "
            f"for it"
        )
    lower, upper = sorted((slim.ring, slim.joint))
    return (
        f"the joint of rings {lower} and {upper} is {show(slim.diameter)} thick, {_place(job, slim)}: "
        f"{bends}; {most} is the most for end grain glued to the next ring"
    )


def _place(job: VesselJob, slim: Slim) -> str:
    """Heights begin where the waste block is: at a vessel's foot, at a lid's top."""
    foot = job.called.foot
    return f"at the {foot}" if slim.height < AT_END else f"{job.show(slim.height)} from the {foot}"


def _one_ring(job: VesselJob, section: Section, stack: StackPlan) -> list[str]:
    """A ring that keeps its joints out of the slim part, where it is worth one."""
    span = too_slim_across(job, section, stack.layers)
    if span is None or span[0] <= 0.0:
        return []
    low, high = job.at_most(span[0]), job.at_least(span[1])
    return [
        f"let one ring of heights reach from {low} or lower to {high} or higher over the foot, and name it in upright"
    ]


def _upright_rings(job: VesselJob, section: Section, stack: StackPlan) -> tuple[int, ...] | None:
    """The rings that have to be upright for all to stand the push; None where that is not enough."""
    layers, chosen = stack.layers, list(job.rings.upright or ())
    while (slim := slimmest(job, section, layers)) is not None and slim.stress > slim.allowed:
        if slim.ring in chosen:
            return None
        chosen.append(slim.ring)
        layers = tuple(replace(a, upright=a.upright or a.number == slim.ring) for a in layers)
    return tuple(sorted(chosen))


def _no_such_ring(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    solid = [layer.number for layer in stack.layers if layer.upright]
    for number in job.rings.upright or ():
        if number not in solid:
            message = f"ring {number} cannot be one solid piece: the vessel has {len(stack.layers)} rings"
            staves = any(layer.kind == "staves" for layer in stack.layers)
            yield job.finding(
                "no-such-ring",
                message + (", the staves among them" if staves else ""),
                key="rings.upright",
                remedy=f"leave {number} out",
            )
