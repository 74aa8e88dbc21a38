"""Where a file goes to and comes from: a path or an open binary stream."""

from __future__ import annotations

from pathlib import Path
from typing import BinaryIO

Target = Path | BinaryIO


def put(content: bytes, target: Target) -> None:
    """Write a whole file."""
    if isinstance(target, Path):
        target.write_bytes(content)
    else:
        target.write(content)


def get(target: Target) -> bytes:
    """Read a whole file."""
    return target.read_bytes() if isinstance(target, Path) else target.read()
