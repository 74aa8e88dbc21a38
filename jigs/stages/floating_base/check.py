"""Whether a floating base has wood enough round it, under it and over it."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi, sin

from geometry.bodies.floating_base import LEAST_LEDGE, FloatingBase, widest_opening
from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob, by_ring
from jigs.words.findings import Finding

# Common practice, no source; mm.
LEAST_TONGUE, LEAST_LIP, LEAST_WALL = 3.0, 3.0, 4.0
LEAST_END = 3.0  # of a segment beside the opening
LEAST_SHARE = 0.5  # of the foot, that the opening is across


def floating_findings(job: VesselJob, section: Section, base: FloatingBase | None) -> Iterator[Finding]:
    """Everything about it; a note where the job states a disc and asks for none."""
    stated = next((key for key in job.places if key.startswith("floating.")), None)
    if base is None and stated:
        remedy = 'leave it out, or use base = "floating"'
        yield job.note("no-floating", "no base floats, so it has no effect", key=stated, remedy=remedy)
    if base is not None:
        yield from _heights(job, base)
        yield from _around(job, section, base)
        yield from _inside(job, section, base)
        yield from _upright(job)


def _heights(job: VesselJob, base: FloatingBase) -> Iterator[Finding]:
    """The ledge under the tongue, the tongue, and the ring above that holds it down."""
    show, allowance = job.show, job.rings.turning_allowance
    if base.ledge < LEAST_LEDGE:
        message = f"the ledge under the floating base is {show(base.ledge)} thick, and {show(LEAST_LEDGE)} is the least"
        remedy = f"a hollow in the foot at least {job.at_least(LEAST_LEDGE)} deep"
        yield job.finding("floating-ledge", message, key="foot.recess_depth", remedy=remedy)
    least = base.ledge + (base.depth - base.tongue_thickness) + LEAST_TONGUE
    most = base.floor - LEAST_LIP
    if least <= base.joint <= most:
        return
    if least > most:
        message = f"a floor of {show(base.thickness)} is too thin for a tongue and a lip over it"
        remedy = f"a floor of at least {job.at_least(base.thickness + least - most)}"
        yield job.finding("floating-floor", message, key="wall.floor", remedy=remedy)
        return
    low, high = job.at_least(least + allowance), job.at_most(most + allowance)
    message = (
        f"the groove of the floating base ends at the top of ring 1, height {show(base.joint)}: that leaves its tongue "
        f"{show(base.tongue_thickness)} and the ring above {show(base.lip)} over it"
    )
    yield job.finding(
        "floating-joint", message, key="rings.heights", remedy=f"make ring 1 {low} to {high} high"
    )


def _around(job: VesselJob, section: Section, base: FloatingBase) -> Iterator[Finding]:
    """The wall outside the groove, which ring 2 is glued to."""
    show, least = job.show, wall_wanted(job)
    if not base.ledge < base.joint < section.height:
        return
    left = section.outer.radii(base.ledge, base.joint)[0] - base.groove
    if left < least - 1e-9:
        most = base.groove + left - least
        opening = widest_opening(most, base.shrinks, base.swells, base.closes, base.opens)
        yield job.finding(
            "floating-wall",
            f"the groove of the floating base, {show(2 * base.groove)} across, leaves {show(left)} of wall outside it; "
            f"{show(least)} is the least",
            key="foot.recess_diameter",
            remedy=f"a hollow in the foot at most {job.at_most(2 * opening)} across"
            if opening > 0
            else "a wider foot",
        )


def wall_wanted(job: VesselJob) -> float:
    """Outside the groove."""
    return max(LEAST_WALL, job.wall.least, job.rings.least_glue)


def _inside(job: VesselJob, section: Section, base: FloatingBase) -> Iterator[Finding]:
    """The opening: within the floor's flat, and wide enough for segments that end beside it."""
    show, flat = job.show, flat_radius(section)
    if base.opening > flat + 1e-9:
        yield job.finding(
            "floating-flat",
            f"the floating base is {show(2 * base.opening)} across inside, and the floor is flat for {show(2 * flat)}",
            key="foot.recess_diameter",
            remedy=f"a hollow in the foot at most {job.at_most(2 * flat)} across, or a smaller inner_corner",
        )
    count = max(by_ring(job.rings.segments, number) for number in (1, 2))
    ends = LEAST_END / (2 * sin(pi / count)) + job.rings.turning_allowance
    least = max(ends, LEAST_SHARE * section.foot_radius)
    if base.opening < least - 1e-9:
        why = (
            f"round it {count} segments end in points"
            if base.opening < ends
            else "that is under half of the foot"
        )
        yield job.finding(
            "floating-narrow",
            f"the opening of the floating base is {show(2 * base.opening)} across, and {why}",
            key="foot.recess_diameter",
            remedy=f"a hollow in the foot at least {job.at_least(2 * least)} across",
        )


def flat_radius(section: Section) -> float:
    """Of the floor's level middle."""
    (_, low, bulge), (x, y, _) = section.inner.vertices[:2].tolist()
    return x if not bulge and abs(y - low) < 1e-6 else 0.0


def _upright(job: VesselJob) -> Iterator[Finding]:
    if {1, 2} & set(job.rings.upright or ()):
        message = "rings 1 and 2 hold the floating base between them, so neither is one solid piece"
        yield job.finding("floating-upright", message, key="rings.upright", remedy="leave them out there")
