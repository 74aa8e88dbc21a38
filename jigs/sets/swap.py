"""A folder written beside the old one and swapped in whole: killed at any moment, one whole set stands."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import TextIO

from jigs.words.findings import Finding, Refused

AT_FDCWD, RENAME_EXCHANGE = -100, 2


@contextmanager
def only_one(root: Path, name: str) -> Iterator[None]:
    """Hold the lock of one output folder. Raises Refused when another make or a dry fit holds it."""
    root, name = _place(root, name)
    with (root / f".{name}.lock").open("a") as lock:
        _hold(lock.fileno(), root / name)
        yield


@contextmanager
def none_making(root: Path, name: str) -> Iterator[None]:
    """Keep any make out of one output folder while it is read. Raises Refused when one is at work.

    Where no lock can be written there, no make can write either, unless it is somebody else's: then the lock that
    is there is taken as it can be.
    """
    root, name = _place(root, name)
    with ExitStack() as opened:
        lock = _reader(root / f".{name}.lock")
        if lock is not None:
            _hold(opened.enter_context(lock).fileno(), root / name, alone=False)
        yield


def _place(root: Path, name: str) -> tuple[Path, str]:
    """Where root/name is, if that is a link: what stands beside a folder can be exchanged for it, links cannot."""
    folder = root / name
    if not folder.is_symlink():
        return root, name
    real = Path(os.path.realpath(folder))
    return real.parent, real.name


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

    A set that a killed run had moved aside is put back first. Leftovers that cannot be deleted are left; they hinder
    nothing. Where root/name is a link, the folder that it leads to is replaced. Raises Refused where it is a file.
    """
    root, name = _place(root, name)
    final = root / name
    _put_back(root, name)
    if os.path.lexists(final) and not final.is_dir():
        message = f"{final} is a file; a folder of that name is to hold the jigs"
        remedy = "rename that file, or choose another place with --into"
        raise Refused([Finding("not-a-folder", message, remedy)])
    _clear(root, name)
    fresh, old = _free(root, f".{name}.new"), _free(root, f".{name}.old")
    fresh.mkdir()
    try:
        yield fresh
        swap(fresh, final, old)
    finally:
        _clear(root, name)


def tidy(root: Path, name: str) -> None:
    """Clear away what a killed make left beside root/name, unless another is at work there."""
    with suppress(Refused, OSError), only_one(root, name):
        sweep(root, name)


def sweep(root: Path, name: str) -> None:
    """Clear away what a killed make left beside root/name, by one who holds its lock."""
    root, name = _place(root, name)
    _put_back(root, name)
    _clear(root, name)


def leftovers(root: Path, name: str) -> list[Path]:
    """What runs before this one left beside root/name, the newest last."""
    root, name = _place(root, name)
    kinds = re.compile(rf"\.{re.escape(name)}\.(new|old)(?:-(\d+))?")
    found = [(match, file) for file in root.iterdir() if (match := kinds.fullmatch(file.name))]
    return [file for _, file in sorted(found, key=lambda one: int(one[0][2] or 1))]


def _put_back(root: Path, name: str) -> None:
    if not os.path.lexists(root / name):
        moved = [file for file in leftovers(root, name) if ".old" in file.suffix and file.is_dir()]
        if moved:
            moved[-1].rename(root / name)


def _clear(root: Path, name: str) -> None:
    """Delete what is left over, as far as the system lets us."""
    for file in leftovers(root, name):
        if file.is_dir() and not file.is_symlink():
            shutil.rmtree(file, ignore_errors=True)
            if file.exists():
                _unlock(file)
                shutil.rmtree(file, ignore_errors=True)
        else:
            with suppress(OSError):
                file.unlink()


def _unlock(folder: Path) -> None:
    """Let our own folders be emptied whose modes forbid it."""
    for at, _, _ in os.walk(folder):
        with suppress(OSError):
            os.chmod(at, 0o700)


def _free(root: Path, stem: str) -> Path:
    """The first name of this kind that nothing has."""
    names = (stem, *(f"{stem}-{number}" for number in range(2, 10000)))
    return next(root / name for name in names if not os.path.lexists(root / name))


def swap(fresh: Path, final: Path, aside: Path) -> None:
    """Put `fresh` in the place of `final`, in one step where the system can, else by way of `aside`."""
    if not os.path.lexists(final):
        fresh.rename(final)
    elif not _exchanged(fresh, final):
        final.rename(aside)
        fresh.rename(final)


def _exchanged(one: Path, other: Path) -> bool:
    """Exchange two folders atomically (Linux renameat2); False where the system does not offer it."""
    if not sys.platform.startswith("linux"):
        return False
    import ctypes

    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    return bool(
        rename(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), ctypes.c_uint(RENAME_EXCHANGE)) == 0
    )
