"""Processes of our own beside the server's: begun with an order, and ended with all that they began."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from asyncio.subprocess import PIPE, Process
from contextlib import suppress

LONGEST = 50_000_000  # bytes of one line of an answer
_GROUPS = os.name == "posix"


async def begun(module: str) -> Process:
    """A module's process, its own group where the system has groups; it takes orders and answers by lines."""
    return await asyncio.create_subprocess_exec(
        sys.executable, "-m", module, stdin=PIPE, stdout=PIPE, limit=LONGEST,
        env={**os.environ, "OPENBLAS_NUM_THREADS": "1"}, start_new_session=_GROUPS,
    )  # fmt: skip


def kill(process: Process) -> None:
    """End it at once, and what it began."""
    with suppress(ProcessLookupError):
        if _GROUPS:
            os.killpg(process.pid, signal.SIGKILL)
        else:
            process.kill()
