"""Whether the wedge ring lies on its sled: fence, jaw, room beside the blade."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos

from geometry.blanks.sawing import wedge_ring_cut
from geometry.bodies.torus import Blank
from geometry.records import replace
from jigs.asked.job import TorusJob
from jigs.stages.blank.size import solve_blank
from jigs.stages.wedge_rings.layout.sled import SCREW_WOOD, SledBody
from jigs.stages.wedge_rings.woods import left_open
from jigs.words.findings import Finding
from jigs.words.quantity import count_text

LEAST_RING = 36.0  # across flats: below it mortises and bolts of the fence run into each other
LEAST_CLEAR = 5.0  # of the blade: nobody may ask for less
LEAST_HOLD = 30.0  # of the jaw


def sled_findings(job: TorusJob, blank: Blank, sled: SledBody) -> list[Finding]:
    """The ring on its sled, the jaw's hold, the fence's end."""
    return [*_small_ring(job, blank), *_jaw(job, blank, sled), *_fence(job, sled)]


def _small_ring(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    if 2 * blank.apothem >= LEAST_RING:
        return
    yield job.finding(
        "ring-too-small",
        f"a ring {job.show(2 * blank.apothem)} across flats is too small for the sled's fence and jaw",
        key="form.ring_across_flats",
        remedy=f"make it at least {job.at_least(LEAST_RING)}",
    )


def _jaw(job: TorusJob, blank: Blank, sled: SledBody) -> Iterator[Finding]:
    needed = max(blank.half_width + SCREW_WOOD, LEAST_HOLD)
    if sled.jaw_reach >= needed - 1e-9:
        return
    yield job.finding(
        "short-jaw",
        f"between the blade and, in the second cut, the wedge the jaw reaches only "
        f"{job.show(max(0.0, sled.jaw_reach))} over the ring, {job.show(needed)} holds it",
        key="form.wedge_rings",
        remedy=_with_fewer_rings(job, sled),
    )


def _with_fewer_rings(job: TorusJob, sled: SledBody) -> str:
    """The most wedge rings with which the jaw reaches far enough."""
    for rings in range(job.form.wedge_rings - 2, 4, -2):
        fewer = solve_blank(replace(job, form=replace(job.form, wedge_rings=rings)))
        cut = wedge_ring_cut(fewer, sled.cut.wedge_at_stop, job.form.face_sanding)
        if replace(sled, cut=cut, apothem=fewer.apothem).jaw_reach >= max(
            fewer.half_width + SCREW_WOOD, LEAST_HOLD
        ):
            return f"use at most {rings} wedge rings, or a sheet of another thickness"
    return "use a larger hole, or a sheet of another thickness"


def _fence(job: TorusJob, sled: SledBody) -> Iterator[Finding]:
    room = sled.room(sled.fence_start) * cos(sled.cut.half_wedge)
    if room >= 0:
        return
    show, most = job.show, sled.clear_of_blade + room
    less = f"a clear_of_blade of at most {job.at_most(most)}, " if most >= LEAST_CLEAR else ""
    yield job.finding(
        "fence-near-blade",
        f"the fence's end comes within {show(max(0.0, most))} of the blade; "
        f"{show(sled.clear_of_blade)} are to stay clear",
        key="sled.clear_of_blade",
        remedy=f"{less}{'or ' if less else ''}more clean_up, or a larger hole",
    )


def spiral_findings(job: TorusJob) -> Iterator[Finding]:
    """A spiral that does not come out where it began."""
    off = left_open(job.form) if job.form.turn and not job.layup else 0
    if off:
        yield job.warning(
            "spiral-open",
            f"the woods do not close: where ring {job.form.wedge_rings} meets ring 1 they are "
            f"{count_text(abs(off), 'segment')} off, and the pattern breaks at that joint",
            key="form.turn",
            remedy="use turns that add up to whole repeats of the woods over all joints, or another number of rings",
        )
