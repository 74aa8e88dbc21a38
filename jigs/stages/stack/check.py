"""Whether the rings hold the vessel, are glued well enough, fit the lathe, and close over the middle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from geometry.blanks.glue_width import open_face
from geometry.bodies.section import Section
from geometry.lathe.turning import SWING_CLEARANCE
from geometry.records import replace
from jigs.asked.undershot import undershot
from jigs.asked.vessel_job import VesselJob
from jigs.stages.stack.layers import FACED, LEAST_RIM, THINNEST, layer_of, least_plug
from jigs.stages.stack.plan import Joint, Layer, StackPlan
from jigs.words.findings import Finding, Refused

HAIR = 0.05  # mm clear of the joint
SLIVER = 0.5  # of a ring's height: a floor that reaches less far into it was hardly meant to


def middle_findings(job: VesselJob, section: Section, stack: StackPlan) -> list[Finding]:
    """Warnings and notes; none of them stops a job."""
    return [*_sliver_discs(job, section, stack), *_points(job, section, stack)]


def _sliver_discs(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Rings that close over the middle only because the allowance just reaches past a joint or across a neck."""
    show, floor, allowance = job.show, section.inner.bottom, stack.allowance
    for lower, layer in pairwise(stack.layers):
        if layer.upright or not _closed(layer):
            continue
        what = f"ring {layer.number} is " + (
            "a solid disc" if layer.kind == "disc" else "of segments that meet in the middle"
        )
        over, across = floor + allowance - layer.ring.bottom, show(2 * layer.ring.outer)
        if over < -HAIR:
            yield job.note(
                "closed-neck",
                f"{what}, {across} across: the neck at height {show(layer.ring.bottom)} is no wider than the allowance",
                key="rings.turning_allowance",
                remedy="widen the neck, or bore the ring before it is glued on",
            )
        elif over < SLIVER * layer.ring.height:
            higher = job.at_least(lower.ring.height + over + HAIR)
            yield job.warning(
                "closed-by-allowance",
                f"{what}, {across} across, though the floor ({show(floor)}) and its allowance ({show(allowance)}) "
                f"reach only {show(over)} into it",
                key="rings.heights",
                remedy=f"make ring {lower.number} at least {higher} high" + _thinner(job, section, over),
            )


def _thinner(job: VesselJob, section: Section, over: float) -> str:
    """The floor that keeps to the ring below, where it is thick enough."""
    left = section.floor_thickness - over - HAIR
    if job.inside or left < job.wall.least:
        return ""
    return f", or the floor at most {job.at_most(left)}"


def _closed(layer: Layer) -> bool:
    return layer.kind == "disc" or (layer.kind == "segments" and (not layer.ring.core or layer.plug > 0))


