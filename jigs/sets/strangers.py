"""Files in a job's folder that its manifest does not name: the user's own stay, jigs of a lost manifest go aside."""

from __future__ import annotations

import os
import shutil
from collections.abc import Container, Iterator, Sequence
from pathlib import Path

from jigs.files.manifest import DRY_FIT, LAST_CHANGE, MANIFEST
from jigs.words.file_names import without_job
from jigs.words.findings import Finding

ASIDE = "set-aside"  # in the job's folder
FOLDERS = {"print", "cut", "laser", "turn", "paper", "sheets", "tables", "pictures"}  # that makes write to
MOST = 12  # names in a message


def keep_strangers(folder: Path, fresh: Path, known: Container[str]) -> None:
    """Carry over into the new set whatever the user put into the old one: what is not `known`, by name."""
    for name in _names(folder):
        if name not in known and name not in (MANIFEST, DRY_FIT):
            _bring(folder / name, fresh / name)


def set_aside(folder: Path, fresh: Path) -> tuple[str, ...]:
    """Bring what a set without a manifest held into a folder of its own in the new one.

    That is what lies where makes write and is not the same in the new set; everything else is the user's. Returns
    the names in the old set, first those that the new set has no file of.
    """
    new = {file.name for file in fresh.iterdir()}
    ours = FOLDERS | new | {without_job(name) for name in new} | {LAST_CHANGE}  # once named without the job
    unknown = [
        name
        for name in _names(folder)
        if name.split("/")[0] in ours and name != MANIFEST and not _same(folder / name, fresh / name)
    ]
    unknown.sort(key=lambda name: ((fresh / name).exists(), name))
    to = fresh / _free(folder)
    for name in unknown:
        _bring(folder / name, to / name)
    return tuple(unknown)


def _free(folder: Path) -> str:
    """A name that nothing set aside before has taken."""
    names = (ASIDE, *(f"{ASIDE}-{number}" for number in range(2, 10000)))
    return next(name for name in names if not os.path.lexists(folder / name))


def aside_finding(folder: Path, names: Sequence[str]) -> Finding:
    """What is told when the old set's jigs cannot be told apart from any other file."""
    damaged = (folder / MANIFEST).exists()
    what = "is damaged, or from another version of this tool" if damaged else "is gone"
    more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
    moved = f"{len(names)} files that this make did not write are in {folder / _free(folder)}"
    return Finding(
        "manifest-lost",
        f"{folder / MANIFEST} {what}; {moved}: {', '.join(names[:MOST])}{more}",
        "Compare every jig in your rack with its new file before you use it",
        severity="warning",
    )


def _names(folder: Path) -> Iterator[str]:
    """Files, links and empty folders, with forward slashes."""
    for at, folders, files in os.walk(folder):
        here = Path(at)
        links = [name for name in folders if (here / name).is_symlink()]
        empty = [name for name in folders if name not in links and not any((here / name).iterdir())]
        for name in sorted((*files, *links, *empty)):
            yield (here / name).relative_to(folder).as_posix()


def _same(one: Path, other: Path) -> bool:
    return one.is_file() and other.is_file() and one.read_bytes() == other.read_bytes()


def _bring(file: Path, to: Path) -> None:
    """By a link where the disk has them, so that large files cost nothing; nothing in the new set is overwritten."""
    if os.path.lexists(to):
        return
    to.parent.mkdir(parents=True, exist_ok=True)
    if file.is_symlink():
        to.symlink_to(os.readlink(file), target_is_directory=file.is_dir())
    elif file.is_dir():
        to.mkdir()
    elif file.is_file():
        linked(file, to)


def linked(file: Path, to: Path) -> None:
    """The same file under another name, or a copy where the disk has no links."""
    try:
        os.link(file, to)
    except OSError:
        shutil.copy2(file, to)
