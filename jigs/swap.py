"""A folder written beside the old one and swapped in whole: killed at any moment, one whole set stands."""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TextIO

from jigs.findings import Finding, Refused

AT_FDCWD, RENAME_EXCHANGE = -100, 2


@contextmanager
def only_one(root: Path, name: str) -> Iterator[None]:
    """Hold the lock of one output folder. Raises Refused when another make or a dry fit holds it."""
    with (root / f".{name}.lock").open("w") as lock:
        _hold(lock.fileno(), root / name)
        yield


@contextmanager
def none_making(root: Path, name: str) -> Iterator[None]:
    """Keep any make out of one output folder while it is read. Raises Refused when one is at work.

    Where no lock can be written there, no make can write either, unless it is somebody else's: then the lock that
    is there is taken as it can be.
    """
    with ExitStack() as opened:
        lock = _reader(root / f".{name}.lock")
        if lock is not None:
            _hold(opened.enter_context(lock).fileno(), root / name, alone=False)
        yield


def _reader(lock: Path) -> TextIO | None:
    """The lock's file, open; None where there is none and none may be written."""
    for mode in ("a", "r"):
        try:
            return lock.open(mode)
        except OSError:
            continue
    return None


def _hold(descriptor: int, folder: Path, alone: bool = True) -> None:
    if not _locked(descriptor, alone):
        remedy = "let it finish, then run this again"
        raise Refused([Finding("busy", f"another make or dry fit is at work in {folder}", remedy)])


def _locked(descriptor: int, alone: bool) -> bool:
    """Lock an open file until it is closed or the process ends; False when another holds it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(descriptor, (fcntl.LOCK_EX if alone else fcntl.LOCK_SH) | fcntl.LOCK_NB)
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
