"""Where wood moves against wood: a wide disc, a disc glued across the grain; a rim's joint; patterns."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from geometry.bodies.section import Section, least_wall
from geometry.statics.hoop import poked
from jigs.asked.defaults import WIDE_DISC
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import BREAKS, DRIEST, SPECIES, WETTEST, movement, tangential_of
from jigs.stages.held.strength import SAFETY, SIDE
from jigs.stages.stack.check import segmented_base
from jigs.stages.stack.plan import Joint, Layer, StackPlan
from jigs.words.findings import Finding
from jigs.words.lengths import force_text, stress_texts
from jigs.words.quantity import ring_list

GOOD_RIM = 1.5  # of least_glue, at the uppermost joint: common practice, no source
# Wood of one kind differs across its grain by a quarter (coefficient of variation: USDA Wood Handbook, from memory), so
# that one piece of twenty breaks at three fifths of what its kind stands. SIDE itself is what a tool pushes with: a
# third of its cutting force, `lathe_holding.CATCH`. Last cuts and sanding push less.
WEAK = 0.6
LEAST_COUNT, MOST_COUNT = 4, 96  # of segments, as the key allows


def base_findings(
    job: VesselJob, section: Section, stack: StackPlan, thinnest: tuple[float, float]
) -> list[Finding]:
    """Warnings and notes; none of them stops a job. `thinnest` is the wall, and its height."""
    return [
        *_wide_disc(job, section, stack),
        *_staves(job, stack),
        *_thin_rim(job, stack),
        *_poked(job, section, stack, *thinnest),
        *_patterns(job, stack),
    ]


def _wide_disc(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """The widest solid disc, as finished, and what is glued across its grain."""
    discs = [layer for layer in stack.layers if layer.kind == "disc" and layer.ring.top > 0.0]
    disc = max(discs, key=lambda layer: _finished(section, layer), default=None)
    if disc is None or (width := _finished(section, disc)) <= WIDE_DISC[job.unit]:
        return
    changes = _changes(job, width, disc.species[0])
    yield job.warning(
        "disc-moves",
        f"the solid disc of ring {disc.number} is {job.show(width)} across and {changes}"
        + _crossed(job, stack, disc),
        key="rings.base",
        remedy=_instead(job, section, stack),
    )


def _staves(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    """The widest joint of staves, which move round as they swell, with a ring, whose grain runs round, or a disc."""
    staves = next((layer for layer in stack.layers if layer.kind == "staves"), None)
    alike = {layer.number for layer in stack.layers if layer.upright}
    beside = [
        one
        for one in stack.joints
        if staves and staves.number in (one.lower, one.upper) and not alike & {one.lower, one.upper}
    ]
    joint = max(beside, key=lambda found: found.outer, default=None)
    if staves is None or joint is None or 2 * joint.outer <= WIDE_DISC[job.unit]:
        return
    middle, wood = joint.outer + joint.inner, max(staves.species, key=tangential_of)
    ring, across = joint.lower + joint.upper - staves.number, job.show(2 * joint.outer)
    disc = any(layer.kind == "disc" for layer in stack.layers if layer.number == ring)
    still = (
        "the disc hardly does along its grain" if disc else "the ring, whose grain runs round, hardly does"
    )
    yield job.warning(
        "staves-move",
        f"the staves are {across} across where ring {ring} is glued to them. Round their middle they "
        f"{_changes(job, middle, wood, 'move')}, and {still}",
        key="staves",
        remedy="use rings in place of the staves, or keep it where the air stays even",
    )


def _crossed(job: VesselJob, stack: StackPlan, disc: Layer) -> str:
    """The widest joint between a disc and a ring: half of its segments lie across the grain, all where it is upright.

    Staves move as an upright disc does.
    """
    pieced = {
        layer.number: layer.kind
        for layer in stack.layers
        if layer.kind != "disc" and not (disc.upright and layer.kind == "staves")
    }
    joints = [
        joint
        for joint in stack.joints
        if disc.number in (joint.lower, joint.upper) and pieced.keys() & {joint.lower, joint.upper}
    ]
    if not joints:
        return ""
    joint = max(joints, key=lambda found: found.outer)
    other = joint.upper if joint.lower == disc.number else joint.lower
    across = job.show(2 * joint.outer)
    glued = f"; ring {other} is glued to it {across} across, "
    if pieced[other] == "staves":
        return f"{glued}of staves, which move all round; along its grain the disc hardly does"
    return f"{glued}{'all' if disc.upright else 'half'} of its segments across its grain" + _splits(disc)


def _splits(disc: Layer) -> str:
    """What a ring much stiffer than its disc does, as most are: wood along the grain is STIFFER than across it."""
    dries = BREAKS / max(tangential_of(name) for name in disc.species)
    return f". Held fast by it, the disc may split once it is {dries:.1f} % drier than you glue it"


def _instead(job: VesselJob, section: Section, stack: StackPlan) -> str:
    """What does without a disc across the grain, where that was found to work."""
    return segmented_base(job, section, stack) or "make the foot narrower"


def _finished(section: Section, layer: Layer) -> float:
    """Diameter of what is left of a disc."""
    low, high = max(0.0, layer.ring.bottom), min(section.height, layer.ring.top)
    return 2 * section.outer.radii(low, high)[1]


def moves(width: float, species: str) -> float:
    """By how much a width across the grain changes between 6 and 14 % moisture, mm."""
    return movement(width, tangential_of(species), DRIEST, WETTEST)


def _changes(job: VesselJob, width: float, wood: str, verb: str = "moves") -> str:
    guess = "" if wood in SPECIES else ", as the liveliest wood, overcup oak"
    much = job.show(moves(width, wood))
    return f"{verb} by up to {much} with the seasons (6 to 14 % moisture{guess})"


def _thin_rim(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    """The uppermost joint, which the rim hangs on; what is under least_glue is refused with the other joints."""
    top: Joint | None = stack.joints[-1] if stack.joints else None
    least = job.rings.least_glue
    if top is None or not least <= top.finished < GOOD_RIM * least:
        return
    show = job.show
    yield job.warning(
        "thin-rim-joint",
        f"the rim's ring {top.upper} hangs on a joint {show(top.finished)} wide, at height {show(top.height)}",
        key="wall",
        remedy=f"make the wall {job.at_least(GOOD_RIM * least - top.finished)} thicker there, or least_glue smaller "
        "where thin joints have held",
    )


def _poked(
    job: VesselJob, section: Section, stack: StackPlan, wall: float, height: float
) -> Iterator[Finding]:
    """A wall that a push at one place breaks: the thinnest, of weaker rings, of staves, at their rim."""
    loose = section.through or stack.floating is not None  # then a waste block holds the foot
    deep = section.height - (0.0 if loose else section.inner.bottom)

    def over(thick: float, height: float, layer: Layer, free: bool) -> float:
        """Its stress over what breaks a weak piece of its wood."""
        staves = layer.kind == "staves"
        radius = section.outer.radius_at(height) if staves else section.rim_radius
        return poked(SIDE, thick, radius, deep, staves, free) / (WEAK * SAFETY * layer.stands(job))

    places = _places(job, section, stack, wall, height)
    wall, height, layer, free = max(places, key=lambda at: over(*at))
    if (much := over(wall, height, layer, free)) <= 1.0 + 1e-9:
        return
    stands, thick, where = WEAK * SAFETY * layer.stands(job), wall, "it there"
    for _ in range(40):  # as it grows thicker it may feel the floor more
        thick *= sqrt(over(thick, height, layer, free))
    if layer.kind == "staves":
        where = "the staves there across their grain"
    elif much * stands > 1.001 * poked(SIDE, wall):
        where = f"it at the {'foot' if loose else 'floor'}, only {job.show(deep)} under the rim,"
    has, most = stress_texts(much * stands, stands, job.unit)
    yield job.warning(
        "poked-wall",
        f"the wall is {job.show(wall)} at height {job.show(height)}: a push of {force_text(SIDE, job.unit)} at one "
        f"place, of a tool or a hand, bends {where} with {has}, and weak wood or glue of its kind breaks at {most}",
        key="inside" if job.inside else "wall",
        remedy=f"make it at least {job.at_least(thick)}, or let nothing press on it: sand it with the lathe stopped, "
        "fingers behind it",
    )


def _places(
    job: VesselJob, section: Section, stack: StackPlan, wall: float, height: float
) -> Iterator[tuple[float, float, Layer, bool]]:
    """Walls, their heights and layers, and whether they are a free rim."""
    layers, inner = stack.layers, section.inner
    thin = next((one for one in layers if height <= one.ring.top), layers[-1])
    yield wall, height, thin, False
    for one in layers:
        low, high = max(one.ring.bottom, inner.bottom), min(one.ring.top, section.height)
        staves = one.kind == "staves"
        if low < high and (staves or one.stands(job) < thin.stands(job)):
            yield *least_wall(section.outer, inner.between(low, high)), one, False
            if staves and one is layers[-1]:
                near = inner.between(max(low, high - 2.0 * wall), high)
                yield *least_wall(section.outer, near), one, True


def _patterns(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    """Rings and staves round which a list of woods does not come out even."""
    uneven: dict[tuple[int, int], list[int]] = {}
    for layer in stack.layers:
        if layer.kind == "disc":
            continue
        staves = layer.kind == "staves" and job.staves
        names = job.staves.species if staves and job.staves else job.rings.woods(layer.number)
        count = layer.ring.segments
        if count % len(names):
            uneven.setdefault((count, len(names)), []).append(layer.number)
    for (count, woods), numbers in uneven.items():
        yield job.note(
            "open-pattern",
            f"{woods} woods do not repeat evenly round the {count} pieces of {ring_list(numbers)}",
            key="rings.species",
            remedy=f"use {_nearest_counts(count, woods)} pieces, or another list",
        )


def _nearest_counts(count: int, woods: int) -> str:
    """The multiples next to a count that the key allows."""
    below, above = count // woods * woods, (count // woods + 1) * woods
    return " or ".join(str(n) for n in (below, above) if LEAST_COUNT <= n <= MOST_COUNT)
