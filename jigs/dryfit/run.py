"""The whole dry fit of one job's folder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import nan
from pathlib import Path

from jigs.dryfit.check import Check
from jigs.dryfit.files import Files
from jigs.dryfit.gauges import gauge_checks, plate_checks
from jigs.dryfit.holding import holding_checks
from jigs.dryfit.section import gaps
from jigs.dryfit.sled import CutRing, ring_apothem, ring_margins, sled_checks
from jigs.job import Job

SLACK = 0.03  # mm


@dataclass(frozen=True)
class DryFit:
    """Every check, in the order of the work."""

    checks: tuple[Check, ...]

    @property
    def misfits(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if not check.fits)


def dry_fit(job: Job, folder: Path) -> DryFit:
    """Cut, hold and gauge the job with the files in `folder`. Raises Refused where a file cannot be read."""
    files = Files(folder)
    checks, ring = _sled(job, files)
    apothem = _value(lambda: ring_apothem(files.drawn("sled-jaw")))
    groups: tuple[tuple[str, Callable[[], list[Check]]], ...] = (
        ("blank", lambda: [_holds(job, ring, apothem)]),
        ("angle plates", lambda: plate_checks(job, files, ring.included)),
        ("boards", lambda: holding_checks(job, files)),
        ("lettering", lambda: [_lettered(files, name) for name in files.cut()]),
        ("gauges", lambda: gauge_checks(job, files, apothem)),
    )
    for name, group in groups:
        checks += _guarded(name, group)
    return DryFit(tuple(checks))


def _sled(job: Job, files: Files) -> tuple[list[Check], CutRing]:
    try:
        return sled_checks(job, files)
    except (LookupError, ValueError, StopIteration) as error:
        return [_unfit("sled", error)], CutRing(nan, nan, nan, nan)


def _holds(job: Job, ring: CutRing, apothem: float) -> Check:
    margin = ring_margins(job, ring, apothem)
    return Check("blank", "wood beyond the torus and its allowance", margin, -SLACK)


def _lettered(files: Files, name: str) -> Check:
    """A mirrored or misplaced outline leaves its lettering behind."""
    plate = files.drawn(name)
    outside = gaps(plate.engraved, plate.shape).max() if len(plate.engraved) else 0.0
    return Check(name, "lettering off the plate by", max(0.0, float(outside)), 0.0, SLACK)


def _guarded(name: str, group: Callable[[], list[Check]]) -> list[Check]:
    """A group's checks, or one that fails where a drawing lacks what it is checked by."""
    try:
        return group()
    except (LookupError, ValueError, StopIteration) as error:
        return [_unfit(name, error)]


def _unfit(name: str, error: Exception) -> Check:
    return Check(name, f"cannot be put together: {error}", nan, 0.0, 0.0)


def _value(measure: Callable[[], float]) -> float:
    try:
        return measure()
    except (LookupError, ValueError):
        return nan
