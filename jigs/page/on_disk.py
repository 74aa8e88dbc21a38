"""Files as they are on disk: written whole or not at all, and watched."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from pathlib import Path

Stamps = dict[Path, tuple[int, int] | None]


def swap_in(path: Path, raw: bytes) -> None:
    """Write a file whole or not at all. Raises OSError."""
    number, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    fresh = Path(name)
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(raw)
        fresh.chmod(path.stat().st_mode if path.exists() else 0o644)
        fresh.replace(path.resolve())
    except OSError:
        fresh.unlink(missing_ok=True)
        raise


def stamps(files: Iterable[Path]) -> Stamps:
    """When each was changed last, and its size; None for one that is not there."""
    return {file: _stamp(file) for file in files}


def _stamp(file: Path) -> tuple[int, int] | None:
    try:
        status = file.stat()
    except OSError:
        return None
    return status.st_mtime_ns, status.st_size
