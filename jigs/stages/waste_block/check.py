"""Whether the faceplate's screws hold the work, the tailstock away."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.hardware.fittings import SHORT
from jigs.asked.vessel_job import VesselJob
from jigs.stages.waste_block.plan import EDGE, WasteBlock
from jigs.words.findings import Finding


def waste_findings(job: VesselJob, waste: WasteBlock) -> Iterator[Finding]:
    screws, room = waste.screws, waste.most - 2 * EDGE
    if screws.on <= room:
        if screws.on:
            yield job.note(
                "wide-faceplate",
                f"the work is heavy for its faceplate: it takes {screws.count} screws on a circle at least "
                f"{job.at_least(screws.on)} across",
                key="rings.waste_block",
                remedy="a thicker waste block takes longer screws, on a smaller circle",
            )
        return
    thick = 1.05 * screws.depth * screws.on / room + SHORT  # a little more, for its longer arm
    yield job.finding(
        "few-screws",
        f"{screws.count} screws of the faceplate, {job.show(screws.depth)} deep in the waste block, hold this on "
        f"a circle at least {job.at_least(screws.on)} across, and under ring 1 is room for {job.at_most(room)}",
        key="rings.waste_block",
        remedy=f"make the waste block at least {job.at_least(thick)} thick",
        wants={"rings.waste_block": thick},
    )
