"""A file written whole or not at all: on a full disk nothing of it is left, and what stood there stands."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def swap_in(path: Path, content: bytes) -> None:
    """Write a file whole or not at all. Raises OSError."""
    number, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    fresh = Path(name)
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(content)
        fresh.chmod(path.stat().st_mode if path.exists() else 0o644)
        fresh.replace(path.resolve())
    except OSError:
        fresh.unlink(missing_ok=True)
        raise
