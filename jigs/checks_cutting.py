"""Whether the saws reach, and whether half ends and clamping blocks have the wood they need."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, cos

from geometry.bandsaw_sled import BandsawLayout
from geometry.clamping import ClampBlocks
from geometry.sawing import WedgeRingCut
from geometry.sled import SledBody
from geometry.torus import Blank, least_wood
from geometry.truing import end_wedge
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan_cutting import CuttingPlan, SawName
from jigs.solve_cutting import rings_needed, saw_height, segments_needed

LEAST_END_WEDGE = 1.0  # thickness at the stop
LEAST_FACE = 12.0  # of a clamping block, along the joint and square to it


def _show(job: Job) -> Callable[[float], str]:
    return lambda mm: show_length(mm, job.unit)


def bandsaw_would_do(job: Job, blank: Blank) -> str:
    """Start of a remedy: the bandsaw, where it is tall enough for the wedge rings."""
    fits = rings_needed(job, blank)["bandsaw"] <= saw_height(job, "bandsaw")
    return 'cutting.wedge_rings = "bandsaw" would do; else ' if fits else ""


def cutting_findings(job: Job, blank: Blank, sled: SledBody, cutting: CuttingPlan) -> list[Finding]:
    """The bandsaw's height, throat and guide; the segments' height."""
    found = _no_bandsaw(job)
    if found:
        return found
    band = [*_guides(job, blank), *_column(job, sled)] if isinstance(sled, BandsawLayout) else []
    return [*band, *_segments(job, blank, cutting)]


def _no_bandsaw(job: Job) -> list[Finding]:
    shop = job.workshop
    asked = {"cutting.wedge_rings": shop.cutting.wedge_rings, "cutting.segments": shop.cutting.segments}
    if shop.bandsaw.height is not None:
        return []
    return [
        job.finding(
            "no-bandsaw",
            "asks for a bandsaw, and no table [bandsaw] states its height",
            key=key,
            remedy='give height in [bandsaw], or ask for "table saw"',
        )
        for key, saw in asked.items()
        if saw == "bandsaw"
    ]


def _offer(key: str, other: SawName, needed: dict[SawName, float], job: Job) -> str:
    return f'{key} = "{other}" would do; else ' if needed[other] <= saw_height(job, other) else ""


def _guides(job: Job, blank: Blank) -> list[Finding]:
    needed, limit, show = rings_needed(job, blank), saw_height(job, "bandsaw"), _show(job)
    if needed["bandsaw"] <= limit:
        return []
    return [
        job.finding(
            "ring-too-tall",
            f"a ring {show(2 * blank.apothem)} tall, its sled's base, fence and jaw need "
            f"{show(needed['bandsaw'])} under the bandsaw's guides; it gives {show(limit)}",
            key="bandsaw.height",
            remedy=f"{_offer('cutting.wedge_rings', 'table saw', needed, job)}"
            f"a bandsaw with {show(ceil(needed['bandsaw']))}, or a thinner tube",
        )
    ]


def _column(job: Job, sled: BandsawLayout) -> list[Finding]:
    throat, reach = job.workshop.bandsaw.throat, -sled.left_edge
    if reach <= throat:
        return []
    show = _show(job)
    return [
        job.finding(
            "throat",
            f"the sled reaches {show(reach)} from the blade towards the column; this bandsaw gives {show(throat)}",
            key="bandsaw.throat",
            remedy=f"a bandsaw with at least {show(ceil(reach))}, or a smaller ring",
        )
    ]


def _segments(job: Job, blank: Blank, cutting: CuttingPlan) -> list[Finding]:
    needed, saw, show = segments_needed(job, blank), cutting.segments_on, _show(job)
    limit = saw_height(job, saw)
    if needed[saw] <= limit:
        return []
    other: SawName = "bandsaw" if saw == "table saw" else "table saw"
    return [
        job.finding(
            "strip-too-thick",
            f"a strip {show(blank.apothem - blank.core_apothem)} thick on its carrier, cut at the mitre angle, "
            f"needs {show(needed[saw])} along the tilted blade; this {saw} gives {show(limit)}",
            key="saw.blade_height" if saw == "table saw" else "bandsaw.height",
            remedy=f"{_offer('cutting.segments', other, needed, job)}a wider core opening, or a taller saw",
        )
    ]


def glue_up_findings(job: Job, blank: Blank, cut: WedgeRingCut, blocks: ClampBlocks) -> list[Finding]:
    """Wood for the half ends, wood under the clamping blocks, room for them."""
    return [*_half_ends(job, cut), *_block_feet(job, blank), *_block_faces(job, blank, blocks)]


def _half_ends(job: Job, cut: WedgeRingCut) -> list[Finding]:
    spare, show = job.form.half_sanding, _show(job)
    left = end_wedge(cut.wedge_at_stop, cut.half_wedge, spare)
    if left >= LEAST_END_WEDGE:
        return []
    most = max(0.0, (cut.wedge_at_stop - LEAST_END_WEDGE) * cos(cut.half_wedge))
    clean_up = cut.wedge_at_stop + LEAST_END_WEDGE - left
    return [
        job.finding(
            "half-ends",
            f"{show(spare)} to sand off each half's ends are more than the clean-up of "
            f"{show(cut.wedge_at_stop)} leaves",
            key="form.half_sanding",
            remedy=f"ask for at most {show(most)}, or a clean_up of at least {show(ceil(10 * clean_up) / 10)}",
        )
    ]


def _block_feet(job: Job, blank: Blank) -> list[Finding]:
    clear = least_wood(blank, job.form.major_radius, job.form.tube_radius)
    least = job.workshop.clamping.clear_of_form
    if clear >= least - 1e-9:
        return []
    show = _show(job)
    return [
        job.finding(
            "blocks-near-form",
            f"the clamping blocks' feet are {show(clear)} from the finished form; {show(least)} are to stay",
            key="clamping.clear_of_form",
            remedy=f"a turning allowance of at least "
            f"{show(ceil(10 * (job.form.turning_allowance + least - clear)) / 10)}, or strap the blocks on",
            severity="warning",
        )
    ]


def _block_faces(job: Job, blank: Blank, blocks: ClampBlocks) -> list[Finding]:
    deep = blocks.flat_far - blocks.set_back
    if min(blocks.flat_width, deep) >= LEAST_FACE:
        return []
    show = _show(job)
    return [
        job.finding(
            "narrow-blocks",
            f"on flats {show(blank.flat_width)} wide the clamping blocks would be "
            f"{show(max(0.0, blocks.flat_width))} by {show(max(0.0, deep))}; none are made",
            key="form.segments",
            remedy="use a clamp band, or fewer segments",
            severity="warning",
        )
    ]
