"""From a job file to a set of files on disk: gather, write, measure back, swap in whole."""

from __future__ import annotations

import errno
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from jigs.findings import Finding, Refused
from jigs.manifest import MANIFEST, Entry, input_print, manifest_text, read_manifest, sha256, stands
from jigs.swap import new_folder, only_one

if TYPE_CHECKING:
    from jigs.job import Job
    from jigs.part import Part

FOLDERS = {"print": "print", "cut": "cut", "turn": "turn"}
Progress = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Made:
    """What a make did."""

    folder: Path
    files: tuple[str, ...]
    unchanged: bool
    notes: tuple[Finding, ...]


def make(job: Job, root: Path, progress: Progress | None = None) -> Made:
    """Make a job's whole set in root/<job name>.

    Raises Refused when the job cannot be made, when a written file does not measure what it should, when
    another make is at work and when the disk refuses; the set that stood there then still stands.
    """
    try:
        root.mkdir(parents=True, exist_ok=True)
        with only_one(root, job.name):
            inputs = input_print(job.sources)
            folder = root / job.name
            if stands(folder, inputs):
                files = tuple(entry["file"] for entry in (read_manifest(folder) or {})["files"])
                return Made(folder, files, True, ())
            return _make(job, root, inputs, progress or (lambda done, total, name: None))
    except OSError as error:
        raise Refused([_disk_finding(root, error)]) from error


def _make(job: Job, root: Path, inputs: str, progress: Progress) -> Made:
    from jigs.rack import rack
    from jigs.solve import solve

    plan = solve(job)
    parts, notes = rack(plan)
    with new_folder(root, job.name) as fresh:
        entries = []
        for done, part in enumerate(parts):
            progress(done, len(parts), part.name)
            entries.append(_write(part, fresh, job))
        (fresh / MANIFEST).write_text(manifest_text(job, inputs, entries), "utf-8")
        _keep_strangers(root / job.name, fresh)
        progress(len(parts), len(parts), "")
    return Made(root / job.name, tuple(e.file for e in entries), False, (*plan.notes, *notes))


def _write(part: Part, folder: Path, job: Job) -> Entry:
    """Write one part's file and measure it back."""
    from jigs.writers import dxf, stl
    from jigs.writers.readback import MeasureError, measure

    suffix = "stl" if part.process == "print" else "dxf"
    name = f"{FOLDERS[part.process]}/{part.name}.{suffix}"
    file = folder / name
    file.parent.mkdir(exist_ok=True)
    kerf = job.workshop.cutter.kerf if part.process == "cut" else 0.0
    try:
        if part.process == "print":
            stl.write_stl(part, file)
            read = stl.read_stl(file)
        else:
            dxf.write_dxf(part, file, kerf)
            read = dxf.read_dxf(file, kerf)
        measured = measure(part, read)
    except (MeasureError, ValueError) as error:
        raise Refused(
            [Finding("does-not-measure", f"{name}: {error}", "report this: it is the tool's fault")]
        ) from error
    return Entry(
        file=name,
        family=part.family,
        part=part.name,
        purpose=part.purpose,
        process=part.process,
        material=part.material,
        quantity=part.quantity,
        sha256=sha256(file.read_bytes()),
        dimensions=tuple(
            {"name": m.name, "value": round(m.nominal, 6), "unit": m.unit, "measured": round(m.measured, 6)}
            for m in measured
        ),
        notes=part.notes,
    )


def _keep_strangers(old: Path, fresh: Path) -> None:
    """Carry over whatever the user put into the old set: files that no manifest names."""
    ours = {entry["file"] for entry in (read_manifest(old) or {"files": []})["files"]} | {MANIFEST}
    for file in sorted(old.rglob("*")) if old.exists() else ():
        name = file.relative_to(old).as_posix()
        if file.is_file() and name not in ours and not (fresh / name).exists():
            (fresh / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(file, fresh / name)


def _disk_finding(root: Path, error: OSError) -> Finding:
    remedy = {
        errno.ENOSPC: "free some room on that disk",
        errno.EACCES: "choose a folder you may write to, with --into",
        errno.EROFS: "choose a folder you may write to, with --into",
    }.get(error.errno or 0, "mend that, then run this again")
    return Finding(
        "cannot-write", f"{error.filename or root}: {error.strerror or error}; the old set stands", remedy
    )
