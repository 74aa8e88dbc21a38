"""The slow half of the newest text: worked out anew each time it is wanted, in a second process."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Mapping
from contextlib import aclosing
from typing import Any

from jigs.page.worker import Worker, WorkerFailed

PAUSE = 0.2  # seconds without another edit, or a dragged size, before its process begins, if there is none
LOADED = 0.2  # seconds more until it begins: meanwhile a new process loads what it needs
Order = Callable[[], Mapping[str, Any]]
Take = Callable[[Mapping[str, Any] | None], Awaitable[None]]


class SlowHalf:
    """`order` is asked for what is wanted when it begins; `take` is awaited with each answer, None for a failure."""

    def __init__(self, order: Order, take: Take) -> None:
        self._order, self._take = order, take
        self.worker = Worker()
        self.settled = False  # whether it is all there
        self._again = asyncio.Event()

    def again(self) -> None:
        """It is wanted anew: what is under way ends."""
        self.settled = False
        self._again.set()

    async def run(self) -> None:
        """Work it out, and again each time it is wanted."""
        while True:
            self._again.clear()
            work = asyncio.create_task(self._work_out())
            try:
                await self._again.wait()
            finally:
                work.cancel()
                await asyncio.gather(work, return_exceptions=True)  # who ends us meanwhile does

    async def _work_out(self) -> None:
        await asyncio.sleep(PAUSE)
        await self.worker.begin()
        await asyncio.sleep(LOADED)
        try:
            async with aclosing(self.worker.answers(self._order())) as answers:
                async for answer in answers:
                    if self._again.is_set():
                        return
                    await self._take(answer)
            self.settled = True
        except WorkerFailed:
            await self._take(None)
