"""Processes of our own beside the server's: begun with an order, and ended with all that they began."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from asyncio.subprocess import PIPE, Process
from contextlib import suppress

RESTED = 0.5  # seconds
LONGEST = 50_000_000  # bytes of one line of an answer
_GROUPS = os.name == "posix"


async def begun(module: str) -> Process:
    """A module's process, its own group where the system has groups; it takes orders and answers by lines.

    It stays in our session: a group that rests is then woken and ended by the system when we are gone.
    """
    return await asyncio.create_subprocess_exec(
        sys.executable, "-m", module, stdin=PIPE, stdout=PIPE, limit=LONGEST,
        env={**os.environ, "OPENBLAS_NUM_THREADS": "1"}, process_group=0 if _GROUPS else None,
    )  # fmt: skip


def kill(process: Process) -> None:
    """End it at once, and what it began."""
    with suppress(ProcessLookupError):
        if _GROUPS:
            os.killpg(process.pid, signal.SIGKILL)
        else:
            process.kill()


class Rest:
    """Lets a process stand still, with what it began, until nothing was dragged for a while; where there are groups."""

    def __init__(self, process: Process) -> None:
        self._process = process
        self._timer: asyncio.TimerHandle | None = None

    def begin(self) -> None:
        """From now on, for RESTED seconds after the last time that this was called."""
        if not _GROUPS or self._process.returncode is not None:
            return
        self._send(signal.SIGSTOP)
        self.forget()
        self._timer = asyncio.get_running_loop().call_later(RESTED, self._send, signal.SIGCONT)

    def forget(self) -> None:
        """The process ends: nobody is to be woken."""
        if self._timer is not None:
            self._timer.cancel()

    def _send(self, number: int) -> None:
        with suppress(ProcessLookupError):
            os.killpg(self._process.pid, number)
