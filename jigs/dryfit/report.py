"""The dry fit as a table, and as a picture of the section."""

from __future__ import annotations

from math import inf
from pathlib import Path
from xml.sax.saxutils import escape

import numpy as np
import shapely

from jigs.dryfit.check import Check
from jigs.dryfit.files import Files
from jigs.dryfit.run import DryFit
from jigs.dryfit.section import moved
from jigs.job import Job
from jigs.tables import table

BETWEEN = 20.0  # mm between two sections
COLOURS = {"wood": "#d9b382", "board": "#efe3c8", "gauge": "#8fb8cf"}


def fit_text(found: DryFit) -> str:
    """Every check as a row, the misfits marked and repeated at the end."""
    rows = [("", "where", "what", "found", "has to be"), *(_row(check) for check in found.checks)]
    misfits = [f"  does not fit: {check.where}, {check.what}: {_number(check)}" for check in found.misfits]
    verdict = f"{len(found.checks)} checks, {len(found.misfits)} do not fit" if misfits else "everything fits"
    return "\n".join(["Dry fit", *table(rows), *misfits, verdict])


def _row(check: Check) -> tuple[str, ...]:
    return ("ok" if check.fits else "NO", check.where, check.what, _number(check), _limits(check))


def _number(check: Check) -> str:
    return f"{check.value:.3f} {check.unit}"


def _limits(check: Check) -> str:
    if check.least == -inf:
        return f"at most {check.most:.3f}"
    return f"at least {check.least:.3f}" if check.most == inf else f"{check.least:.3f} to {check.most:.3f}"


def fit_json(found: DryFit) -> dict[str, object]:
    """The same for scripts."""
    return {
        "verdict": "refused" if found.misfits else "fits",
        "checks": [
            {"where": c.where, "what": c.what, "value": _finite(c.value), "least": _finite(c.least),
             "most": _finite(c.most), "unit": c.unit, "fits": c.fits}
            for c in found.checks
        ],
    }  # fmt: skip


def _finite(value: float) -> float | None:
    return value if np.isfinite(value) else None


def fit_picture(job: Job, folder: Path, found: DryFit) -> str:
    """Four sections side by side, misfits outlined in red, as SVG.

    The finished gauges on the form; the form in its channel with the retainer; the channel's gauge; the
    retainer's gauge.
    """
    unfit = {check.where for check in found.misfits}
    panels = _panels(job, Files(folder))
    drawn, right = [], 0.0
    top = max(shape.bounds[3] for panel in panels for _, _, shape in panel)
    low = min(shape.bounds[1] for panel in panels for _, _, shape in panel)
    for panel in panels:
        x0 = min(shape.bounds[0] for _, _, shape in panel)
        x1 = max(shape.bounds[2] for _, _, shape in panel)
        drawn += [
            _svg(moved(s, right - x0), COLOURS[colour], name, name in unfit) for name, colour, s in panel
        ]
        right += x1 - x0 + BETWEEN
    width, height = right - BETWEEN + 10, top - low + 10
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.2f}mm" height="{height:.2f}mm" '
        f'viewBox="-5 {-top - 5:.2f} {width:.2f} {height:.2f}">\n' + "\n".join(drawn) + "\n</svg>\n"
    )


Placed = tuple[str, str, shapely.Polygon]


def _panels(job: Job, files: Files) -> list[list[Placed]]:
    major = job.form.major_radius
    torus: Placed = ("blank", "wood", shapely.Point(major, 0.0).buffer(job.form.tube_radius, quad_segs=64))
    board: Placed = ("channel", "board", files.drawn("channel-section").shape)
    plug: Placed = ("retainer", "board", files.drawn("retainer-section").shape)

    def gauge(name: str) -> Placed:
        return (name, "gauge", moved(files.printed(name).face, major))

    return [
        [torus, gauge("outer-gauge-finished"), gauge("hole-gauge-finished")],
        [board, plug, torus],
        [board, gauge("channel-gauge")],
        [plug, gauge("retainer-gauge")],
    ]


def _svg(shape: shapely.Polygon, colour: str, name: str, unfit: bool) -> str:
    line = ("#c00000", 1.0) if unfit else ("#333333", 0.3)
    loops = [shape.exterior, *shape.interiors]
    path = " ".join(
        "M" + " L".join(f"{x:.3f} {-y:.3f}" for x, y in loop.coords[:-1]) + " Z" for loop in loops
    )
    return (
        f'<path d="{path}" fill="{colour}" fill-rule="evenodd" stroke="{line[0]}" stroke-width="{line[1]}">'
        f"<title>{escape(name)}</title></path>"
    )
