"""Whether each part lies on its machine's bed, and can be cut as it is drawn: every hole in it, clear of the others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import points_along
from jigs.asked.job import Job
from jigs.parts.beds import beyond
from jigs.parts.part import Part
from jigs.words.findings import Finding


def bed_findings(job: Job, parts: Iterable[Part]) -> list[Finding]:
    """Printed parts larger than the printer's bed are refused; large cut parts are noted: a saw cuts them too."""
    return [finding for part in parts if (finding := _finding(job, part)) is not None]


def lies_on(size: tuple[float, float], bed: tuple[float, float]) -> bool:
    """Whether a part of this size lies on the bed, one way or the other."""
    return not beyond(*size, bed)


def _finding(job: Job, part: Part) -> Finding | None:
    x0, y0, x1, y1 = part.outline.bounds
    size = (x1 - x0, y1 - y0)
    printed = part.process == "print"
    bed = job.workshop.printer.bed if printed else job.workshop.cutter.bed
    if part.process in ("turn", "paper") or lies_on(size, bed):
        return None
    across, deep = (job.show(side) for side in size)
    return job.finding(
        "larger-than-bed",
        f"{part.name} is {across} × {deep}, larger than the bed"
        + (", and there is no place to join it from pieces" if printed else ""),
        key="printer.bed" if printed else "cutter.bed",
        remedy=f"a bed of {across} × {deep}, or a smaller piece of work"
        if printed
        else "saw it by hand to the drawing, or use a larger bed",
        severity="refused" if printed else "warning",
        wants={"printer.bed": max(size)},
    )


ALONG = np.arange(8) / 8  # of every edge


def faults(part: Part) -> Iterator[str]:
    """What is wrong with its holes, in words; looked at in eight places along each of their edges."""
    if not part.holes:
        return
    start, end = (np.concatenate([getattr(hole, at) for hole in part.holes]) for at in ("points", "ends"))
    sweep = np.concatenate([hole.sweeps for hole in part.holes])
    rims = points_along(start[:, None], end[:, None], sweep[:, None], ALONG)
    owner = np.repeat(np.arange(len(part.holes)), [len(hole) for hole in part.holes])
    inside = part.outline.contains(rims).reshape(len(rims), -1).all(axis=1)
    for k in sorted(set(owner[~inside].tolist())):
        yield f"hole {k + 1} leaves the outline"
    for (i, one), (j, other) in combinations(enumerate(part.holes), 2):
        if _near(one, other) and (
            one.contains(rims[owner == j]).any() or other.contains(rims[owner == i]).any()
        ):
            yield f"holes {i + 1} and {j + 1} meet"


def _near(one: Contour, other: Contour) -> bool:
    """Whether their boxes meet."""
    (left, low, right, high), (x0, y0, x1, y1) = one.bounds, other.bounds
    return left < x1 and x0 < right and low < y1 and y0 < high
