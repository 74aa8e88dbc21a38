"""A folder written beside the old one and swapped in whole: killed at any moment, one whole set stands."""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from jigs.findings import Finding, Refused

AT_FDCWD, RENAME_EXCHANGE = -100, 2


@contextmanager
def only_one(root: Path, name: str) -> Iterator[None]:
    """Hold the lock of one output folder. Raises Refused when another make holds it."""
    with (root / f".{name}.lock").open("w") as lock:
        if not _locked(lock.fileno()):
            raise Refused(
                [
                    Finding(
                        "busy", f"another make is writing {root / name}", "let it finish, then run this again"
                    )
                ]
            )
        yield


def _locked(descriptor: int) -> bool:
    """Lock an open file until it is closed or the process ends; False when another holds it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


@contextmanager
def new_folder(root: Path, name: str) -> Iterator[Path]:
    """Yield an empty folder that replaces root/name when the block ends without an error.

    Leftovers of a killed run are cleared first, and a set that it had moved aside is put back.
    """
    fresh, old, final = root / f".{name}.new", root / f".{name}.old", root / name
    if old.exists() and not final.exists():
        old.rename(final)
    for leftover in (fresh, old):
        shutil.rmtree(leftover, ignore_errors=True)
    fresh.mkdir()
    try:
        yield fresh
        swap(fresh, final, old)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
        shutil.rmtree(old, ignore_errors=True)


def swap(fresh: Path, final: Path, aside: Path) -> None:
    """Put `fresh` in the place of `final`, in one step where the system can, else by way of `aside`."""
    if not final.exists():
        fresh.rename(final)
    elif not _exchanged(fresh, final):
        final.rename(aside)
        fresh.rename(final)


def _exchanged(one: Path, other: Path) -> bool:
    """Exchange two folders atomically (Linux renameat2); False where the system does not offer it."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    return bool(
        rename(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), ctypes.c_uint(RENAME_EXCHANGE)) == 0
    )
