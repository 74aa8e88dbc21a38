"""Whether each part lies on its machine's bed."""

from __future__ import annotations

from collections.abc import Iterable

from jigs.asked.job import Job
from jigs.parts.part import Part
from jigs.words.findings import Finding
from jigs.words.lengths import show_length


def bed_findings(job: Job, parts: Iterable[Part]) -> list[Finding]:
    """Printed parts larger than the printer's bed are refused; large cut parts are noted: a saw cuts them too."""
    return [finding for part in parts if (finding := _finding(job, part)) is not None]


def lies_on(size: tuple[float, float], bed: tuple[float, float]) -> bool:
    """Whether a part of this size lies on the bed, one way or the other."""
    return min(size) <= min(bed) and max(size) <= max(bed)


def _finding(job: Job, part: Part) -> Finding | None:
    x0, y0, x1, y1 = part.outline.bounds
    size = (x1 - x0, y1 - y0)
    printed = part.process == "print"
    bed = job.workshop.printer.bed if printed else job.workshop.cutter.bed
    if part.process in ("turn", "paper") or lies_on(size, bed):
        return None
    across, deep = (show_length(side, job.unit) for side in size)
    return job.finding(
        "larger-than-bed",
        f"{part.name} is {across} x {deep}, larger than the bed"
        + (", and there is no place to join it from pieces" if printed else ""),
        key="printer.bed" if printed else "cutter.bed",
        remedy=f"a bed of {across} x {deep}, or a smaller piece of work"
        if printed
        else "saw it by hand to the drawing, or use a larger bed",
        severity="refused" if printed else "warning",
        wants={"printer.bed": max(size)},
    )
