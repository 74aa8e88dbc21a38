"""What a make did, for whoever tells of it."""

from __future__ import annotations

from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING

from geometry.records import Record
from jigs.sets.keep import Keep
from jigs.sets.standing import Standing
from jigs.words.findings import Finding
from jigs.work.changes import WorkChanges

if TYPE_CHECKING:
    from jigs.work.model import Work


class Made(Record):
    """What a make did, and what it makes of the rack: jigs by name."""

    folder: Path
    files: tuple[str, ...]
    unchanged: bool
    notes: tuple[Finding, ...] = ()
    remade: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    wrong: tuple[tuple[str, str], ...] = ()  # an old jig and why it is wrong
    done: tuple[str, ...] = ()  # old jigs that would be wrong, but have done their work
    near: tuple[tuple[str, str], ...] = ()  # an old jig that is out by less than its tolerance
    to_do: tuple[tuple[str, str], ...] = ()  # what is left to do to an old jig that still serves
    work: WorkChanges = field(default_factory=WorkChanges)
    told: Work | None = None  # the new work, which the changes are named by
    keep: tuple[Keep, ...] = ()  # keys to state as they were, which keeps wrong jigs right
    sleds: tuple[tuple[str, str], ...] = ()  # a sled, and the job whose old one serves as it stands


def unchanged(found: Standing) -> Made:
    """What a make that had nothing to do did."""
    return Made(found.folder, found.files, True, right=found.parts)
