"""The set that a make replaces: what of it can be carried over, and what of the rack is now wrong."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from geometry.measuring.drawn_size import DrawnSize
from jigs.files.manifest import Entry, as_written, extras_of, read_manifest, tool_print
from jigs.sets.strangers import aside_finding, keep_strangers, linked, set_aside
from jigs.words.findings import Finding

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.parts.part import Part
    from jigs.parts.readback import ReadBack
    from jigs.sets.changes import Difference
    from jigs.work.changes import WorkChanges
    from jigs.work.model import Work

GONE = "the job no longer has it"


class OldSet:
    """The files and the manifest in a job's folder, as the last make left them; empty where there are none."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        found = read_manifest(folder)
        self.known, manifest = found is not None, found or {"files": []}
        self.job_file: str = manifest.get("job_file", "")
        self.same_tool = manifest.get("tool_sha256") == tool_print()
        self.extras = {row["file"]: row["sha256"] for row in extras_of(manifest)}
        self.followed: dict[str, float] = manifest.get("followed", {})
        self.record: dict[str, Any] = manifest.get("work", {})
        self.entries: dict[str, dict[str, Any]] = {entry["file"]: entry for entry in manifest["files"]}

    def has(self, entry: Entry) -> bool:
        """Whether the old set held this part's very file, whatever it was called."""
        return self._by_part().get(entry.part, {}).get("sha256") == entry.sha256

    def carry(self, name: str, content: str, to: Path) -> dict[str, Any] | None:
        """Bring an old file over if it shows the same part and is as it was written; return its entry."""
        entry = self.entries.get(name)
        if not self.same_tool or entry is None or entry.get("content_sha256") != content:
            return None
        if not as_written(self.folder / name, entry["sha256"]):
            return None
        linked(self.folder / name, to)
        return entry

    def keep_strangers(self, fresh: Path, stale: Iterable[str]) -> tuple[Finding, ...]:
        """Carry over whatever the user put into the folder: files that no manifest names and are not `stale`.

        Without a manifest nothing tells old jigs from the user's files: see `set_aside`.
        """
        known = {*self.entries, *self.extras, *stale}
        aside = () if self.known else set_aside(self.folder, fresh)
        keep_strangers(self.folder, fresh, {*known, *aside})
        return (aside_finding(self.folder, aside),) if aside else ()

    def compared(
        self, parts: Iterable[Part], entries: Iterable[Entry], job: Job, without: Iterable[Part] = ()
    ) -> list[Difference]:
        """What differs between the old jigs and the new ones of a job, those no longer wanted last.

        Parts `without` files of their own are held against old ones all the same.
        """
        from jigs.sets.changes import Difference

        by_part = self._by_part()
        new = list(zip(parts, entries, strict=True))
        found = [
            self.against(part, job)
            for part, entry in new
            if part.name in by_part and (part.bore or not self.has(entry))
        ]
        unmade = [part for part in without if part.name in by_part]
        found += [self.against(part, job) for part in unmade]
        gone = sorted(by_part.keys() - {part.name for part in (*unmade, *(part for part, _ in new))})
        return [*found, *(Difference(name, (GONE,), ()) for name in gone)]

    def drawn_as(self, name: str, drawn: DrawnSize) -> bool:
        """Whether its print of that name was drawn for a printer that errs so."""
        entry = self._by_part().get(name)
        return entry is not None and _drawn(entry) == drawn

    def serves(self, part: Part, job: Job) -> bool:
        """Whether its old jig of that name does what a part does."""
        return not self.against(part, job).wrong

    def against(self, part: Part, job: Job) -> Difference:
        """How its old jig of that name differs from a part, as the job's machines are now known to make both.

        Raises KeyError where it has none.
        """
        from jigs.files.written import drawn_for, kerf_for
        from jigs.sets.changes import as_cut, as_printed, difference

        entry = self._by_part()[part.name]
        found = difference(part, entry, self._read(entry), job.unit)
        found = as_cut(found, kerf_for(part, job) - entry.get("kerf", 0.0), job.unit)
        return as_printed(found, part, _drawn(entry), drawn_for(part, job), job.unit)

    def size(self, name: str, dimension: str) -> float | None:
        """A nominal of its jig of that name, in the manifest's unit; None where it has none."""
        rows = self._by_part().get(name, {}).get("dimensions", ())
        return next((float(row["value"]) for row in rows if row["name"] == dimension), None)

    @property
    def jigs(self) -> frozenset[str]:
        """Their names."""
        return frozenset(self._by_part())

    @property
    def rings(self) -> int:
        """How many rings its work numbers; 0 where it has no record."""
        return max(
            (ring for one in self.record.get("operations", ()) for ring in one.get("rings", ())), default=0
        )

    def _by_part(self) -> dict[str, dict[str, Any]]:
        return {entry["part"]: entry for entry in self.entries.values()}

    def work(self, told: Work) -> WorkChanges:
        """What differs in settings and wood from the work of a new set."""
        from jigs.work.changes import WorkChanges, changes

        return changes(self.record, told) if self.entries else WorkChanges()

    def _read(self, entry: dict[str, Any]) -> ReadBack | None:
        from jigs.files.formats import FORMATS
        from jigs.files.written import as_made

        try:
            read = FORMATS[entry["process"]].read(self.folder / entry["file"], entry.get("kerf", 0.0))
            return as_made(read, _drawn(entry))
        except (OSError, ValueError, KeyError, TypeError):
            return None


def _drawn(entry: Mapping[str, Any]) -> DrawnSize:
    """How a manifest's entry says that its part was drawn."""
    return DrawnSize(*entry.get("drawn", ()))
