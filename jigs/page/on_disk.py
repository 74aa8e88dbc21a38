"""When files were changed on disk, by which they are watched."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

Stamps = dict[Path, tuple[int, int] | None]


def stamps(files: Iterable[Path]) -> Stamps:
    """When each was changed last, and its size; None for one that is not there."""
    return {file: _stamp(file) for file in files}


def _stamp(file: Path) -> tuple[int, int] | None:
    try:
        status = file.stat()
    except OSError:
        return None
    return status.st_mtime_ns, status.st_size
