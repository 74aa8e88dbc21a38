"""The whole dry fit of a torus's folder."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache, partial
from math import cos, nan, pi
from pathlib import Path

from jigs.asked.job import TorusJob
from jigs.dryfit.angle_plates import plate_checks
from jigs.dryfit.as_made import as_made_checks
from jigs.dryfit.braces import brace_checks
from jigs.dryfit.check import Check
from jigs.dryfit.clamping import clamping_checks
from jigs.dryfit.coupon import coupon_checks
from jigs.dryfit.files import Files
from jigs.dryfit.fit import NO_RING, SLACK, DryFit, Group, guarded, lettering, unread
from jigs.dryfit.gauges import gauge_checks
from jigs.dryfit.holding import holding_checks
from jigs.dryfit.layup import DRAWN, layup_checks
from jigs.dryfit.layup_sides import torus_sides
from jigs.dryfit.mountings import Held, Mounting, first_board_checks, held, mountings
from jigs.dryfit.ring import CutRing, glued_already, ring_apothem, ring_margins
from jigs.dryfit.segments import carrier_checks, flat_ring_checks
from jigs.dryfit.sheets import sheet_checks
from jigs.dryfit.sizes import sizes_checks
from jigs.dryfit.sled import sled_checks
from jigs.dryfit.slip_box import box_checks
from jigs.dryfit.standing import flats_checks, standing_checks
from jigs.dryfit.truing import truing_checks
from jigs.progress import Progress, silent_progress


def torus_fit(
    job: TorusJob, turned: TorusJob, folder: Path, sheets: bool, progress: Progress = silent_progress
) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`; `turned` has its form as it was turned."""
    files = Files.of(job, folder)
    apothem = _value(lambda: ring_apothem(files.drawn("sled-jaw")))
    without = unread(files, ("sled-base",))
    checks, ring = ([], NO_RING) if without else _sled(job, files)
    notes = (
        [without.format(name="sled", more=", and all that goes by the ring that it cuts,")] if without else []
    )
    groups = _groups(job, turned, files, ring, apothem)
    for done, (name, needs, group) in enumerate(groups):
        progress(done, len(groups) + 1, name)
        if why := unread(files, needs):
            notes += [] if without and "sled-base" in needs else [why.format(name=name, more="")]
        else:
            checks += guarded(name, group, files.changed)
    checks += guarded("coupon", partial(coupon_checks, files, job), files.changed)
    progress(len(groups), len(groups) + 1, "sheets")
    if sheets:
        checks += guarded("sheets", partial(sheet_checks, job, files), files.changed)
    return DryFit((*as_made_checks(files), *checks, *lettering(files)), tuple(notes), ring, apothem)


def _groups(
    job: TorusJob, turned: TorusJob, files: Files, ring: CutRing, apothem: float
) -> list[tuple[str, tuple[str, ...], Group]]:
    """Each group with the drawings whose marked lines, or ring, it goes by."""

    mean = replace(
        ring, included=2 * pi / job.form.wedge_rings
    )  # of glued rings and those that are still to be cut

    @cache
    def at() -> Held:
        return held(turned, files, ring, apothem)

    @cache
    def beside() -> Mapping[str, Mounting]:
        return mountings(turned, files, at())

    def at_lathe(group: Callable[..., list[Check]]) -> list[Check]:
        return group(at(), beside())

    return [
        ("blank", ("sled-base",), lambda: [_holds(job, ring, apothem)]),
        ("angle plates", ("sled-base",), partial(plate_checks, job, files, ring.included)),
        ("segment carrier", ("segment-base",), partial(carrier_checks, job, files, apothem)),
        ("flat rings", ("plan-angle-base",), partial(flat_ring_checks, job, files, apothem)),
        ("slips", (), lambda: _slips(job, files, apothem)),
        ("truing", ("sled-base",), partial(truing_checks, job, files, ring)),
        ("clamping", ("sled-base", "clamp-block-flat"), partial(clamping_checks, job, files, mean, apothem)),
        ("boards", (), partial(holding_checks, turned, files)),
        ("first board", ("sled-base",), partial(first_board_checks, turned, files, ring, apothem)),
        (
            "braces",
            ("sled-base", "brace-strap"),
            lambda: at_lathe(lambda at, _: brace_checks(turned, files, at)),
        ),
        ("gauges", (), partial(gauge_checks, turned, files, apothem)),
        (
            "flats gauge",
            ("sled-base",),
            lambda: at_lathe(lambda at, beside: flats_checks(turned, files, beside["a"])),
        ),
        (
            "standing gauges",
            ("sled-base",),
            lambda: at_lathe(lambda at, beside: standing_checks(turned, files, at, beside)),
        ),
        (
            "sizes",
            ("sled-base",),
            lambda: at_lathe(lambda at, beside: sizes_checks(turned, files, beside["a"], apothem)),
        ),
        (
            "layup",
            ("sled-base", *DRAWN),
            lambda: layup_checks(job, files, torus_sides(job, ring, apothem)),
        ),
    ]


def _sled(job: TorusJob, files: Files) -> tuple[list[Check], CutRing]:
    """The sled's checks, and the ring that it cuts if it cuts one."""
    rings: list[CutRing] = []

    def group() -> list[Check]:
        checks, ring = sled_checks(job, files)
        rings.append(ring)
        return checks

    return guarded("sled", group, files.changed), rings[0] if rings else NO_RING


def _holds(job: TorusJob, ring: CutRing, apothem: float) -> Check:
    margin = ring_margins(job, ring, apothem)
    return Check("blank", "wood beyond the torus and its allowance", margin, -SLACK)


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
