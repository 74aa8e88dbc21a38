"""What the page shows, kept up to date: the session, its fast half, and the slow half as it comes in."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jigs.asked.edited import BadEdit, edited
from jigs.asked.toml_source import readings_file
from jigs.compare.wish import PIECES
from jigs.files.manifest import read_manifest
from jigs.page.choices import in_stock, ways_of
from jigs.page.choosing import Chooser
from jigs.page.contract import Fast, Said, as_json
from jigs.page.contract_state import PieceName, Slow, State
from jigs.page.edits import read_changes
from jigs.page.fast import fast
from jigs.page.fields import fields_of
from jigs.page.making import Maker
from jigs.page.noted import Notebook
from jigs.page.on_disk import Stamps, stamps
from jigs.page.reading import Reading, read, said
from jigs.page.session import DiskChanged, Session
from jigs.page.slow_half import SlowHalf
from jigs.page.woods import PALETTE
from jigs.sets.solids import can_be_made
from jigs.words.findings import Refused

WATCH = 0.7  # seconds between two looks at the file
NOTHING_YET = Slow("working", [], [], [], None)
NOT_WORKED_OUT = "The jigs could not be worked out. Change a value, or start the page anew."
FAILED = Slow("failed", [Said("refused", "failed", NOT_WORKED_OUT)], [], [], None)


class NotDone(Exception):
    """A change that was not made: `status` as HTTP has it."""

    def __init__(self, status: int, error: str, findings: Sequence[Said] = ()) -> None:
        super().__init__(error)
        self.status, self.error, self.findings = status, error, list(findings)


@dataclass
class Live:
    """One job file, open in any number of tabs."""

    session: Session
    reading: Reading
    fast: Fast
    maker: Maker
    lean: bool  # whether jigs and work are those of a turner who owns sleds
    slow: Slow | Mapping[str, Any] = NOTHING_YET
    tick: int = 1

    def __post_init__(self) -> None:
        self._news = asyncio.Condition()
        self.turn = asyncio.Lock()
        self.slow_half = SlowHalf(self._order, self._take)
        self.pieces: dict[PieceName, tuple[int, bytes]] = {}
        self.chooser = Chooser()
        self.notebook = Notebook(readings_file(self.path))
        self.notebook.look()
        self._beside: Stamps = {}
        self._beside = self._seen()
        self._tasks: list[asyncio.Task[None]] = []

    def begin(self) -> None:
        """Watch the file and work out the slow half, until `end`."""
        self._tasks = [asyncio.create_task(self._watch()), asyncio.create_task(self.slow_half.run())]

    async def end(self) -> None:
        """Stop watching, end the second process, and wait until it is gone."""
        for task in self._tasks:
            task.cancel()
        await asyncio.gather(*self._tasks, return_exceptions=True)
        await self.maker.stop()
        await self.chooser.stop()
        await self.slow_half.worker.gone()

    @property
    def path(self) -> Path:
        return self.session.path

    def state(self) -> State:
        reading, session = self.reading, self.session
        source = reading.source
        return State(
            tick=self.tick,
            revision=session.revision,
            file=session.path.name,
            unit=reading.unit,
            title=reading.job.title if reading.job else session.path.stem,
            kind=reading.form or "",
            text=session.text,
            disk="gone" if session.gone else "same",
            can_undo=session.can_undo,
            can_redo=session.can_redo,
            news=session.news,
            fast=self.fast,
            make=self.maker.told(session.text),
            lean=self.lean,
            solids=not reading.job or can_be_made(reading.job),
            pieces={name: number for name, (number, _) in self.pieces.items()},
            slow=self.slow,
            fields=fields_of(source, reading.form, reading.unit) if source else [],
            choices=self.chooser.record,
            ways=ways_of(reading.job) if reading.job else [],
            layups=[*PIECES] if reading.job and reading.job.layup else [],
            boards=in_stock(reading.job) if reading.job else "",
            palette=PALETTE,
            readings=dict(self.notebook.stated),
        )

    async def after(self, tick: int, seconds: float) -> State | None:
        """The state once it is newer than `tick`; None if it is not after so many seconds."""
        with suppress(TimeoutError):
            async with self._news:
                await asyncio.wait_for(self._news.wait_for(lambda: self.tick > tick), seconds)
        return self.state() if self.tick > tick else None

    async def tried(self, raw: object) -> Fast:
        """The fast half with changes that are not kept: while a handle is dragged. Raises NotDone."""
        async with self.turn:
            if not self.slow_half.settled:  # it makes way, and begins again when nothing is dragged any more
                self.slow_half.again()
            self.maker.rest()
            self.chooser.rest()
            return await asyncio.to_thread(lambda: fast(read(self._edited(raw), self.path), coarse=True))

    async def change(self, raw: object, revision: object) -> State:
        """Make changes by key and write the file. Raises NotDone, and then nothing is changed."""
        return await self._kept(lambda: self._edited(raw), revision)

    async def rewrite(self, text: str, revision: object) -> State:
        """Take a whole text and write the file. Raises NotDone, and then nothing is changed."""
        return await self._kept(lambda: text, revision)

    async def note(self, id: object, texts: object) -> State:
        """Write into the readings file what was read in the boxes of an id. Raises NotDone, and then nothing is."""
        async with self.turn:
            before = await asyncio.to_thread(self._noted, id, texts)
            reading = await asyncio.to_thread(read, self.session.text, self.path)
            if reading.job is None and self.reading.job is not None:
                self.notebook.put_back(before)
                raise NotDone(422, "Not written down.", said(reading.faults))
            return await self.renewed(reading)

    def _noted(self, id: object, texts: object) -> str | None:
        try:
            return self.notebook.write(id, texts, self.reading.unit)
        except BadEdit as bad:
            raise NotDone(400, str(bad)) from bad
        except Refused as refused:
            raise NotDone(422, "Not written down.", said(refused.findings)) from refused
        except (OSError, UnicodeDecodeError) as error:
            raise NotDone(507, f"{self.notebook.file.name} cannot be written: {error}.") from error

    async def step(self, name: str) -> State:
        """Undo, redo, or put a file back that is gone. Raises NotDone."""
        steps: dict[str, Callable[[], None]] = {
            "undo": self.session.undo, "redo": self.session.redo, "put-back": self.session.put_back,
        }  # fmt: skip
        async with self.turn:
            await self._written(steps[name])
            return await self.renewed()

    def piece(self, name: str) -> bytes:
        """One of the pieces, as JSON. Raises NotDone while there is none."""
        found = next((content for own, (_, content) in self.pieces.items() if own == name), None)
        if found is None:
            raise NotDone(404, "That is not worked out yet.")
        return found

    @property
    def slow_state(self) -> str:
        return self.slow.state if isinstance(self.slow, Slow) else str(self.slow["state"])

    def _edited(self, raw: object) -> str:
        source = self.reading.source
        if source is None:
            raise NotDone(409, "First put the file's text right.", self.fast.findings)
        try:
            return edited(self.session.text, read_changes(raw, source, self.reading.unit))
        except BadEdit as bad:
            raise NotDone(400, str(bad)) from bad

    async def _kept(self, text_of: Callable[[], str], revision: object) -> State:
        async with self.turn:
            self.check(revision)
            text = text_of()
            reading = await asyncio.to_thread(read, text, self.path)
            if reading.job is None and (reading.source is None or self.reading.job is not None):
                raise NotDone(422, "Not changed: the value cannot be used.", said(reading.faults))
            await self._written(lambda: self.session.keep(text))
            return await self.renewed(reading)

    def check(self, revision: object) -> None:
        """Raises NotDone where the browser shows another job than this."""
        if revision != self.session.revision:
            raise NotDone(409, "The job was changed elsewhere. Look at it as it is now, then do it again.")

    async def _written(self, write: Callable[[], None]) -> None:
        try:
            write()
        except DiskChanged as changed:
            await self.renewed()
            raise NotDone(409, self.session.news or "The file was changed on disk.") from changed
        except OSError as error:
            raise NotDone(507, f"The file cannot be written: {error.strerror or error}.") from error

    async def renewed(self, reading: Reading | None = None) -> State:
        """Everything anew from the session's text; the slow half is begun again."""
        if reading is None:
            reading = await asyncio.to_thread(read, self.session.text, self.path)
        self.reading = reading
        self._beside = self._seen()
        self.notebook.look()
        self.fast = await asyncio.to_thread(fast, self.reading)
        self._slow_anew()
        await self.chooser.forget()
        await self.tell()
        return self.state()

    async def without_sleds(self, lean: object) -> State:
        """Show jigs and work as they are without what a turner who owns sleds can do without, or with it."""
        if not isinstance(lean, bool):
            raise NotDone(400, "lean is true or false")
        async with self.turn:
            if lean != self.lean:
                self.lean = lean
                self._slow_anew()
                await self.tell()
            return self.state()

    def _slow_anew(self) -> None:
        self.slow, self.pieces = NOTHING_YET, {}
        self.slow_half.again()

    async def tell(self) -> None:
        self.tick += 1
        async with self._news:
            self._news.notify_all()

    async def _watch(self) -> None:
        while True:
            await asyncio.sleep(WATCH)
            async with self.turn:
                if self.session.look() or self._seen() != self._beside:
                    await self.renewed()

    def _seen(self) -> Stamps:
        """The files beside the job that it is read with."""
        job = self.reading.job
        own = [file for file in job.sources if file != self.path] if job else list(self._beside)
        return stamps({self.notebook.file: None, **dict.fromkeys(own)})

    def _order(self) -> dict[str, object]:
        root = str(self.maker.root)
        return {"text": self.session.text, "path": str(self.path), "root": root, "lean": self.lean}

    async def _take(self, answer: Mapping[str, Any] | None) -> None:
        if answer is None:
            self.slow = FAILED
        elif "piece" in answer:
            name, content = answer["piece"], answer["content"]
            self.pieces[name] = (self.tick + 1, as_json(content))
            if name == "work":
                self.notebook.take(content)
        else:
            self.slow = answer
        await self.tell()


def opened(path: Path, root: Path) -> Live:
    """The page's state of a job file, whose set lands in `root`.

    Raises OSError or UnicodeDecodeError where the file cannot be read.
    """
    session = Session(path)
    session.begin()
    reading = read(session.text, path)
    made = read_manifest(root / reading.job.name) if reading.job else None
    lean = bool(made and made.get("left_out"))  # as the last set was made
    return Live(session, reading, fast(reading), Maker(root.absolute()), lean)
