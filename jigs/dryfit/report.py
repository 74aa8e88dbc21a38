"""The dry fit in words, and as a picture of its sections."""

from __future__ import annotations

from html import escape
from math import inf
from pathlib import Path

import numpy as np

from jigs.asked.job import TorusJob
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.check import Check
from jigs.dryfit.files import Files
from jigs.dryfit.fit import DryFit
from jigs.dryfit.panels import Panel, Placed, extent, panels
from jigs.dryfit.vessel.panels import vessel_panels
from jigs.words.tables import table

BETWEEN = 20.0  # mm between two sections
TEXT = 9.0  # mm for a title
COLOURS = {"wood": "#d9b382", "board": "#efe3c8", "gauge": "#8fb8cf", "brace": "#c9cfa8", "waste": "#e5d8c4"}


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
    return ("NO", check.where, check.what, _number(check), _limits(check))


def _number(check: Check) -> str:
    return f"{check.value:.3f} {check.unit}"


def _limits(check: Check) -> str:
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
    misfits = {check.where for check in found.misfits}
    drawn, width, down = [], 0.0, 0.0
    for row in _rows(job, Files.of(job, folder), found):
        high = max(extent(panel)[3] for panel in row)
        low = min(extent(panel)[1] for panel in row)
        right = 0.0
        for panel in row:
            x0, _, x1, _ = extent(panel)
            drawn += [_shape(placed, right - x0, down + high, misfits) for placed in panel.placed]
            drawn.append(_title(panel.title, right, down + high - low + TEXT))
            right += x1 - x0 + BETWEEN
        width, down = max(width, right), down + high - low + TEXT + BETWEEN
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.2f}mm" height="{down:.2f}mm" '
        f'viewBox="-5 -5 {width:.2f} {down:.2f}">\n' + "\n".join(drawn) + "\n</svg>\n"
    )


def _rows(job: TorusJob | VesselJob, files: Files, found: DryFit) -> list[list[Panel]]:
    return vessel_panels(job, files) if isinstance(job, VesselJob) else panels(job, files, found)


def _title(text: str, x: float, y: float) -> str:
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{TEXT - 2}" font-family="sans-serif">{escape(text)}</text>'
    )


def _shape(placed: Placed, dx: float, top: float, misfits: set[str]) -> str:
    """One shape, y = 0 at `top` from above."""
    line = ("#c00000", 1.0) if placed.unfit(misfits) else ("#333333", 0.3)
    path = " ".join(
        "M" + " L".join(f"{x + dx:.3f} {top - y:.3f}" for x, y in loop.coords[:-1]) + " Z"
        for part in getattr(placed.shape, "geoms", [placed.shape])
        for loop in (part.exterior, *part.interiors)
    )
    return (
        f'<path d="{path}" fill="{COLOURS[placed.colour]}" fill-opacity="0.8" fill-rule="evenodd" '
        f'stroke="{line[0]}" stroke-width="{line[1]}"><title>{escape(placed.name)}</title></path>'
    )
