"""The whole dry fit of one job's folder, and of a torus's."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from math import cos, nan, pi
from pathlib import Path
from typing import TYPE_CHECKING, cast

from geometry.records import replace
from jigs.asked.by_job import by_job
from jigs.asked.job import Job, TorusJob
from jigs.dryfit import fit
from jigs.dryfit.angle_plates import plate_checks
from jigs.dryfit.braces import brace_checks
from jigs.dryfit.clamping import clamping_checks
from jigs.dryfit.files import Files
from jigs.dryfit.gauges import gauge_checks
from jigs.dryfit.holding import holding_checks
from jigs.dryfit.layup import DRAWN, layup_checks
from jigs.dryfit.layup_sleds import torus_sides
from jigs.dryfit.model import Check
from jigs.dryfit.mountings import Held, Mounting, first_board_checks, held, mountings
from jigs.dryfit.ring import CutRing, glued_already, ring_apothem, ring_margins
from jigs.dryfit.segments import carrier_checks, flat_ring_checks
from jigs.dryfit.sizes import sizes_checks
from jigs.dryfit.sled import sled_checks
from jigs.dryfit.slip_box import box_checks
from jigs.dryfit.standing import flats_checks, standing_checks
from jigs.dryfit.truing import abrasive_checks, truing_checks
from jigs.dryfit.vessel.run import vessel_fit
from jigs.progress import Progress, silent_progress

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob

SLED = ("sled-base",)


def torus_fit(job: TorusJob, turned: TorusJob, folder: Path, sheets: bool, progress: Progress) -> fit.DryFit:
    """Cut, hold and gauge the job with the files in `folder`; `turned` has its form as it was turned."""
    files = Files.of(job, folder)
    apothem = _value(lambda: ring_apothem(files.drawn("sled-jaw")))
    without = fit.unread(files, SLED)
    sled, ring = ([], fit.NO_RING) if without else _sled(job, files)
    more = ", and all that goes by the ring that it cuts,"
    first = [without.format(name="sled", more=more)] if without else []
    groups = _groups(job, turned, files, ring, apothem)
    checks, notes = fit.whole_fit(job, files, groups, sheets, progress, told=SLED[0] if without else "")
    found = (*fit.as_made_checks(files), *sled, *checks, *fit.lettering(files))
    return fit.DryFit(found, (*first, *notes), ring, apothem)


def _groups(job: TorusJob, turned: TorusJob, files: Files, ring: CutRing, apothem: float) -> list[fit.Group]:
    mean = replace(ring, included=2 * pi / job.form.wedge_rings)  # of glued rings and those still to be cut

    @cache
    def at() -> Held:
        return held(turned, files, ring, apothem)

    @cache
    def beside() -> dict[str, Mounting]:
        return mountings(turned, files, at())

    def braces() -> list[Check]:
        return brace_checks(turned, files, at())

    def flats() -> list[Check]:
        return flats_checks(turned, files, beside()["a"])

    def standing() -> list[Check]:
        return standing_checks(turned, files, at(), beside())

    def sizes() -> list[Check]:
        return sizes_checks(turned, files, beside()["a"], apothem)

    def layup() -> list[Check]:
        return layup_checks(job, files, torus_sides(job, ring, apothem))

    return [
        fit.Group("blank", lambda: [_holds(job, ring, apothem)], SLED),
        fit.Group("angle plates", partial(plate_checks, job, files, ring.included), SLED),
        fit.Group("segment carrier", partial(carrier_checks, job, files, apothem), ("segment-base",)),
        fit.Group("flat rings", partial(flat_ring_checks, job, files, apothem), ("plan-angle-base",)),
        fit.Group("slips", partial(_slips, job, files, apothem), ("slip-box-base",)),
        fit.Group("truing", partial(truing_checks, job, files, ring), SLED),
        fit.Group("abrasive", partial(abrasive_checks, files, ring), (*SLED, "truing-board")),
        fit.Group(
            "clamping", partial(clamping_checks, job, files, mean, apothem), (*SLED, "clamp-block-flat")
        ),
        fit.Group("boards", partial(holding_checks, turned, files)),
        fit.Group("first board", partial(first_board_checks, turned, files, ring, apothem), SLED),
        fit.Group("braces", braces, (*SLED, "brace-strap")),
        fit.Group("gauges", partial(gauge_checks, turned, files, apothem)),
        fit.Group("flats gauge", flats, SLED),
        fit.Group("standing gauges", standing, SLED),
        fit.Group("sizes", sizes, SLED),
        fit.Group("layup", layup, (*SLED, *DRAWN)),
    ]


def _sled(job: TorusJob, files: Files) -> tuple[list[Check], CutRing]:
    """The sled's checks, and the ring that it cuts if it cuts one."""
    rings: list[CutRing] = []

    def group() -> list[Check]:
        checks, ring = sled_checks(job, files)
        rings.append(ring)
        return checks

    return fit.guarded("sled", group, files.changed), rings[0] if rings else fit.NO_RING


def _holds(job: TorusJob, ring: CutRing, apothem: float) -> Check:
    margin = ring_margins(job, ring, apothem)
    return Check("blank", "wood beyond the torus and its allowance", margin, -fit.SLACK)


def _slips(job: TorusJob, files: Files, apothem: float) -> list[Check]:
    """Of the joints between segments, from the core to the outer corner."""
    joint = (apothem - job.form.core_opening / 2) / cos(pi / job.form.segments)
    rings = range(1, job.form.wedge_rings + 1 - glued_already(job))
    return box_checks(job, files, dict.fromkeys(rings, joint)) if job.form.spacer else []


def _value(measure: Callable[[], float]) -> float:
    try:
        return measure()
    except Exception:  # the groups that go by it tell what is wrong
        return nan


def dry_fit(
    job: Job,
    folder: Path,
    sheets: bool = True,
    progress: Progress = silent_progress,
    turned: Job | None = None,
) -> fit.DryFit:
    """Cut, hold and gauge the job with the files in `folder`, whole sheets too unless they are left out.

    `turned` is the job with its form as it was measured on the lathe, where it was: the blank is the job's own.
    """
    return by_job(
        job,
        torus=lambda own: torus_fit(own, cast("TorusJob", turned or own), folder, sheets, progress),
        vessel=lambda own: vessel_fit(own, cast("VesselJob", turned or own), folder, sheets, progress),
    )
