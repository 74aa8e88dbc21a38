"""Whether a job's set stands as a make left it: told from its manifest, before anything is read that takes long."""

from __future__ import annotations

import tomllib
from pathlib import Path

from geometry.records import Record
from jigs.asked.toml_source import read_ordinary, readings_file
from jigs.files.manifest import input_print, read_manifest, whole
from jigs.sets.swap import only_one
from jigs.words.findings import Refused


class Standing(Record):
    """A set that is what its job asks for."""

    folder: Path
    files: tuple[str, ...]
    parts: tuple[str, ...]


def standing_of(file: Path, root: Path, lean: bool = False) -> Standing | None:
    """The set in `root` of a job file, where nothing that it was made from has changed and every file is as written.

    None where that is not to be seen without reading the job. Raises Refused when a make is at work there.
    """
    try:
        name = _name(file)
        inputs = _inputs(file, root / name)
        with only_one(root, name):
            return standing(root / name, inputs, lean)
    except Refused:
        raise
    except (OSError, ValueError, RecursionError):  # whoever reads the job says what is wrong with it
        return None


def _inputs(file: Path, folder: Path) -> str:
    """The digest of what a set was made from, as that is now. Raises ValueError where it was made from other files."""
    manifest = read_manifest(folder) or {}
    sources = [file, *(file.parent / str(source) for source in manifest.get("sources", ()))]
    readings, inputs = readings_file(file), input_print(sources)
    if manifest.get("inputs_sha256") != inputs or readings.exists() != (readings in sources):
        raise ValueError(f"{folder} was not made from {file} as it is")
    return inputs


def standing(folder: Path, inputs: str, lean: bool = False) -> Standing | None:
    """The set in a folder, where it was made from these inputs and every file is as written.

    One that leaves jigs out stands for a lean one, and no other does: a lean set's book names what to use instead.
    """
    manifest = read_manifest(folder)
    if manifest is None or manifest.get("inputs_sha256") != inputs or not whole(folder, manifest):
        return None
    if bool(manifest.get("left_out")) != lean:
        return None
    rows = manifest["files"]
    return Standing(folder, tuple(row["file"] for row in rows), tuple(row["part"] for row in rows))


def _name(file: Path) -> str:
    """What a job file calls its job. Raises OSError or ValueError where that is no file of TOML."""
    return str(tomllib.loads(read_ordinary(file).decode("utf-8-sig")).get("name", file.stem))
