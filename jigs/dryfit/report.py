"""The dry fit in words, and as a picture of its sections."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, isnan
from pathlib import Path

import numpy as np

from jigs.asked.by_job import by_job
from jigs.asked.job import TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files
from jigs.dryfit.fit import DryFit
from jigs.dryfit.model import Check
from jigs.dryfit.panels import Panel, Placed, extent, panels
from jigs.dryfit.vessel.run import vessel_panels
from jigs.figures.figure import Figure
from jigs.figures.items import Item, Paint, Shape, Words
from jigs.figures.svg import figure_svg
from jigs.words.tables import table

BETWEEN = 20.0  # mm between two sections
TEXT = 9.0  # mm for a title
EDGE = 5.0  # mm round all
PAINTS: dict[str, Paint] = {
    "wood": "wood",
    "board": "pale",
    "gauge": "metal",
    "brace": "other wood",
    "waste": "waste",
}
TOLD = "Sections of the work with its gauges and with all that holds it, as they were read from the files."


def fit_text(found: DryFit) -> str:
    """How many checks of each group fit, and every misfit in full."""
    groups = [
        (group, *_counts(found, group)) for group in dict.fromkeys(check.group for check in found.checks)
    ]
    notes = [f"  note: {note}" for note in found.notes]
    misfits = [("", "where", "what", "found", "has to be"), *(_row(check) for check in found.misfits)]
    told = ["Does not fit", *table(misfits)] if found.misfits else []
    faults = [f"  {check.what}" for check in found.faults]
    failed = ["Not checked", *faults] if faults else []
    count = len(found.checks) - len(found.faults)
    total = f"{count} checks, each with its number by --json"
    return "\n".join(["Dry fit", *table(groups), *notes, *told, *failed, f"{_verdict(found)}: {total}"])


def _verdict(found: DryFit) -> str:
    if found.misfits:
        return f"{len(found.misfits)} do not fit"
    return "what was checked fits, but not all was checked" if found.faults else "everything fits"


def _counts(found: DryFit, group: str) -> tuple[str, str]:
    """Of a group: how many fit, how many do not."""
    fits = [check.fits for check in found.checks if check.group == group and not check.fault]
    return f"{sum(fits)} ok", f"{len(fits) - sum(fits)} NO" if not all(fits) else ""


def _row(check: Check) -> tuple[str, ...]:
    measured = "" if isnan(check.value) else f"{check.value:.3f} {check.unit}"
    return ("NO", check.where, check.what, measured, _limits(check))


def _limits(check: Check) -> str:
    if isnan(check.least) or isnan(check.most):  # they come of another file, which lacks what they need
        return ""
    if check.least == -inf:
        return f"at most {check.most:.3f}"
    return f"at least {check.least:.3f}" if check.most == inf else f"{check.least:.3f} to {check.most:.3f}"


def fit_json(found: DryFit) -> dict[str, object]:
    """The same for scripts."""
    return {
        "verdict": "refused" if found.misfits else "not all checked" if found.faults else "fits",
        "notes": list(found.notes),
        "faults": [check.what for check in found.faults],
        "checks": [
            {
                "group": c.group,
                "where": c.where,
                "what": c.what,
                "value": _finite(c.value),
                "least": _finite(c.least),
                "most": _finite(c.most),
                "unit": c.unit,
                "fits": bool(c.fits),
            }
            for c in found.checks
            if not c.fault
        ],
    }


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def fit_picture(job: TorusJob | VesselJob, folder: Path, found: DryFit) -> str:
    """Every stage with its gauges and everything that holds the work as sections, misfits in red, as SVG."""
    return figure_svg(_figure(job, folder, found))


def _figure(job: TorusJob | VesselJob, folder: Path, found: DryFit) -> Figure:
    misfits = {check.where for check in found.misfits}
    drawn: list[Item] = []
    width, down = 0.0, EDGE
    for row in _rows(job, Files.of(job, folder), found):
        high = max(extent(panel)[3] for panel in row)
        low = min(extent(panel)[1] for panel in row)
        right, base = EDGE, down + high
        for panel in row:
            x0, _, x1, _ = extent(panel)
            drawn += [
                shape for placed in panel.placed for shape in _shapes(placed, right - x0, base, misfits)
            ]
            drawn.append(Words(panel.title, (right, low - base - TEXT), TEXT - 2))
            right += x1 - x0 + BETWEEN
        width, down = max(width, right), base - low + TEXT + BETWEEN
    title = "The dry fit" if not misfits else "The dry fit: what does not fit is red"
    return Figure("dry-fit", title, TOLD, tuple(drawn), margin=0.0, page=(width, down))


def _rows(job: TorusJob | VesselJob, files: Files, found: DryFit) -> list[list[Panel]]:
    return by_job(
        job, torus=lambda own: panels(own, files, found), vessel=lambda own: vessel_panels(own, files)
    )


def _shapes(placed: Placed, dx: float, down: float, misfits: set[str]) -> Iterator[Shape]:
    """What is laid there, its y = 0 so far down the page."""
    unfit = placed.unfit(misfits)
    for part in getattr(placed.shape, "geoms", [placed.shape]):
        outer, *holes = (
            tuple((x + dx, y - down, 0.0) for x, y in loop.coords[:-1])
            for loop in (part.exterior, *part.interiors)
        )
        yield Shape(
            outer,
            closed=True,
            fill=PAINTS[placed.colour],
            stroke="blade" if unfit else "ink",
            width=1.0 if unfit else 0.3,
            holes=tuple(holes),
            opacity=0.8,
            name=placed.name,
        )
