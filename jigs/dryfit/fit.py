"""What a dry fit finds, and how its groups of checks are run."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import nan

from shapely.errors import ShapelyError

from jigs.dryfit.check import Check
from jigs.dryfit.files import Files
from jigs.dryfit.ring import CutRing
from jigs.dryfit.section import gaps

SLACK = 0.03  # mm
ERRORS = (LookupError, ValueError, StopIteration, ZeroDivisionError, ShapelyError)

PAPER = "{name}{more} not put together: on paper lines have no names"
NO_RING = CutRing(nan, nan, nan, nan, nan)

Group = Callable[[], list[Check]]


@dataclass(frozen=True)
class DryFit:
    """Every check, in the order of the work; `notes` say what could not be checked.

    `ring` and `apothem` are a torus's: its wedge rings as the sled cuts them.
    """

    checks: tuple[Check, ...]
    notes: tuple[str, ...] = ()
    ring: CutRing = NO_RING
    apothem: float = nan

    @property
    def misfits(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if not check.fits)


def lettering(files: Files) -> list[Check]:
    """Every drawing's lettering against its outline."""
    return guarded(
        "lettering", lambda: [_lettered(files, name) for name in files.names("dxf") if _cut(files, name)]
    )


def _cut(files: Files, name: str) -> bool:
    return (files.folder / "cut" / f"{name}.dxf").exists()


def _lettered(files: Files, name: str) -> Check:
    """A mirrored or misplaced outline leaves its lettering behind."""
    plate = files.drawn(name)
    outside = gaps(plate.engraved, plate.shape).max() if len(plate.engraved) else 0.0
    return Check(name, "lettering off the plate by", max(0.0, float(outside)), 0.0, SLACK)


def guarded(name: str, group: Group) -> list[Check]:
    """A group's checks under its name, or one that fails where a drawing lacks what it is checked by."""
    try:
        return named(name, group())
    except ERRORS as error:
        return named(name, [unfit(name, error)])


def named(name: str, checks: list[Check]) -> list[Check]:
    """The checks as those of a group."""
    return [replace(check, group=name) for check in checks]


def unfit(name: str, error: Exception) -> Check:
    """What fails because it cannot be put together."""
    return Check(name, f"cannot be put together: {error}", nan, 0.0, 0.0)
