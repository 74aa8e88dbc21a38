"""Names of the files of a set: each says whose job it is, so that two jobs on one stick do not overwrite each other.

They are made of what every system takes: letters, digits, - and _, points inside. A job's name begins with a letter
or a digit and is no device's (`jigs.asked.values.NAME_PATTERN`). What a file is of has no _, so that the last _ parts
the two whatever the job is called.
"""

from __future__ import annotations

from pathlib import Path, PurePosixPath

BETWEEN = "_"
# On paper, as steps name it too: drawings at full size, labels, tape layouts, a sheet for each ring.
FULL_SIZE, LABELS, TAPES, RINGS = (f"paper/{what}.pdf" for what in ("full-size", "labels", "tapes", "rings"))


def of_job(job: str, file: str) -> str:
    """ "cut/hoop_sled-base.dxf" of "hoop" and "cut/sled-base.dxf"."""
    path = PurePosixPath(file)
    return path.with_name(f"{job}{BETWEEN}{path.name}").as_posix()


def without_job(name: str) -> str:
    """ "sled-base.dxf" of "hoop_sled-base.dxf"."""
    return name.rpartition(BETWEEN)[2]


def as_typed(file: Path) -> str:
    """A file's name as a command takes it: in quotes where it has a space."""
    return f'"{file}"' if " " in str(file) else str(file)


def what_of(file: Path) -> str:
    """What a file is of: "sled-base" of cut/hoop_sled-base.dxf."""
    return without_job(file.stem)
