"""Files as a user has them: what never ends or is no file is not read."""

from __future__ import annotations

from pathlib import Path
from stat import S_ISDIR, S_ISREG

READINGS = ".readings.toml"
MOST = 50_000_000  # bytes; a drawing of ten thousand points has one


def readings_file(job: Path) -> Path:
    """Where the readings of a job file stand: hoop.toml has hoop.readings.toml beside it."""
    return job.with_name(job.stem + READINGS)


def check_ordinary(path: Path) -> None:
    """Raises OSError where the path is not that of a file that can be read to its end: a pipe, a device, too large."""
    status = path.stat()
    if S_ISDIR(status.st_mode):
        raise OSError("it is a folder")
    if not S_ISREG(status.st_mode):
        raise OSError("it is a pipe or a device, not a file")
    if status.st_size > MOST:
        raise OSError(f"it is larger than {MOST // 1_000_000} MB")


def read_ordinary(path: Path) -> bytes:
    """The content of a file. Raises OSError, also as `check_ordinary` does."""
    check_ordinary(path)
    return path.read_bytes()
