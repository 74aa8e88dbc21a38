"""The whole dry fit of a vessel's folder, and its picture: the section, right of the axis, gauges and plug in place."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from math import cos, tan
from pathlib import Path

import shapely

from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.fit import NONE, DryFit, Group, as_made_checks, fault, lettering, whole_fit
from jigs.dryfit.layup import DRAWN, layup_checks
from jigs.dryfit.layup_sleds import Sides, sides
from jigs.dryfit.panels import Panel, Placed, drawable
from jigs.dryfit.ring import glued_already
from jigs.dryfit.slip_box import slip_checks
from jigs.dryfit.vessel.boards import centring_checks, glue_up_checks, truing_checks
from jigs.dryfit.vessel.floating import floating_checks
from jigs.dryfit.vessel.glued import glued_checks, halves_checks, standing, tops_read
from jigs.dryfit.vessel.inside import inside_checks, wall_checks, without_gauge
from jigs.dryfit.vessel.lid import has_pot, lid_checks, pot_checks
from jigs.dryfit.vessel.outside import outside_checks, pieces
from jigs.dryfit.vessel.plug import plug_checks
from jigs.dryfit.vessel.rings import Held, rings_of, solids_of
from jigs.dryfit.vessel.sizes import sizes_checks
from jigs.dryfit.vessel.sleds import sled_checks
from jigs.dryfit.vessel.staves import stave_checks
from jigs.dryfit.vessel.work import FAR, Work, work_of
from jigs.progress import Progress


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


def vessel_fit(job: VesselJob, turned: VesselJob, folder: Path, sheets: bool, progress: Progress) -> DryFit:
    """Cut, glue, turn and gauge the job with the files in `folder`; `turned` has its outside as it was turned."""
    files = Files.of(job, folder)
    try:
        work, cup = standing(job, files), work_of(turned)
        cup = replace(cup, glued=work.glued, faceplate=work.faceplate)
        rings = rings_of(work)
    except Exception as error:
        return DryFit((*as_made_checks(files), fault("section", error)))
    checks, notes = whole_fit(job, files, _groups(work, cup, files, rings), sheets, progress)
    if job.pot and job.lid and job.lid.mouth_diameter is None and not has_pot(job, files):
        notes.append(f"lid not checked on its pot's gauges: make {job.pot.job.name} beside it")
    notes += [NONE.format(name=f"inside gauge, {stage}") for stage in without_gauge(cup, files)]
    return DryFit((*as_made_checks(files), *checks, *lettering(files)), tuple(notes))


def _groups(work: Work, cup: Work, files: Files, rings: list[Held]) -> list[Group]:
    """An inner gauge, a wall gauge and a plug are left out where the mouth or the wall allow none."""
    job = work.job
    made = [ring for ring in rings if ring.number > glued_already(job)]
    closed = [ring for ring in made if not ring.open]
    by_pot = job.lid is not None and has_pot(job, files)
    bases = tuple(f"plan-angle-base-n{n}" for n in sorted({ring.segments for ring in made}))
    groups = [
        Group("sleds for flat rings", partial(sled_checks, work, files, rings), bases),
        Group("staves", partial(stave_checks, work, files), ("stave-base",)),
        Group("slip box", partial(slip_checks, work, files, rings), ("slip-box-base",)),
        Group("ring truing", partial(truing_checks, work, files, closed), ("ring-truing-board",)),
        Group("glue-up boards", partial(glue_up_checks, files, closed), ("glue-up-board-1",)),
        Group("centring plates", partial(centring_checks, work, files, made), ("centring-plate",)),
        Group("floating base", partial(floating_checks, work, files), wanted=job.rings.base == "floating"),
        Group("glued rings", lambda: glued_checks(work, cup, tops_read(job)), wanted=work.glued is not None),
        Group("outside gauges", partial(outside_checks, cup, files)),
        Group("inside gauges", partial(inside_checks, cup, files)),
        Group("wall gauge", lambda: wall_checks(cup, files.plate("wall-gauge")), kind="wall-gauge"),
        Group("sizes", partial(sizes_checks, cup, files)),
        Group("halves", partial(halves_checks, cup, files, rings), wanted=bool(job.halves.ring)),
        Group("lid", partial(lid_checks, cup, files), wanted=job.lid is not None),
        Group("lid on its pot's gauges", partial(pot_checks, cup, files), wanted=by_pot),
        Group("mouth plug", partial(plug_checks, cup, files), kind="mouth-plug"),
        Group("layup", lambda: layup_checks(job, files, vessel_sides(work, rings)), DRAWN),
    ]
    return [group for group in groups if group.wanted]


def vessel_sides(work: Work, rings: Sequence[Held]) -> list[Sides]:
    """Of every ring of segments that has the layup, from the foot up."""
    wish, wanted = work.job.layup, work.job.rings
    if wish is None:
        return []
    own = [ring for ring in rings if wish.rings is None or ring.number in wish.rings]
    return [
        sides(
            wish,
            2 * ring.most * tan(ring.mitre)
            + (2 * wanted.end_sanding(ring.spacer) - ring.spacer) / cos(ring.mitre),
            ring.top - ring.bottom + work.job.rings.flattening,
            ring.most - max(ring.core, 0.0),
        )
        for ring in own
    ]
