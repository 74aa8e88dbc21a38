"""Whether the saw cuts the rings' strips and the staves, and whether the segments are long enough to be held."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, floor, pi

from geometry.blanks.ring_stack import Ring
from geometry.hardware.hold_down import LEAST_ROOM
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.stages.flat_segments.plan import FlatSled, SawPlan, StaveCut
from jigs.stages.held.check.held import held_findings, is_held
from jigs.stages.segments.check import blade_findings
from jigs.stages.segments.saws import throat_findings
from jigs.stages.stack.plan import Layer
from jigs.stages.staves.layout import LEAST_TOE, LONGEST
from jigs.words.findings import Finding

LEAST_HEIGHT = 2.0  # of a ring that can be asked for
FEWEST = 4  # segments that can be asked for


def saw_findings(job: VesselJob, saws: SawPlan, layers: Sequence[Layer]) -> list[Finding]:
    """Blade, sleds, segments, staves."""
    return [
        *blade_findings(job),
        *_too_thick(job, saws),
        *(found for sled in saws.sleds for found in _throat(job, sled)),
        *(found for sled in saws.sleds for found in _short(job, sled, layers)),
        *(found for sled in saws.sleds for found in _held(job, sled, layers)),
        *_staves(job, saws),
    ]


def _too_thick(job: VesselJob, saws: SawPlan) -> Iterator[Finding]:
    """The thickest strip of all, lying on its sled."""
    limit, show = job.workshop.saw.blade_height, job.show
    sled = max(saws.sleds, key=lambda sled: sled.layout.saw_height, default=None)
    if sled is None or sled.layout.saw_height <= limit:
        return
    layout = sled.layout
    most = limit - (layout.saw_height - layout.height) - job.rings.flattening
    lower = f"boards and ring heights of at most {job.at_most(most)}, or " if most >= LEAST_HEIGHT else ""
    yield job.finding(
        "strip-too-thick",
        f"a strip {show(layout.height)} thick on its sled needs a blade "
        f"{job.at_least(layout.saw_height)} high; this saw gives {show(limit)}",
        key="saw.blade_height",
        remedy=f"use {lower}a saw that gives at least {job.at_least(layout.saw_height)}",
        wants={"saw.blade_height": layout.saw_height, "rings.heights": most},
    )


def _throat(job: VesselJob, sled: FlatSled) -> Iterator[Finding]:
    reach = max(-sled.layout.left_edge, sled.layout.right_edge)
    return throat_findings(job, f"the sled for {sled.segments} segments", reach)


def _short(job: VesselJob, sled: FlatSled, layers: Sequence[Layer]) -> Iterator[Finding]:
    """Of the rings with this count, the one with the shortest segments speaks for all."""
    own = [layer.ring for layer in layers if layer.cut is not None and layer.ring.segments == sled.segments]
    ring = min(own, key=lambda ring: ring.outer_edge)
    least, show = _least_edge(job, ring.segments), job.show
    if ring.outer_edge >= least - 1e-9:
        return
    yield job.finding(
        "short-segment",
        f"ring {ring.number}: {ring.segments} segments have an outer edge of {show(ring.outer_edge)}; to be "
        f"held they need {show(least)}",
        key="rings.segments",
        remedy=_fewer(job, ring),
    )


def _fewer(job: VesselJob, ring: Ring) -> str:
    """The most segments that are long enough: a ring's outer apothem does not depend on their number."""
    for count in range(ring.segments - 1, FEWEST - 1, -1):
        if replace(ring, segments=count).outer_edge >= _least_edge(job, count):
            return f"use at most {count} segments in ring {ring.number}"
    if ring.outer_edge >= LEAST_ROOM / cos(ring.mitre):
        return f"use a least_segment of at most {job.at_most(ring.outer_edge)}"
    return "use a larger diameter there, or a solid base"


def _least_edge(job: VesselJob, segments: int) -> float:
    """Of a segment: as asked, and what its hold-down needs up to the stop."""
    return max(job.rings.least_segment, LEAST_ROOM / cos(pi / segments))


def _held(job: VesselJob, sled: FlatSled, layers: Sequence[Layer]) -> Iterator[Finding]:
    """Segments too short for a hold-down have a word of their own; of the others the extreme sizes are looked at."""
    cuts = [layer.cut for layer in layers if layer.cut is not None and layer.ring.segments == sled.segments]
    if min(cut.outer_edge for cut in cuts) < _least_edge(job, sled.segments):
        return
    yield from held_findings(
        job, sled.held, "rings.segments", "use fewer segments, or a larger turning_allowance"
    )


def _staves(job: VesselJob, saws: SawPlan) -> Iterator[Finding]:
    limit, show, staves = job.workshop.saw.blade_height, job.show, saws.staves
    if staves is None:
        return
    yield from _stave_sled(job, staves)
    if staves.saw_height <= limit:
        return
    yield job.finding(
        "stave-too-thick",
        f"a stave {show(staves.thickness)} thick needs {job.at_least(staves.saw_height)} along the tilted blade; "
        f"this saw gives {show(limit)}",
        key="staves.count",
        remedy="use staves for less of the height, more of them, or a saw that gives at least "
        f"{job.at_least(staves.saw_height)}",
        wants={"saw.blade_height": staves.saw_height},
    )


def _stave_sled(job: VesselJob, staves: StaveCut) -> Iterator[Finding]:
    """Staves that the sled does not hold, and why; the saw's throat."""
    sled, show = staves.layout, job.show
    why = ""
    if sled.height < sled.least_height:
        why = f"a stave {show(sled.height)} thick lies lower than its stop, which is {show(sled.sheet)} of sheet"
    elif sled.board[1] > LONGEST:
        why = f"a stave {show(sled.board[1])} long is longer than the {show(LONGEST)} that its hold-down reaches"
    elif not sled.fits or not all(is_held(cut) for cut in staves.held):
        why = f"a stave {show(sled.narrow)} wide at its narrow end is too small to be held on its sled"
    if why:
        yield job.finding(
            "stave-not-held",
            why,
            key="staves.count",
            remedy="use fewer, wider staves, or rings of segments at these heights (leave [staves] out)",
            wants={"staves.count": float(_wide_enough(staves))},
        )
    yield from throat_findings(job, "the sled for staves", max(-sled.left_edge, sled.right_edge))


def _wide_enough(staves: StaveCut) -> int:
    """About how many staves would be wide enough: their width goes as one by their count."""
    sled = staves.layout
    lacking = max(LEAST_TOE - sled.toe, LEAST_ROOM - sled.room, 0.0)
    return max(FEWEST, floor(staves.count * sled.narrow / (sled.narrow + lacking)) - 1)