def _points(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Segments that run to the axis, and a plug that would spare that; it was tried."""
    rings = [layer for layer in stack.layers if layer.kind == "segments" and not layer.ring.core]
    if job.rings.core_plug and not any(layer.plug for layer in stack.layers):
        yield job.note(
            "no-core",
            "no ring of segments meets in the middle, so core_plug has no effect",
            key="rings.core_plug",
            remedy='leave it out, or use base = "segmented"',
        )
    if not rings:
        return
    count = max(layer.ring.segments for layer in rings)
    plug = job.at_least(least_plug(count))
    tried = replace(job, rings=replace(job.rings, core_plug=least_plug(count) + 0.5))
    numbers = ", ".join(str(layer.number) for layer in rings)
    yield job.warning(
        "points",
        f"the segments of ring{'s' if len(rings) > 1 else ''} {numbers} end in points 0 wide that have to meet in the "
        "middle",
        key="rings.core_plug",
        remedy=f"use a core_plug of at least {plug}"
        if _layers(tried, section, rings)
        else "use fewer segments there",
    )


def segmented_base(job: VesselJob, section: Section, stack: StackPlan) -> str | None:
    """How rings that are discs are made of segments instead, as it was tried; None where that does not work."""
    discs = [layer for layer in stack.layers if layer.kind == "disc" and not layer.upright]
    tried = replace(job, rings=replace(job.rings, base="segmented", core_plug=None))
    made = _layers(tried, section, discs)
    if not made or not all(layer.plug for layer in made):
        return None
    plugs = " or ".join(dict.fromkeys(job.show(layer.plug) for layer in made))
    without = "" if job.rings.core_plug is None else ", core_plug left out"
    return f'use base = "segmented"{without}: its core plug is {plugs} across'


def _layers(job: VesselJob, section: Section, rings: Sequence[Layer]) -> list[Layer]:
    """These rings as another job has them; none where one of them cannot be made."""
    try:
        return [layer_of(job, section, layer.number, layer.ring.bottom, layer.ring.height) for layer in rings]
    except Refused:
        return []


SOUND_FACE = 8.0  # mm, along the circumference, of a glue face in an open ring: common practice, no source
BRICKS = "turn them by half a segment, or leave turn out"
LEAST_GAP = 1.0  # mm: a narrower gap is none
THIN_RIM = 5.0  # mm of the top ring left after facing
THIN_RING = 5.0  # mm: a ring planed thinner than this to end under staves


def staves_findings(job: VesselJob) -> Iterator[Finding]:
    """Staves that stand where there is no hollow; said before anything is fitted."""
    wish, height = job.staves, job.outside.profile.end[1]
    if wish is None:
        return
    if wish.low >= min(wish.high, height):
        most = job.at_most(min(wish.high, height) - 1)
        yield job.finding("no-staves", "the staves end where they begin, or over the rim", key="staves.low",
                          remedy=f"begin them at {most} or lower")  # fmt: skip


def stack_findings(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """Everything about the stack."""
    yield from _swing(job, stack)
    yield from _ends(job, section, stack)
    yield from _planed(job, stack)
    for joint in stack.joints:
        yield from _joint(job, joint)
        yield from _bridge(job, stack, joint)
    yield from _faces(job, section, stack)
    yield from _features(job, stack)


def _swing(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    swing, across = job.workshop.lathe.swing_over_bed, 2 * stack.largest_radius
    needed = across + SWING_CLEARANCE
    if needed > swing:
        blank, lathe, clear = (job.show(size) for size in (across, swing, SWING_CLEARANCE))
        message = f"the blank turns {blank} across; the lathe gives {lathe} less {clear} of clearance"
        remedy = f"use a lathe with a swing of at least {job.at_least(needed)}, or a smaller vessel"
        yield job.finding(
            "swing",
            message,
            key="lathe.swing_over_bed",
            remedy=remedy,
            wants={"lathe.swing_over_bed": needed},
        )


def _ends(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    first, last = stack.layers[0].ring, stack.layers[-1].ring
    if first.top <= 0:
        message = "the lowest ring is no higher than the turning allowance: nothing of it is left"
        least = job.at_least(stack.allowance + THIN_RIM)
        yield job.finding("thin-ring", message, key="rings.heights", remedy=f"make it at least {least}")
    yield from _nothing_to_face(job, section, stack)
    left = section.height - last.bottom
    if left < THIN_RIM:
        message = f"only {job.show(left)} of ring {last.number} is left at the rim after facing"
        yield job.finding("thin-rim", message, key="rings.heights",
                          severity="refused" if left < LEAST_RIM - 1e-9 else "note",
                          remedy="change a ring's height so that the last joint comes lower")  # fmt: skip


def _nothing_to_face(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """A stack that ends at the rim, or hardly over it; a ring that would only be faced away is left out."""
    last, over = stack.layers[-1].ring, stack.top - section.height
    need = min(job.rings.turning_allowance, FACED)
    if over >= need - THINNEST:
        return
    rim, there = (job.show(mm) for mm in (section.height, over))
    yield job.finding(
        "nothing-to-face",
        f"ring {last.number} ends {there} over the rim at {rim}, and {job.at_least(need)} are needed to face it; a "
        "ring over it would be faced away whole and is left out",
        key="rings.heights",
        remedy=f"make ring {last.number} at least {job.at_least(last.height + need - over)} high",
        severity="refused" if isinstance(job.rings.heights, tuple) else "warning",
    )


def _planed(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    """The ring under the staves, planed to end where they begin."""
    number = next((layer.number for layer in stack.layers if layer.kind == "staves"), 0)
    under = next((layer.ring for layer in stack.layers if layer.number == number - 1), None)
    if under is not None and under.height < THIN_RING:
        low, thin = job.show(under.bottom), job.show(under.height)
        message = f"ring {under.number}, under the staves, would be planed to {thin}"
        least = job.at_least(under.bottom + THIN_RING)
        yield job.finding(
            "thin-ring", message, key="staves.low", remedy=f"begin them at {low}, or at {least} or higher"
        )


def _joint(job: VesselJob, joint: Joint) -> Iterator[Finding]:
    least, where = job.rings.least_glue, _where(job, joint)
    if joint.finished < least - 1e-6:
        message = f"{where}: only {job.show(joint.finished)} of glue face is left in the finished wall"
        message += undershot(job, joint.height)
        wall = job.at_least(least - joint.finished)
        yield job.finding("no-glue-face", message, key="rings.least_glue",
                          remedy=f"make the wall {wall} thicker there, or give a smaller least_glue")  # fmt: skip
    if joint.rough < least - 1e-6:
        message = f"{where}: the rings meet on {job.show(joint.rough)} only, where a corner stands"
        yield job.finding("no-glue-face", message, key="rings.segments",
                          remedy="use more segments, lower rings or a thicker wall there")  # fmt: skip


def _where(job: VesselJob, joint: Joint) -> str:
    return f"rings {joint.lower} and {joint.upper}, at height {job.show(joint.height)}"


def _kinds(stack: StackPlan, joint: Joint) -> tuple[Layer, Layer]:
    lower, upper = (next(la for la in stack.layers if la.number == n) for n in (joint.lower, joint.upper))
    return lower, upper


def _bridge(job: VesselJob, stack: StackPlan, joint: Joint) -> Iterator[Finding]:
    """Open rings stand on half of each neighbour: the same count, and turned."""
    lower, upper = _kinds(stack, joint)
    if not lower.kind == upper.kind == "open":
        return
    where = _where(job, joint)
    if lower.ring.segments != upper.ring.segments:
        message = (
            f"{where}: open rings of {lower.ring.segments} and {upper.ring.segments} segments do not bridge"
        )
        yield job.finding(
            "no-glue-face", message, key="rings.segments", remedy="use one count for all open rings"
        )
    elif _in_line(lower, joint):
        message = f"{where}: gap stands over gap, so nothing ties the columns of segments"
        yield job.finding("no-glue-face", message, key="rings.turn", remedy=BRICKS)


def _in_line(layer: Layer, joint: Joint) -> bool:
    """Whether the upper ring is turned by whole segments."""
    share = joint.turn / (2 * layer.ring.mitre)
    return abs(share - round(share)) < 1e-6


def _faces(job: VesselJob, section: Section, stack: StackPlan) -> Iterator[Finding]:
    """The shortest glue face between two open rings."""
    pairs = [(joint, *_kinds(stack, joint)) for joint in stack.joints]
    faces = [
        (_face_length(section, lower, upper, joint.turn), joint, lower, upper)
        for joint, lower, upper in pairs
        if lower.kind == upper.kind == "open" and lower.ring.segments == upper.ring.segments
        if not _in_line(lower, joint)
    ]
    if not faces:
        return
    face, joint, lower, upper = min(faces, key=lambda found: found[0])
    least, message = job.rings.least_face, f"{_where(job, joint)}: gaps leave the shorter glue faces "
    message += f"{job.show(face)} long"
    if face >= least:
        if face < SOUND_FACE:
            yield job.warning("short-glue-face", f"{message}; a knock or a catch breaks such a joint",
                              key="rings.least_face",
                              remedy=f"make the faces {job.show(SOUND_FACE)} long, or turn with the "
                              "lightest cuts")  # fmt: skip
    elif _face_length(section, lower, upper, lower.ring.mitre) >= least:
        yield job.finding("no-glue-face", message, key="rings.turn", remedy=BRICKS)
    else:
        most = job.rings.gap - (least - face)
        gap = f"a gap of at most {job.at_most(most)}, or " if most >= LEAST_GAP else ""
        yield job.finding("no-glue-face", message, key="rings.gap", remedy=f"use {gap}fewer segments")


def _face_length(section: Section, lower: Layer, upper: Layer, turn: float) -> float:
    try:
        return open_face(section, lower.ring, upper.ring, turn).length
    except ValueError:  # the gaps are wider than a face
        return 0.0


def _features(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    most = len(stack.layers)
    for number in job.rings.feature or ():
        if number > most:
            message = f"ring {number} cannot be a feature ring: the vessel has {most} rings"
            yield job.warning("no-such-ring", message, key="rings.feature", remedy=f"leave {number} out")  # fmt: skip
