"""Whether half ends and clamping blocks have the wood they need."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos

from geometry.blanks.sawing import WedgeRingCut
from geometry.blanks.truing import end_wedge
from geometry.bodies.torus import Blank, least_wood
from jigs.asked.job import TorusJob
from jigs.stages.glue_up.layout import ClampBlocks
from jigs.words.findings import Finding

LEAST_END_WEDGE = 1.0  # thickness at the stop


def glue_up_findings(job: TorusJob, blank: Blank, cut: WedgeRingCut, blocks: ClampBlocks) -> list[Finding]:
    """Wood for the half ends, wood under the clamping blocks, room for them."""
    return [*_half_ends(job, cut), *_block_feet(job, blank), *_block_faces(job, blank, blocks)]


def _half_ends(job: TorusJob, cut: WedgeRingCut) -> Iterator[Finding]:
    spare, show = job.form.half_sanding, job.show
    left = end_wedge(cut.wedge_at_stop, cut.half_wedge, job.form.end_spare)
    if left >= LEAST_END_WEDGE:
        return
    room = (cut.wedge_at_stop - LEAST_END_WEDGE) * cos(cut.half_wedge)
    most = max(0.0, room + job.form.face_sanding)
    clean_up = cut.wedge_at_stop + LEAST_END_WEDGE - left
    yield job.finding(
        "half-ends",
        f"{show(spare)} to sand off each half's ends are more than the clean-up of "
        f"{show(cut.wedge_at_stop)} leaves",
        key="form.half_sanding",
        remedy=f"ask for at most {job.at_most(most)}, or a clean_up of at least {job.at_least(clean_up)}",
    )


def _block_feet(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    clear = least_wood(blank, job.form.major_radius, job.form.tube)
    least = job.workshop.clamping.clear_of_form
    if clear >= least - 1e-9:
        return
    show = job.show
    yield job.warning(
        "blocks-near-form",
        f"the clamping blocks' feet are {show(clear)} from the finished form; {show(least)} are to stay",
        key="clamping.clear_of_form",
        remedy=f"a turning allowance of at least "
        f"{job.at_least(job.form.turning_allowance + least - clear)}, or strap the blocks on",
    )


def _block_faces(job: TorusJob, blank: Blank, blocks: ClampBlocks) -> Iterator[Finding]:
    if blocks.made:
        return
    yield job.warning(
        "narrow-blocks",
        f"on flats {job.show(blank.flat_width)} wide the clamping blocks would be "
        f"{job.show(max(0.0, blocks.flat_width))} by {job.show(max(0.0, blocks.deep))}; none are made",
        key="form.segments",
        remedy="close every joint in the band, as the steps have it, or use fewer segments",
    )
