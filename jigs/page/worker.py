"""The second process: it has the slow half of the newest text, and is ended when the text changes under it."""

from __future__ import annotations

import asyncio
import json
from asyncio.subprocess import Process
from collections.abc import AsyncGenerator, Mapping
from contextlib import aclosing
from typing import Any

from jigs.page.process import Rest, begun, kill


class WorkerFailed(Exception):
    """The process ended before it had answered."""


class Worker:
    """One process at most, begun when it is wanted."""

    def __init__(self) -> None:
        self._one = asyncio.Lock()
        self._process: Process | None = None
        self._rest: Rest | None = None
        self._ended: list[Process] = []  # and not yet gone

    async def begin(self) -> None:
        """Begin the process ahead of an order, if there is none."""
        async with self._one:
            await self._running()

    async def answers(self, order: Mapping[str, Any]) -> AsyncGenerator[dict[str, Any], None]:
        """The answers of `slow_child` to an order, after those before it. Raises WorkerFailed where the process ends.

        When this is cancelled half-way the process is ended, and the next order gets a new one.
        """
        async with self._one, aclosing(self._answers(order)) as answers:
            async for answer in answers:
                yield answer

    async def _answers(self, order: Mapping[str, Any]) -> AsyncGenerator[dict[str, Any], None]:
        process = await self._running()
        done = False
        try:
            orders, told = process.stdin, process.stdout
            if orders is None or told is None:
                raise WorkerFailed
            orders.write(json.dumps(order).encode() + b"\n")
            await orders.drain()
            while line := await told.readline():
                if line == b"\n":
                    done = True
                    return
                yield json.loads(line)
            raise WorkerFailed
        except (ConnectionError, ValueError) as error:
            raise WorkerFailed from error
        finally:
            if not done:
                self.end()

    def rest(self) -> None:
        """Make room for a hand that drags."""
        if self._rest is not None:
            self._rest.begin()

    def end(self) -> None:
        """End the process at once."""
        if self._process is None:
            return
        if self._rest is not None:
            self._rest.forget()
        self._rest = None
        kill(self._process)
        self._ended = [one for one in self._ended if one.returncode is None] + [self._process]
        self._process = None

    async def gone(self) -> None:
        """End the process and wait until it and those before it are."""
        self.end()
        for process in self._ended:
            await process.communicate()

    async def _running(self) -> Process:
        if self._process is None or self._process.returncode is not None:
            self._process = await begun("jigs.page.slow_child")
            self._rest = Rest(self._process)
        return self._process
