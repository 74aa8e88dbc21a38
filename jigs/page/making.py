"""The set of a job made from the page, by a process of its own: one at a time, and it can be stopped."""

from __future__ import annotations

import asyncio
import json
from asyncio.subprocess import Process
from collections.abc import Awaitable, Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from jigs.page.contract import Said
from jigs.page.contract_state import Listed, Make
from jigs.page.process import Rest, begun, kill
from jigs.sets.swap import tidy

FAILED = Said("refused", "failed", "The set could not be made: the program that makes it ended. Make again.")
Tell = Callable[[], Awaitable[None]]


@dataclass
class Maker:
    """Makes sets in `root`, as the command of that name does."""

    root: Path
    record: Make = field(default_factory=Make)
    text: str = ""  # that the record is of

    def __post_init__(self) -> None:
        self._task: asyncio.Task[None] | None = None
        self._rest: Rest | None = None

    @property
    def busy(self) -> bool:
        return self._task is not None and not self._task.done()

    def told(self, text: str) -> Make:
        """The record for a page whose job has this text now."""
        return replace(self.record, stale=self.record.state != "none" and text != self.text)

    def begin(self, text: str, path: Path, name: str, tell: Tell, *, lean: bool, solids: bool) -> None:
        """Begin with a text that the file at `path` has; `tell` is awaited whenever the record has changed."""
        order = {"text": text, "path": str(path), "root": str(self.root), "lean": lean, "solids": solids}
        self.text, self.record = text, Make("working", str(self.root / name))
        self._task = asyncio.create_task(self._make(order, name, tell))

    def rest(self) -> None:
        """Make room for a hand that drags."""
        if self._rest is not None:
            self._rest.begin()

    async def stop(self) -> None:
        """End what is under way; the old set stands."""
        if self._task is not None and self.busy:
            self._task.cancel()
            await asyncio.gather(self._task, return_exceptions=True)

    async def _make(self, order: Mapping[str, object], name: str, tell: Tell) -> None:
        folder = self.record.folder
        try:
            await self._made(order, tell)
        except asyncio.CancelledError:  # it may be stopped before its process has begun
            self.record = Make("stopped")
            raise
        finally:
            await asyncio.to_thread(tidy, self.root, name)
            if self.record.state == "working":
                self.record = Make("failed", findings=[FAILED])
            self.record = replace(self.record, folder=folder)
            await tell()

    async def _made(self, order: Mapping[str, object], tell: Tell) -> None:
        process = await begun("jigs.page.making_child")
        rest = self._rest = Rest(process)
        try:
            await self._follow(process, order, tell)
        finally:
            rest.forget()
            self._rest = None
            kill(process)
            await process.communicate()

    async def _follow(self, process: Process, order: Mapping[str, object], tell: Tell) -> None:
        orders, told = process.stdin, process.stdout
        if orders is None or told is None:
            return
        with suppress(ConnectionError):
            orders.write(json.dumps(order).encode() + b"\n")
            await orders.drain()
        while line := await told.readline():
            self.record = _record(json.loads(line))
            if self.record.state == "working":
                await tell()


def _record(told: dict[str, Any]) -> Make:
    lists = [Listed(**one) for one in told.pop("lists")]
    findings = [Said(**one) for one in told.pop("findings")]
    return Make(**told, lists=lists, findings=findings)
