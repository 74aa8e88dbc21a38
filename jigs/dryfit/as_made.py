"""Whether every file that make wrote is there."""

from __future__ import annotations

from jigs.dryfit.check import Check
from jigs.dryfit.files import Files

GROUP = "files"


def as_made_checks(files: Files) -> list[Check]:
    """Of each file of the set: it is there."""
    return [
        Check(name, "files there", float((files.folder / name).is_file()), 1, 1, "pieces", GROUP)
        for name in files.written
    ]
