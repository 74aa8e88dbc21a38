"""Files of a set by what they are of."""

from pathlib import Path

from jigs.words.file_names import of_job


def in_set(folder: Path, file: str) -> Path:
    """The file of "cut/sled-base.dxf" in the folder of a job's set."""
    return folder / of_job(folder.name, file)
