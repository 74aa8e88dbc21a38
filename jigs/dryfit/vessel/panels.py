"""What the picture of a vessel's dry fit shows: its section, right of the axis, with gauges and plug in place."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.panels import Panel, Placed, drawable
from jigs.dryfit.vessel.outside import pieces
from jigs.dryfit.vessel.rings import rings_of, solids_of
from jigs.dryfit.vessel.work import FAR, Work, work_of


def vessel_panels(job: VesselJob, files: Files) -> list[list[Panel]]:
    """Rows of panels: the stages with their gauges, the rings, the plug; what cannot be drawn is left out."""
    work = work_of(job)
    rows = [lambda: _stages(work, files), lambda: [_rings(work)], lambda: _plug(work, files)]
    return [panels for row in rows if (panels := drawable(row))]


def _right(shape: shapely.Polygon) -> shapely.Polygon:
    """What is right of the axis."""
    return shape.intersection(shapely.box(0.0, -FAR, FAR, FAR))  # type: ignore[return-value]


def _stages(work: Work, files: Files) -> list[Panel]:
    """The finished section with the gauges of each stage."""
    wood = Placed("wood", "wood", _right(work.solid))
    return [Panel(stage, (wood, *_gauges(files, stage))) for stage, _ in stages_of(work.job)]


def _gauges(files: Files, stage: str) -> Sequence[Placed]:
    own = pieces(files, stage)
    inner = f"inside-gauge-{stage}"
    plates = [*own, *([files.plate(inner)] if files.has(inner) else [])]
    rail = [Placed("gauge-rail", "brace", files.plate("gauge-rail").face)] if len(own) > 1 else []
    return [*rail, *(Placed(plate.name, "gauge", plate.face) for plate in plates)]


def _rings(work: Work) -> Panel:
    """What each ring, and each solid piece, has to hold, behind the finished section."""
    solid = [
        Placed(f"ring {s.number}, solid", "waste", shapely.box(0.0, s.bottom, s.most, s.top))
        for s in solids_of(work)
    ]
    rings = [
        Placed(f"ring {r.number}", "waste", shapely.box(r.core, r.bottom, r.most, r.top))
        for r in rings_of(work)
    ]
    return Panel("rings", (*solid, *rings, Placed("wood", "wood", _right(work.solid))))


def _plug(work: Work, files: Files) -> list[Panel]:
    """The vessel on its plug, and the plug with its gauge."""
    section, gauge = files.drawn("mouth-plug-section"), files.plate("mouth-plug-gauge")
    plug = Placed(section.name, "board", section.shape)
    return [
        Panel("mouth plug", (Placed("wood", "wood", _right(work.solid)), plug)),
        Panel("mouth-plug-gauge", (plug, Placed(gauge.name, "gauge", gauge.face))),
    ]
