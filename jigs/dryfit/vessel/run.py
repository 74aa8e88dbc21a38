"""The whole dry fit of a vessel's folder."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from math import cos, tan
from pathlib import Path

from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.as_made import as_made_checks
from jigs.dryfit.check import Check
from jigs.dryfit.coupon import coupon_checks
from jigs.dryfit.files import Files
from jigs.dryfit.fit import DryFit, Group, fault, guarded, lettering, unread
from jigs.dryfit.layup import DRAWN, layup_checks
from jigs.dryfit.layup_sides import Sides, sides
from jigs.dryfit.sheets import sheet_checks
from jigs.dryfit.slip_box import slip_checks
from jigs.dryfit.vessel.boards import centring_checks, glue_up_checks, truing_checks
from jigs.dryfit.vessel.floating import floating_checks
from jigs.dryfit.vessel.glued import glued_checks, standing, stated, tops_read
from jigs.dryfit.vessel.halves import halves_checks
from jigs.dryfit.vessel.inside import inside_checks, wall_checks, without_gauge
from jigs.dryfit.vessel.lid import has_pot, lid_checks, pot_checks
from jigs.dryfit.vessel.outside import outside_checks
from jigs.dryfit.vessel.plug import plug_checks
from jigs.dryfit.vessel.rings import Held, rings_of
from jigs.dryfit.vessel.sizes import sizes_checks
from jigs.dryfit.vessel.sleds import sled_checks
from jigs.dryfit.vessel.staves import stave_checks
from jigs.dryfit.vessel.work import Work, work_of
from jigs.progress import Progress, silent_progress

NONE = "{name} not checked: the set has none"


def vessel_fit(
    job: VesselJob, turned: VesselJob, folder: Path, sheets: bool, progress: Progress = silent_progress
) -> DryFit:
    """Cut, glue, turn and gauge the job with the files in `folder`; `turned` has its outside as it was turned."""
    files = Files.of(job, folder)
    try:
        work, cup = standing(job, files), work_of(turned)
        cup = replace(cup, glued=work.glued, faceplate=work.faceplate)
        rings = rings_of(work)
    except Exception as error:
        return DryFit((*as_made_checks(files), fault("section", error)))
    checks, notes = list[Check](), list[str]()
    groups = _groups(work, cup, files, rings)
    for done, (name, kind, lines, group) in enumerate(groups):
        progress(done, len(groups) + 1, name)
        if kind and not _any(files, kind):
            notes.append(NONE.format(name=name))
        elif why := unread(files, lines):
            notes.append(why.format(name=name, more=""))
        else:
            checks += guarded(name, group, files.changed)
    if job.pot and job.lid and job.lid.mouth_diameter is None and not has_pot(job, files):
        notes.append(f"lid not checked on its pot's gauges: make {job.pot.job.name} beside it")
    notes += [NONE.format(name=f"inside gauge, {stage}") for stage in without_gauge(cup, files)]
    checks += guarded("coupon", partial(coupon_checks, files, job), files.changed)
    progress(len(groups), len(groups) + 1, "sheets")
    if sheets:
        checks += guarded("sheets", partial(sheet_checks, job, files), files.changed)
    return DryFit((*as_made_checks(files), *checks, *lettering(files)), tuple(notes))


def _floating(work: Work, files: Files) -> list[tuple[str, str, tuple[str, ...], Group]]:
    """Where the job asks for a base that floats."""
    wanted = work.job.rings.base == "floating"
    return [("floating base", "", (), partial(floating_checks, work, files))] if wanted else []


def _glued(work: Work, cup: Work) -> list[tuple[str, str, tuple[str, ...], Group]]:
    """Where rings stand already."""
    return (
        [("glued rings", "", (), lambda: glued_checks(work, cup, tops_read(work.job)))] if work.glued else []
    )


def _halves(work: Work, files: Files, rings: list[Held]) -> list[tuple[str, str, tuple[str, ...], Group]]:
    """Where the vessel is built in parts."""
    if not work.job.halves.ring:
        return []
    return [("halves", "", (), partial(halves_checks, work, files, rings))]


def _lid(work: Work, files: Files) -> list[tuple[str, str, tuple[str, ...], Group]]:
    """Where the job is a lid; on its pot's gauges too where that set was made."""
    if work.job.lid is None:
        return []
    by_pot = [("lid on its pot's gauges", "", (), partial(pot_checks, work, files))]
    return [("lid", "", (), partial(lid_checks, work, files)), *(by_pot if has_pot(work.job, files) else [])]


def _any(files: Files, kind: str) -> bool:
    return any(name.startswith(kind) for name in files.names())


def _groups(
    work: Work, cup: Work, files: Files, rings: list[Held]
) -> list[tuple[str, str, tuple[str, ...], Group]]:
    """Each group; what its parts' names start with, where a set need not have any; drawings whose lines it goes by.

    An inner gauge, a wall gauge and a plug are left out where the mouth or the wall allow none.
    """
    made = [ring for ring in rings if ring.number > stated(work.job)]
    closed = [ring for ring in made if not ring.open]
    bases = tuple(f"plan-angle-base-n{n}" for n in sorted({ring.segments for ring in made}))
    return [
        ("sleds for flat rings", "", bases, partial(sled_checks, work, files, rings)),
        ("staves", "", ("stave-base",), partial(stave_checks, work, files)),
        ("slip box", "", ("slip-box-base",), partial(slip_checks, work, files, rings)),
        ("ring truing", "", ("ring-truing-board",), partial(truing_checks, work, files, closed)),
        ("glue-up boards", "", ("glue-up-board-1",), partial(glue_up_checks, files, closed)),
        ("centring plates", "", ("centring-plate",), partial(centring_checks, files, made)),
        *_floating(work, files),
        *_glued(work, cup),
        ("outside gauges", "", (), partial(outside_checks, cup, files)),
        ("inside gauges", "", (), partial(inside_checks, cup, files)),
        ("wall gauge", "wall-gauge", (), lambda: wall_checks(cup, files.plate("wall-gauge"))),
        ("sizes", "", (), partial(sizes_checks, cup, files)),
        *_halves(cup, files, rings),
        *_lid(cup, files),
        ("mouth plug", "mouth-plug", (), partial(plug_checks, cup, files)),
        ("layup", "", DRAWN, lambda: layup_checks(work.job, files, vessel_sides(work, rings))),
    ]


def vessel_sides(work: Work, rings: Sequence[Held]) -> list[Sides]:
    """Of every ring of segments that has the layup, from the foot up."""
    wish, sanding = work.job.layup, work.job.rings.joint_sanding
    if wish is None:
        return []
    own = [ring for ring in rings if wish.rings is None or ring.number in wish.rings]
    return [
        sides(
            wish,
            2 * ring.most * tan(ring.mitre) + (2 * sanding - ring.spacer) / cos(ring.mitre),
            ring.top - ring.bottom + work.job.rings.flattening,
            ring.most - max(ring.core, 0.0),
        )
        for ring in own
    ]
