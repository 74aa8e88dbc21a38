"""What a dry fit finds, and how its groups of checks are run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import nan
from pathlib import Path
from traceback import extract_tb

from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.dryfit.coupon import coupon_checks
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, farthest
from jigs.dryfit.ring import CutRing
from jigs.dryfit.sheets import sheet_checks
from jigs.progress import Progress
from jigs.words.findings import Refused

SLACK = 0.03  # mm
HERE = Path(__file__).parent

LEFT_OUT = "{name}{more} not checked: left out of this set"
PAPER = "{name}{more} not put together: on paper lines have no names"
NO_RING = CutRing(nan, nan, nan, nan, nan)

NONE = "{name} not checked: the set has none"


class Group(Record):
    """Checks that belong together, the drawings whose marked lines, or ring, they go by, and what their parts' names
    begin with, where a set need not have any; whether the job asks for what they are of."""

    name: str
    checks: Callable[[], list[Check]]
    goes_by: tuple[str, ...] = ()
    kind: str = ""
    wanted: bool = True


class DryFit(Record):
    """Every check, in the order of the work; `notes` say what could not be checked.

    `ring` and `apothem` are a torus's: its wedge rings as the sled cuts them.
    """

    checks: tuple[Check, ...]
    notes: tuple[str, ...] = ()
    ring: CutRing = NO_RING
    apothem: float = nan

    @property
    def misfits(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if not check.fits and not check.fault)

    @property
    def faults(self) -> tuple[Check, ...]:
        """Where the dry fit itself failed: what it would have checked there is not known."""
        return tuple(check for check in self.checks if check.fault)


def whole_fit(
    job: Job, files: Files, groups: Sequence[Group], sheets: bool, progress: Progress, told: str = ""
) -> tuple[list[Check], list[str]]:
    """Every group's checks, the coupon's and the sheets'; and what was not checked, but for want of what is `told`."""
    checks, notes = list[Check](), list[str]()
    for done, group in enumerate(groups):
        progress(done, len(groups) + 1, group.name)
        if group.kind and not any(name.startswith(group.kind) for name in files.names()):
            notes.append(NONE.format(name=group.name))
        elif not (why := unread(files, group.goes_by)):
            checks += guarded(group.name, group.checks, files.changed)
        elif told not in group.goes_by:
            notes.append(why.format(name=group.name, more=""))
    checks += guarded("coupon", lambda: coupon_checks(files, job), files.changed)
    progress(len(groups), len(groups) + 1, "sheets")
    if sheets:
        checks += guarded("sheets", lambda: sheet_checks(job, files), files.changed)
    return checks, notes


def unread(files: Files, names: Sequence[str]) -> str:
    """Why a group that goes by any of these parts cannot be checked, to be filled in; "" where it can."""
    if any(files.left_out(name) for name in names):
        return LEFT_OUT
    return PAPER if any(files.on_paper(name) for name in names) else ""


def lettering(files: Files) -> list[Check]:
    """Every drawing's lettering against its outline."""
    names = files.names("cut")
    return guarded("lettering", lambda: [_lettered(files, name) for name in names], files.changed)


def _lettered(files: Files, name: str) -> Check:
    """A mirrored or misplaced outline leaves its lettering behind."""
    plate = files.drawn(name)
    return Check(name, "lettering off the plate by", farthest(plate.engraved, plate.shape), 0.0, SLACK)


def guarded(
    name: str, group: Callable[[], list[Check]], changed: Callable[[], Sequence[str]] = tuple
) -> list[Check]:
    """A group's checks under its name, or one that tells why there are none.

    A file that is missing or cannot be read does not fit. Of any other error the cause is a file that is not as
    make wrote it, where some are (`changed`); where none is, the dry fit itself is at fault.
    """
    try:
        return named(name, group())
    except Refused as refused:
        return named(name, [unfit(name, "; ".join(finding.said for finding in refused.findings))])
    except Exception as error:
        not_as = not_as_made(changed())
        return named(name, [unfit(name, not_as) if not_as else fault(name, error)])


def not_as_made(changed: Sequence[str]) -> str:
    """What is not, told; nothing where all is."""
    if not changed:
        return ""
    more = f" and {len(changed) - 3} more" if len(changed) > 3 else ""
    return f"not as make wrote it: {', '.join(changed[:3])}{more}"


def named(name: str, checks: list[Check]) -> list[Check]:
    """The checks as those of a group."""
    return [replace(check, group=name) for check in checks]


def unfit(name: str, why: str) -> Check:
    """What fails because it cannot be put together."""
    return Check(name, f"cannot be put together: {why}", nan, nan, nan)


def fault(name: str, error: Exception) -> Check:
    """That the dry fit itself failed in a group, and where in its code."""
    frames = [f for f in extract_tb(error.__traceback__) if HERE in Path(f.filename).parents]
    place = f" ({Path(frames[-1].filename).name}, line {frames[-1].lineno})" if frames else ""
    return Check(name, f"the dry fit itself failed at {name}{place}; please report it", nan, fault=True)


GROUP = "files"


def as_made_checks(files: Files) -> list[Check]:
    """Of each file of the set: it is there."""
    return [
        Check(name, "files there", float((files.folder / name).is_file()), 1, 1, "pieces", GROUP)
        for name in files.written
    ]
