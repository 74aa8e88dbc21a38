"""What the picture shows: sections, right of the axis, each with all that is laid together in it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from geometry.records import Record
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.fit import DryFit
from jigs.dryfit.model import moved
from jigs.dryfit.mountings import Mounting, held, mountings
from jigs.dryfit.ring import section
from jigs.dryfit.standing import STANDING

BRACE = ("brace", "brace-strap", "brace-pad", "brace-block-layer")
WHERE = {  # what a check of it is called
    "channel board": ("channel",),
    "brace": BRACE,
    "brace's block": BRACE,
    "blank": ("blank", "sled", "jaw"),
}


class Placed(Record):
    """One shape in a panel."""

    name: str
    colour: str
    shape: BaseGeometry

    def unfit(self, misfits: set[str]) -> bool:
        """Whether it is among the places that do not fit."""
        return bool(misfits & {self.name, *WHERE.get(self.name, ())})


class Panel(Record):
    title: str
    placed: tuple[Placed, ...]


def panels(job: TorusJob, files: Files, found: DryFit) -> list[list[Panel]]:
    """Rows of panels: the stages, the sizes, the mountings, the turned boards; what cannot be drawn is left out."""
    rows: list[Callable[[], list[Panel]]] = [
        lambda: _stages(job, files),
        lambda: _sizes(job, files, _beside(job, files, found)),
        lambda: _mounted(job, files, _beside(job, files, found)),
        lambda: _boards(job, files),
    ]
    return [panels for row in rows if (panels := drawable(row))]


def drawable(row: Callable[[], list[Panel]]) -> list[Panel]:
    """A row's panels; none where a drawing lacks what it goes by."""
    try:
        return row()
    except Exception:  # the checks tell what is wrong
        return []


def _beside(job: TorusJob, files: Files, found: DryFit) -> dict[str, Mounting]:
    return mountings(job, files, held(job, files, found.ring, found.apothem))


def _torus(job: TorusJob, more: float = 0.0) -> Placed:
    """The tube's section, larger by what is left on it."""
    return Placed("blank", "wood", section(job.form, more, job.form.major_radius))


def _gauge(job: TorusJob, files: Files, name: str, from_axis: bool = False) -> Placed:
    face = files.plate(name).face
    return Placed(name, "gauge", face if from_axis else moved(face, job.form.major_radius))


def _things(mounting: Mounting) -> list[Placed]:
    """What stands right of the axis, and the waste."""
    things = [
        Placed(name, "brace" if "brace" in name else "board", shape)
        for name, shape in mounting.things.items()
        if not name.endswith(" across")
    ]
    return things if mounting.waste.is_empty else [*things, Placed("waste", "waste", mounting.waste)]


def _stages(job: TorusJob, files: Files) -> list[Panel]:
    """Outer and hole gauge on each stage."""
    return [
        Panel(
            name,
            (
                _torus(job, offset),
                *(_gauge(job, files, f"{side}-gauge-{name}") for side in ("outer", "hole")),
            ),
        )
        for name, offset in stages_of(job)
    ]


def _sizes(job: TorusJob, files: Files, beside: dict[str, Mounting]) -> list[Panel]:
    """Forks, hole sticks (their right half) and the roughing gauge in the first mounting."""
    first = _things(beside["a"])
    last = _torus(job, job.gauges.stages[-1])
    right = shapely.box(0.0, -1e4, 1e4, 1e4)
    forks = [Panel(n, (*first, last, _gauge(job, files, n))) for n in files.numbered("width-fork")]
    sticks = [
        Panel(n, (*first, last, Placed(n, "gauge", files.plate(n).face.intersection(right))))
        for n in files.numbered("hole-stick")
    ]
    stick = Panel("outer-stick, from the front", (_gauge(job, files, "outer-stick", from_axis=True),))
    if not files.has("flats-gauge"):
        return [*forks, *sticks, stick]
    rough = _torus(job, job.gauges.stages[0])
    return [
        Panel("flats-gauge", (first[0], rough, _gauge(job, files, "flats-gauge"))),
        *forks,
        *sticks,
        stick,
    ]


def _mounted(job: TorusJob, files: Files, beside: dict[str, Mounting]) -> list[Panel]:
    """The standing gauges in mountings A, C and D."""
    return [
        Panel(
            name.upper(),
            (
                *_things(mounting),
                _torus(job, job.gauges.stages[-1]),
                *(_gauge(job, files, f"standing-gauge-{g}") for g, at in STANDING.items() if at == name),
            ),
        )
        for name, mounting in beside.items()
    ]


def _boards(job: TorusJob, files: Files) -> list[Panel]:
    """The torus in its channel with the retainer; the gauges of both."""
    board = Placed("channel", "board", files.drawn("channel-section").shape)
    plug = Placed("retainer", "board", files.drawn("retainer-section").shape)
    return [
        Panel("channel and retainer", (board, plug, _torus(job))),
        Panel("channel-gauge", (board, _gauge(job, files, "channel-gauge"))),
        Panel("retainer-gauge", (plug, _gauge(job, files, "retainer-gauge"))),
    ]


def extent(panel: Panel) -> tuple[float, float, float, float]:
    """xmin, ymin, xmax, ymax of all that is in it."""
    bounds = np.array([placed.shape.bounds for placed in panel.placed])
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
