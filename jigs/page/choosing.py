"""Choices worked out by a process of their own: it is ended when they are there, unwanted, or stale."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Mapping
from contextlib import aclosing
from dataclasses import dataclass, field
from typing import Any

from jigs.page.contract import Said
from jigs.page.contract_state import Choices
from jigs.page.worker import Worker, WorkerFailed

FAILED = Choices("failed", findings=[Said("refused", "failed", "The choices could not be worked out.")])


@dataclass
class Chooser:
    """The choices of a job, as they are known."""

    record: Choices | dict[str, Any] = field(default_factory=Choices)

    def __post_init__(self) -> None:
        self._task: asyncio.Task[None] | None = None
        self._worker = Worker()

    async def begin(self, order: Mapping[str, Any], tell: Callable[[], Awaitable[None]]) -> None:
        """Begin anew; `tell` is awaited when the record has changed."""
        await self.stop()
        self.record = Choices("working")
        self._task = asyncio.create_task(self._work(order, tell))

    async def stop(self) -> None:
        """End what is under way."""
        if self._task is not None and not self._task.done():
            self._task.cancel()
            await asyncio.gather(self._task, return_exceptions=True)
            self.record = Choices("stopped")

    def rest(self) -> None:
        """Make room for a hand that drags."""
        self._worker.rest()

    async def forget(self) -> None:
        """The job is another now."""
        await self.stop()
        self.record = Choices()

    async def _work(self, order: Mapping[str, Any], tell: Callable[[], Awaitable[None]]) -> None:
        worker = self._worker = Worker()
        try:
            async with aclosing(worker.answers(order)) as answers:
                async for answer in answers:
                    self.record = answer
        except WorkerFailed:
            self.record = FAILED
        finally:
            await worker.gone()
        await tell()
