"""manifest.json: every file of a set, what it is, how it measures; and whether a set still stands."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Mapping
from functools import cache
from io import FileIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from geometry.records import Record
from jigs import __version__

if TYPE_CHECKING:
    from jigs.asked.job import Job

MANIFEST = "manifest.json"
DRY_FIT = "dry-fit.svg"  # the picture of a dry fit, which the next make discards
LAST_CHANGE = "last-change.txt"  # what the last make that changed a set said of it; no other history is kept
FORMAT = 3
SELF = "manifest_sha256"
SOURCES = (".py", ".dxf", ".j2", ".css", ".js", ".typ", ".ttf")  # what the tool is made of


class Entry(Record):
    """One written file."""

    file: str  # relative, with forward slashes
    family: str
    code: str  # lettered on the part
    part: str
    purpose: str
    process: str
    material: str
    quantity: int
    content_sha256: str  # of what the part is, whatever the format
    sha256: str  # of the file
    dimensions: tuple[dict[str, Any], ...]  # name, value, unit, measured
    judged_by: dict[str, Any]  # what else an old jig is judged by (jigs.sets.changes)


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


@cache
def tool_print() -> str:
    """Digest of the tool's own sources, so that a changed tool remakes what it made."""
    digest = hashlib.sha256()
    here = Path(__file__).parents[1]
    for folder in (here, here.parent / "geometry"):
        found = (os.path.join(at, file) for at, _, files in os.walk(folder) for file in files)
        for source in sorted(file for file in found if file.endswith(SOURCES)):
            with FileIO(source) as file:  # some 800 of them: a Path for each takes as long as reading it
                digest.update(file.readall())
    return digest.hexdigest()


def input_print(files: Iterable[Path]) -> str:
    """Digest of the files a job was read from and of the tool."""
    digest = hashlib.sha256(f"{FORMAT} {__version__} {tool_print()}".encode())
    for file in files:
        digest.update(sha256(file.read_bytes()).encode())
    return digest.hexdigest()


def manifest_text(
    job: Job,
    inputs: str,
    entries: Iterable[Entry],
    extras: Iterable[Mapping[str, str]] = (),
    sleds: Iterable[Mapping[str, Any]] = (),
    followed: Mapping[str, float] | None = None,
    work: Mapping[str, Any] | None = None,
    corrected: Mapping[str, float] | None = None,
    without: Iterable[str] = (),
) -> str:
    """The manifest as JSON: same entries, same text. `extras` are the rows of what is no jig, `work` its record.

    `corrected` says by how much readings have changed what is drawn: by id, mm or radians. `without` names the parts
    that a lean rack leaves out.
    """
    content = {
        "format": FORMAT,
        "tool": f"jigs {__version__}",
        "job": job.name,
        "title": job.title,
        "job_file": job.sources[0].name if job.sources else "",
        "tool_sha256": tool_print(),
        "inputs_sha256": inputs,
        "sources": _beside(job),
        "files": [
            {
                "file": e.file,
                "family": e.family,
                "code": e.code,
                "part": e.part,
                "purpose": e.purpose,
                "process": e.process,
                "material": e.material,
                "quantity": e.quantity,
                "dimensions": list(e.dimensions),
                "content_sha256": e.content_sha256,
                **e.judged_by,
                "sha256": e.sha256,
            }
            for e in entries
        ],
        "extras": list(extras),
        "sleds": list(sleds),
        "followed": {key: round(value, 6) for key, value in (followed or {}).items()},
        "corrected": {id: round(value, 9) for id, value in (corrected or {}).items()},
        "work": work or {},
        **({"left_out": sorted(without)} if without else {}),
    }
    return sealed(content)


def _beside(job: Job) -> list[str]:
    """The files that a job was read from besides its own, as seen from there."""
    return [Path(os.path.relpath(file, job.sources[0].parent)).as_posix() for file in job.sources[1:]]


def sealed(content: Mapping[str, Any]) -> str:
    """A manifest's text, with the digest of what it says."""
    whole = {**content, SELF: _self_print(content)}
    return json.dumps(whole, indent=1, ensure_ascii=False) + "\n"


def _self_print(content: Mapping[str, Any]) -> str:
    """Digest of all that a manifest says but for this."""
    said = {key: value for key, value in content.items() if key != SELF}
    return sha256(json.dumps(said, sort_keys=True).encode())


def read_manifest(folder: Path) -> dict[str, Any] | None:
    """The manifest of a set, or None where there is none that is whole and as it was written."""
    try:
        content = json.loads((folder / MANIFEST).read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return None
    return content if isinstance(content, dict) and content.get(SELF) == _self_print(content) else None


def made_from(folder: Path, files: Iterable[Path]) -> bool:
    """Whether the set in `folder` was made from these files as they are, by this tool."""
    return (read_manifest(folder) or {}).get("inputs_sha256") == input_print(files)


def whole(folder: Path, manifest: Mapping[str, Any]) -> bool:
    """Whether every file that a set's manifest names is as it was written."""
    return all(
        as_written(folder / entry["file"], entry["sha256"])
        for entry in (*manifest["files"], *extras_of(manifest))
    )


def extras_of(manifest: Mapping[str, Any]) -> list[dict[str, str]]:
    """The rows of what a manifest names besides its jigs."""
    extras = manifest.get("extras", [])
    return [row for row in extras if _is_extra(row)] if isinstance(extras, list) else []


def _is_extra(row: object) -> bool:
    return isinstance(row, dict) and all(isinstance(row.get(key), str) for key in ("file", "sha256"))


def as_written(file: Path, digest: str) -> bool:
    """Whether a file is there with this SHA-256."""
    try:
        return sha256(file.read_bytes()) == digest
    except OSError:
        return False
