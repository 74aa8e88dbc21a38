"""A progress bar on the terminal for work that takes over a second."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

Progress = Callable[[int, int, str], None]  # how many are done, of how many, what comes next

WIDTH = 30
LONGEST = 79  # characters of the bar with its words
PATIENCE = 0.6  # seconds without a bar


def silent_progress(done: int, total: int, name: str) -> None:
    """Shows nothing."""


@contextmanager
def progress_bar(quiet: bool = False) -> Iterator[Progress]:
    """Yield a function of (done, total, name) that draws the bar on a terminal's standard error."""
    begun = time.monotonic()
    silent = quiet or not sys.stderr.isatty()
    room = 0 if silent else _room()

    def show(done: int, total: int, name: str) -> None:
        if silent or time.monotonic() - begun < PATIENCE:
            return
        filled = WIDTH * done // max(1, total)
        bar = "#" * filled + "." * (WIDTH - filled)
        print(f"\r{f'[{bar}] {done}/{total} {name}':{room}.{room}}", end="", file=sys.stderr, flush=True)

    try:
        yield show
    finally:
        if not silent:
            print(f"\r{'':{room}}\r", end="", file=sys.stderr, flush=True)


def _room() -> int:
    """Characters of a line on this terminal: what wraps stays on the screen."""
    from shutil import get_terminal_size

    return max(1, min(LONGEST, get_terminal_size().columns - 1))
