"""Whether a layup's jigs can be built, and hold what they are to hold. Of several layups the worst one is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import degrees, pi

from geometry.blanks.planes import Mirrored
from geometry.hardware.hold_down import LEAST_ROOM
from jigs.asked.job import Job
from jigs.stages.held.check.held import held_findings
from jigs.stages.layup.layout.rail import LEAST_FACE
from jigs.stages.layup.plan import LEAST_ANGLE, LayupJigs, LayupPlan, columns_and_rows
from jigs.stages.segments.saws import throat_findings
from jigs.words.findings import Finding

# Each with the counts of pieces along a and along b; what a plane does not allow is left out below.
MIRRORED: tuple[tuple[Mirrored, int, int], ...] = (
    ("left and right", 2, 1),
    ("up and down", 1, 2),
    ("none", 1, 1),
)


def layup_jig_findings(job: Job, layups: Sequence[LayupPlan], jigs: Sequence[LayupJigs]) -> Iterator[Finding]:
    """What keeps the jigs of a job's layups from being built, with the nearest value that works."""
    if not layups:
        return
    yield from _short(job, layups)
    yield from _loose(job, layups)
    yield from _slanted(job, layups)
    yield from _throat(job, jigs)
    if _side(min(layups, key=_side)) >= LEAST_ROOM:
        held = [cut for own in jigs for cut in own.held]
        yield from held_findings(job, held, "layup.mirrored", _whole(job, layups))


def _short(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Pieces that their hold-down cannot hold."""
    least, show = min(layups, key=_side), job.show
    if _side(least) >= LEAST_ROOM:
        return
    larger = _larger(layups)
    yield job.finding(
        "layup-piece-short",
        f"a piece of the layup is {show(least.layup.a)} × {show(least.layup.b)} as cut; on the trim sled a side under "
        f"{show(LEAST_ROOM)} cannot be held down beside the blade",
        key="layup.mirrored",
        remedy=(f'mirrored = "{larger}" would do, or ' if larger else "use ")
        + f"segments whose pieces have sides of at least {job.at_least(LEAST_ROOM)}",
    )


def _loose(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Blocks whose glue does not hold them to their rail while they are mitred."""
    rail, show = min((layup.rail for layup in layups), key=lambda rail: rail.face), job.show
    if rail.face >= LEAST_FACE:
        return
    yield job.finding(
        "layup-block-small",
        f"a block of the layup is glued to its rail by {show(rail.block)} × {show(rail.thickness)}: too little to hold "
        "it while its mitres are sawn",
        key="layup.rings" if job.layup and job.layup.rings else "layup",
        remedy=f"segments at least {job.at_least(LEAST_FACE / rail.thickness)} long, by fewer of them in a ring, or "
        "solid wood for them",
    )


def _side(plan: LayupPlan) -> float:
    return min(plan.layup.a, plan.layup.b)


def _larger(layups: Sequence[LayupPlan]) -> Mirrored | None:
    """The first way of mirroring whose pieces can all be held."""
    barred = {"end": "left and right", "face": "up and down"}.get(layups[0].plane)
    for mirrored, columns, rows in MIRRORED:
        if mirrored != barred and all(_fits(plan, columns, rows) for plan in layups):
            return mirrored
    return None


def _fits(plan: LayupPlan, columns: int, rows: int) -> bool:
    now = columns_and_rows(plan)
    return min(plan.across * now[0] / columns, plan.up * now[1] / rows) >= LEAST_ROOM


def _slanted(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """A cut so slanted that its fence lies almost along the blade."""
    plan = min(layups, key=lambda plan: plan.way.cut_angle)
    if plan.way.cut_angle >= LEAST_ANGLE:
        return
    steep = degrees(LEAST_ANGLE)
    low, high = (0.0, steep) if plan.layup.angle < pi / 4 else (90 - steep, 90.0)
    yield job.finding(
        "layup-angle",
        f"plies at {degrees(plan.layup.angle):.4g} degrees: the stack is cut at {degrees(plan.way.cut_angle):.1f} "
        f"degrees to them, too slanted to be held on a sled, which takes {steep:g}",
        key="layup.angle",
        remedy=f"an angle of {low:g} or {high:g} degrees, or pieces more nearly square",
    )


def _whole(job: Job, layups: Sequence[LayupPlan]) -> str:
    """Larger pieces, where mirroring halves them."""
    larger = _larger(layups)
    return f'mirrored = "{larger}"' if larger and job.layup else "larger segments, or solid wood for them"


def _throat(job: Job, jigs: Sequence[LayupJigs]) -> Iterator[Finding]:
    reach = max(-min(own.sled.left_edge, own.trim.left_edge) for own in jigs)
    return throat_findings(job, "a layup's sled", reach)
